// Blind spots against plain enumeration: every fault of every shipped network, every sort of scan, question by
// question, compared as text. Predicted by lib/effects, which tests/differential holds against a plain reference; for
// the smallest network by that reference itself, which shares no code with the library and is slow.
#include <array>
#include <functional>
#include <map>
#include <memory>
#include <set>
#include <whichwire/blindspots.hpp>
#include <whichwire/expected_scan.hpp>

#include "building.hpp"
#include "checks/hypotheses.hpp"
#include "compare/networks.hpp"
#include "differential/plain_effects.hpp"
#include "effects/predictor.hpp"
#include "effort.hpp"

using namespace whichwire;
using namespace whichwire::test;

namespace {

/// Tool, key, kind of question, its two subjects, level: of each question that is down or in doubt in some scan.
using Seen = std::set<std::array<std::size_t, 6>>;
using Classes = std::map<Seen, std::vector<Fault>>;

/// The level of each question of one sort of scan under one fault.
using Levels = std::function<std::vector<Level>(const Fault&)>;
using Predict = Levels (*)(const Effects&, const std::vector<Question>&, const Circumstances&);

Levels by_library(const Effects& effects, const std::vector<Question>& questions, const Circumstances& how) {
  return [predictor = std::make_shared<Predictor>(effects.compiled(), questions, how),
          count = questions.size()](const Fault& fault) {
    std::vector<Raised> raised;
    const Fault* only[] = {&fault};
    if (fault.comes_and_goes) {
      predictor->left_behind(fault, raised);
    } else {
      predictor->present(only, {}, raised);
    }
    std::vector<Level> levels(count, Level::up);
    for (const Raised& one : raised) levels[one.question] = one.level;
    return levels;
  };
}

Levels by_reference(const Effects& effects, const std::vector<Question>& questions, const Circumstances& how) {
  return [&network = effects.network(), questions, how](const Fault& fault) {
    return plain_predict(network, {&fault, 1}, questions, how);
  };
}

struct SortOfScan {
  Circumstances how;
  std::vector<Question> questions;
  Levels levels;
};

/// A key state in which the same feeds are live as in one before shows nothing else.
std::vector<SortOfScan> sorts_of_scan(const Effects& effects, Predict predict) {
  std::vector<SortOfScan> all;
  std::set<std::vector<bool>> known;
  for (const KeyState key : {KeyState::off, KeyState::accessory, KeyState::run, KeyState::start}) {
    std::vector<bool> live;
    for (const Feed& feed : effects.network().feeds) live.push_back(feed.live[static_cast<std::size_t>(key)]);
    if (!known.insert(live).second) continue;
    for (const bool own_battery : {false, true}) {
      const Circumstances how{key, own_battery};
      const std::vector<Question> questions = expected_scan(effects, {}, how).questions;
      all.push_back({how, questions, predict(effects, questions, how)});
    }
  }
  return all;
}

/// What is down or in doubt; codes of modules that do not answer are not read.
void add_shown(const SortOfScan& scan, const std::vector<Level>& levels, Seen& shown) {
  std::set<std::size_t> silent;
  for (std::size_t i = 0; i < levels.size(); ++i) {
    const Question& question = scan.questions[i];
    if (question.about == Question::About::answers && levels[i] == Level::down) silent.insert(question.a);
  }
  for (std::size_t i = 0; i < levels.size(); ++i) {
    const Question& question = scan.questions[i];
    const bool code = question.about == Question::About::hears || question.about == Question::About::bus;
    if (levels[i] == Level::up || (code && silent.count(question.a) != 0)) continue;
    shown.insert({scan.how.tool_has_own_battery ? 1U : 0U, static_cast<std::size_t>(scan.how.key),
                  static_cast<std::size_t>(question.about), question.a, question.b,
                  static_cast<std::size_t>(levels[i])});
  }
}

Classes plain_classes(const Effects& effects, Predict predict) {
  const std::vector<SortOfScan> scans = sorts_of_scan(effects, predict);
  Classes classes;
  for (const Fault& fault : faults_of(effects.network())) {
    Seen shown;
    for (const SortOfScan& scan : scans) add_shown(scan, scan.levels(fault), shown);
    classes[shown].push_back(fault);
  }
  return classes;
}

std::set<std::string> texts(const Network& network, const std::vector<Fault>& faults) {
  std::set<std::string> all;
  for (const Fault& fault : faults) all.insert(text_of(network, fault) + (fault.comes_and_goes ? " passing" : ""));
  return all;
}

/// Pairs that need different repairs, one by one.
std::size_t pairs_of(const Network& network, const std::vector<Fault>& faults) {
  const auto repair = [&](const Fault& fault) {
    return fault.kind == FaultKind::not_fitted ? std::string() : repair_of(network, fault);
  };
  std::size_t pairs = 0;
  for (std::size_t i = 0; i < faults.size(); ++i) {
    for (std::size_t j = 0; j < i; ++j) pairs += repair(faults[i]) != repair(faults[j]) ? 1 : 0;
  }
  return pairs;
}

void equal_to_enumeration(const std::string& name, Predict predict) {
  CAPTURE(name);
  const Network network = shipped(name);
  const Effects effects(network);
  const Blindspots found = blindspots(effects);
  const Classes classes = plain_classes(effects, predict);
  std::set<std::set<std::string>> expected, told, unseen;
  std::size_t faults = 0, pairs = 0;
  for (const auto& one : classes) {
    if (one.first.empty()) unseen.insert(texts(network, one.second));
    faults += one.second.size();
    pairs += pairs_of(network, one.second);
    if (one.second.size() > 1 || one.first.empty()) expected.insert(texts(network, one.second));
  }
  for (const AlikeFaults& alike : found.alike) {
    told.insert(texts(network, alike.faults));
    CHECK(alike.shown.empty() == (unseen.count(texts(network, alike.faults)) != 0));
  }
  CHECK(found.faults == faults);
  CHECK(found.kinds_of_scan == classes.size());
  CHECK(found.pairs == pairs);
  CHECK(told == expected);
}

/// One bus with the tool on it; B is heard by A, C by nobody that is known.
Network three_modules() {
  Building made;
  made.bus("CAN", Protocol::can_hs, 500000);
  for (const char* id : {"A", "B", "C"}) {
    made.module(id);
    made.segment("CAN", std::string("CAN-") + id, "S1", id);
  }
  made.segment("CAN", "CAN-DLC", "S1", "DLC");
  made.connect("CAN", "6", "14");
  for (const char* id : {"A", "B", "C"}) made.the_module(id).listens_to = std::vector<std::size_t>{};
  made.the_module("A").listens_to = std::vector<std::size_t>{made.module("B")};
  made.the_module("C").listens_to = std::vector<std::size_t>{made.module("A")};
  return made.network;
}

}  // namespace

