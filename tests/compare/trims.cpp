// The two trims of the van: what is matched, and which faults look different, against enumeration question by question
// with the library's slow way of asking, by names.
#include <map>
#include <set>
#include <whichwire/compare.hpp>
#include <whichwire/expected_scan.hpp>

#include "compare/networks.hpp"
#include "effort.hpp"

using namespace whichwire;

namespace {

/// Parts of the base trim that the high trim calls otherwise.
const std::map<std::string, std::string>& other_names() {
  static const std::map<std::string, std::string> names = {
      {"SAS", "SCM"}, {"RAD", "NAV"}, {"DRV-3", "DRV-17"}, {"INF-3", "INF-4"}, {"radio", "sound"}};
  return names;
}

/// The words of the base trim in those of the high one.
std::string renamed(const std::string& words) {
  std::string all, word;
  const auto take = [&] {
    const auto found = other_names().find(word);
    all += found == other_names().end() ? word : found->second;
    word.clear();
  };
  for (const char letter : words) {
    if (letter != ' ' && letter != '/') {
      word += letter;
      continue;
    }
    take();
    all += letter;
  }
  take();
  return all;
}

/// What is down or in doubt in every sort of scan, as text, in the names of the high trim. Codes of silent modules are
/// not read.
std::set<std::string> all_shown(const Effects& effects, const Fault& fault, bool base) {
  const Network& network = effects.network();
  const auto name = [&](const std::string& id) { return base ? renamed(id) : id; };
  std::set<std::string> shown;
  for (const KeyState key : {KeyState::off, KeyState::accessory, KeyState::run, KeyState::start}) {
    for (const bool own_battery : {false, true}) {
      const ExpectedScan expected = expected_scan(effects, {&fault, 1}, {key, own_battery});
      std::set<std::size_t> readable;
      for (std::size_t i = 0; i < expected.questions.size(); ++i) {
        const bool answers = expected.questions[i].about == Question::About::answers;
        if (answers && expected.levels[i] != Level::down) readable.insert(expected.questions[i].a);
      }
      for (std::size_t i = 0; i < expected.questions.size(); ++i) {
        const Question& question = expected.questions[i];
        if (expected.levels[i] == Level::up) continue;
        std::string text = std::to_string(static_cast<int>(key)) + (own_battery ? " own " : " ") +
                           std::to_string(static_cast<int>(expected.levels[i]));
        switch (question.about) {
          case Question::About::answers:
            text += " answers " + name(network.modules[question.a].id);
            break;
          case Question::About::hears:
            if (readable.count(question.a) == 0) continue;
            text += " hears " + name(network.modules[question.a].id) + " " + name(network.modules[question.b].id);
            break;
          case Question::About::bus:
            if (readable.count(question.a) == 0) continue;
            text += " bus " + name(network.modules[question.a].id) + " " + network.buses[question.b].id;
            break;
          case Question::About::function:
            text += " function " + name(network.functions[question.a].id);
            break;
          case Question::About::fitted:
            text += " fitted " + name(network.modules[question.a].id);
            break;
        }
        shown.insert(text);
      }
    }
  }
  return shown;
}

}  // namespace

TEST_CASE("of the van's two trims the renamed parts are matched, and nothing else is called renamed") {
  const Network base = test::shipped("van-base"), high = test::shipped("van-high");
  std::map<std::string, std::string> found;
  for (const Difference& one : differences(base, high)) {
    if (one.sort == Difference::Sort::renamed) found[one.a] = one.b;
  }
  CHECK(found == other_names());
}

TEST_CASE("the faults that look different between the van's trims are those of enumeration, and so are classes" *
          doctest::skip(test::only_few())) {
  const Network base = test::shipped("van-base"), high = test::shipped("van-high");
  const Effects effects_base(base), effects_high(high);
  std::map<std::string, Fault> in_high;
  for (const Fault& fault : faults_of(high)) in_high[text_of(high, fault)] = fault;
  std::set<std::string> expected;
  using Classes = std::map<std::set<std::string>, std::set<std::set<std::string>>>;
  Classes by_base, by_high;
  std::size_t shared = 0;
  for (const Fault& fault : faults_of(base)) {
    const auto other = in_high.find(renamed(text_of(base, fault)));
    if (other == in_high.end()) continue;
    ++shared;
    const auto of_base = all_shown(effects_base, fault, true), of_high = all_shown(effects_high, other->second, false);
    if (of_base != of_high) expected.insert(text_of(base, fault));
    by_base[of_base].insert(of_high);
    by_high[of_high].insert(of_base);
  }
  const Comparison comparison = compare(effects_base, effects_high);
  std::set<std::string> found;
  for (const LooksDifferent& group : comparison.looks_different) {
    for (const auto& pair : group.faults) {
      CHECK(renamed(text_of(base, pair.in_a)) == text_of(high, pair.in_b));
      found.insert(text_of(base, pair.in_a));
    }
  }
  CHECK(comparison.faults_shared == shared);
  CHECK(found == expected);
  CHECK(expected.size() > 100);
  // How many groups each class falls into on the other side.
  const auto sizes = [](const Classes& classes) {
    std::multiset<std::size_t> all;
    for (const auto& [shown, others] : classes) {
      if (others.size() > 1) all.insert(others.size());
    }
    return all;
  };
  std::multiset<std::size_t> told_in_b, told_in_a;
  for (const ToldApart& told : comparison.told_apart) (told.in_b ? told_in_b : told_in_a).insert(told.groups.size());
  CHECK(told_in_b == sizes(by_base));
  CHECK(told_in_a == sizes(by_high));
  CHECK(told_in_b.size() + told_in_a.size() > 0);
}