TEST_CASE("blind spots of every shipped network equal to plain enumeration") {
  for (const std::string& name : some_of(shipped_names())) equal_to_enumeration(name, by_library);
  equal_to_enumeration("template-one-bus", by_reference);
}

TEST_CASE("silence that no code and no function shows is named, and whether that is certain") {
  Network network = three_modules();
  std::vector<Unnoticed> unnoticed = blindspots(Effects(network)).unnoticed;
  REQUIRE(unnoticed.size() == 1);
  CHECK(unnoticed[0].module == index_of(network.modules, "C"));
  CHECK(unnoticed[0].certain);
  network.modules[index_of(network.modules, "B")].listens_to.reset();
  unnoticed = blindspots(Effects(network)).unnoticed;
  REQUIRE(unnoticed.size() == 1);
  CHECK_FALSE(unnoticed[0].certain);
  Function horn;
  horn.id = "horn";
  horn.modules = {index_of(network.modules, "C")};
  network.functions.push_back(horn);
  CHECK(blindspots(Effects(network)).unnoticed.empty());
}

TEST_CASE("once the network has one more code, at least as many pairs are gone as that code was said to tell apart") {
  for (const std::string name : {"compact-car", "older-single-wire", "template-one-bus"}) {
    CAPTURE(name);
    const Network network = shipped(name);
    const Blindspots before = blindspots(Effects(network));
    REQUIRE_FALSE(before.listening.empty());
    for (const ExtraListening& extra : before.listening) {
      Network with = network;
      auto& list = with.modules[extra.listeners.front()].listens_to;
      if (!list) list.emplace();
      list->push_back(extra.sender);
      CAPTURE(with.modules[extra.listeners.front()].id);
      CAPTURE(with.modules[extra.sender].id);
      const std::size_t gone = before.pairs - blindspots(Effects(with)).pairs;
      CHECK(gone >= extra.pairs);  // more where the code tells something in another key state, too
      CHECK(gone <= extra.pairs + extra.pairs / 20);
    }
  }
}

TEST_CASE("a second scan from a module's plug is proposed where it tells the connector's own lead from the bus") {
  // From the connector its own broken lead looks like a short anywhere: nothing answers. From a module's plug it does
  // not.
  Building made;
  made.bus("CAN", Protocol::can_hs, 125000);
  for (const char* id : {"A", "B"}) made.module(id);
  made.segment("CAN", "CAN-1", "DLC", "S1");
  made.segment("CAN", "CAN-2", "S1", "A");
  made.segment("CAN", "CAN-3", "S1", "B");
  made.connect("CAN", "6", "14");
  const Blindspots found = blindspots(Effects(made.network));
  REQUIRE_FALSE(found.access.empty());
  CHECK(found.access[0].pairs > 0);
  for (std::size_t i = 1; i < found.access.size(); ++i) CHECK(found.access[i].pairs <= found.access[i - 1].pairs);
}
