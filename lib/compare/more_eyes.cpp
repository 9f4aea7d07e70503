#include "compare/more_eyes.hpp"

#include <algorithm>
#include <map>
#include <set>

#include "checks/sight.hpp"
#include "effects/compiled.hpp"
#include "effects/predictor.hpp"

namespace whichwire {
namespace {

using Levels = std::vector<Raised>;

Levels predicted(Predictor& predictor, const Fault& fault) {
  Levels raised;
  if (fault.comes_and_goes) {
    predictor.left_behind(fault, raised);
  } else {
    const Fault* only[] = {&fault};
    predictor.present(only, {}, raised);
  }
  return raised;
}

/// Keeps the best `most`, those that tell nothing apart left out.
template <class T>
void keep_best(std::vector<T>& all, std::size_t most) {
  std::erase_if(all, [](const T& one) { return one.pairs == 0; });
  std::stable_sort(all.begin(), all.end(), [](const T& x, const T& y) { return x.pairs > y.pairs; });
  all.resize(std::min(all.size(), most));
}

/// Every code that no module is known to store and that could be: the reporter and the sender live with the key on.
std::vector<Question> codes_not_listed(const Effects& effects) {
  std::vector<Question> questions;
  const auto& modules = effects.network().modules;
  for (std::size_t a = 0; a < modules.size(); ++a) {
    for (std::size_t b = 0; b < modules.size(); ++b) {
      const Question question{Question::About::hears, a, b};
      const auto& list = modules[a].listens_to;
      const bool listed = list && std::find(list->begin(), list->end(), b) != list->end();
      if (a == b || listed || !effects.awake(a, KeyState::run) || !effects.awake(b, KeyState::run)) continue;
      if (effects.answerable(question)) questions.push_back(question);
    }
  }
  return questions;
}

/// The listeners that tell most, for each sender; codes come by listener.
std::vector<ExtraListening> best_of_each_sender(const std::vector<Question>& codes,
                                                const std::vector<std::size_t>& pairs) {
  std::vector<ExtraListening> all;
  for (std::size_t i = 0; i < codes.size(); ++i) {
    auto known = std::ranges::find(all, codes[i].b, &ExtraListening::sender);
    if (known == all.end()) known = all.insert(all.end(), {{}, codes[i].b, 0});
    if (pairs[i] > known->pairs) *known = {{}, codes[i].b, pairs[i]};
    if (pairs[i] == known->pairs) known->listeners.push_back(codes[i].a);
  }
  return all;
}

/// Pairs of a class that the question tells apart, given who raises it to which level; the others leave it `up`.
std::size_t told_apart(const AlikeClass& faults, const std::vector<std::pair<std::size_t, Level>>& raised) {
  std::map<Level, std::vector<std::size_t>> by_level;
  std::vector<bool> is_raised(faults.faults.size(), false);
  for (const auto& [fault, level] : raised) {
    by_level[level].push_back(faults.repairs[fault]);
    is_raised[fault] = true;
  }
  for (std::size_t f = 0; f < is_raised.size(); ++f) {
    if (!is_raised[f]) by_level[Level::up].push_back(faults.repairs[f]);
  }
  std::size_t alike = 0;
  for (const auto& [level, repairs] : by_level) alike += pairs_among(repairs);
  return pairs_among(faults.repairs) - alike;
}

/// The network with the tool at one place of one bus, and nowhere else.
class AtAccess {
 public:
  AtAccess(Network network, std::size_t bus, const End& at) : network_(std::move(network)) {
    for (Bus& one : network_.buses) take_connector_off(one);
    Segment lead;
    lead.id = "lead of the tool";
    lead.from = {End::Kind::diagnostic_connector, nowhere};
    lead.to = at;
    network_.buses[bus].segments.push_back(lead);
    network_.diagnostic_connector.buses = {{bus, {}}};
  }
  const Network& network() const { return network_; }

 private:
  /// What led to the connector leads to a plug with nothing in it.
  void take_connector_off(Bus& bus) {
    const End plug{End::Kind::point, network_.points.size()};
    bool used = false;
    const auto replace = [&](End& end) {
      if (end.kind != End::Kind::diagnostic_connector) return;
      end = plug;
      used = true;
    };
    for (Segment& segment : bus.segments) {
      replace(segment.from);
      replace(segment.to);
    }
    for (Terminator& terminator : bus.terminators) replace(terminator.at);
    if (used) network_.points.push_back({"connector of " + bus.id, Point::Kind::hidden, {}});
  }

  Network network_;
};

bool at_connector(const Fault& fault) {
  return fault.part == PartKind::connector_bus_pin || fault.part == PartKind::connector_power_pin ||
         fault.part == PartKind::connector_ground_pin;
}

/// Ends of the bus where a tool can be plugged in: plugs and connectors that may be reached.
std::vector<End> places_of(const Network& network, const Bus& bus) {
  std::vector<End> ends;
  for (const Segment& segment : bus.segments) {
    for (const End& end : {segment.from, segment.to}) {
      if (end.kind == End::Kind::diagnostic_connector || std::find(ends.begin(), ends.end(), end) != ends.end())
        continue;
      if (end.kind == End::Kind::module && out_of_bounds(network.modules[end.index])) continue;
      if (end.kind == End::Kind::point && network.points[end.index].kind == Point::Kind::hidden) continue;
      ends.push_back(end);
    }
  }
  return ends;
}

std::size_t told_apart_from(const Network& network, const std::vector<AlikeClass>& classes) {
  const Effects effects(network);
  const Circumstances circumstances{KeyState::run, true};
  std::vector<Question> questions;
  for (std::size_t m = 0; m < network.modules.size(); ++m) {
    const Question question{Question::About::answers, m, nowhere};
    if (effects.awake(m, KeyState::run) && effects.answerable(question)) questions.push_back(question);
  }
  Predictor predictor(effects.compiled(), questions, circumstances);
  std::size_t pairs = 0;
  for (const AlikeClass& one : classes) {
    std::map<std::vector<std::pair<std::uint32_t, Level>>, std::vector<std::size_t>> groups;
    for (std::size_t f = 0; f < one.faults.size(); ++f) {
      std::vector<std::pair<std::uint32_t, Level>> shown;
      if (!at_connector(one.faults[f])) {
        for (const Raised& raised : predicted(predictor, one.faults[f]))
          shown.emplace_back(raised.question, raised.level);
      }
      groups[shown].push_back(one.repairs[f]);
    }
    std::size_t alike = 0;
    for (const auto& [shown, repairs] : groups) alike += pairs_among(repairs);
    pairs += pairs_among(one.repairs) - alike;
  }
  return pairs;
}

}  // namespace

std::size_t pairs_among(const std::vector<std::size_t>& repairs) {
  std::map<std::size_t, std::size_t> counts;
  for (const std::size_t repair : repairs) ++counts[repair];
  std::size_t same = 0;
  for (const auto& [repair, count] : counts) same += count * count;
  return (repairs.size() * repairs.size() - same) / 2;
}

std::vector<ExtraListening> extra_listening(const Effects& effects, const std::vector<AlikeClass>& classes,
                                            std::size_t most) {
  const auto codes = codes_not_listed(effects);
  std::vector<Question> questions = codes;
  for (std::size_t m = 0; m < effects.network().modules.size(); ++m)
    questions.push_back({Question::About::answers, m, nowhere});
  Predictor predictor(effects.compiled(), questions, {KeyState::run, false});
  std::vector<std::size_t> pairs(codes.size());
  for (const AlikeClass& one : classes) {
    std::map<std::uint32_t, std::vector<std::pair<std::size_t, Level>>> raised_by;
    for (std::size_t f = 0; f < one.faults.size(); ++f) {
      const Levels levels = predicted(predictor, one.faults[f]);
      std::set<std::size_t> silent;
      for (const Raised& raised : levels) {
        const bool answers = raised.question >= codes.size();
        if (answers && raised.level == Level::down) silent.insert(questions[raised.question].a);
      }
      for (const Raised& raised : levels) {
        if (raised.question >= codes.size() || silent.count(questions[raised.question].a) != 0) continue;
        raised_by[raised.question].emplace_back(f, raised.level);
      }
    }
    for (const auto& [question, raised] : raised_by) pairs[question] += told_apart(one, raised);
  }
  std::vector<ExtraListening> all = best_of_each_sender(codes, pairs);
  keep_best(all, most);
  return all;
}

std::vector<AccessPoint> access_points(const Network& network, const std::vector<AlikeClass>& classes,
                                       std::size_t most) {
  std::vector<AccessPoint> all;
  for (std::size_t bus = 0; bus < network.buses.size(); ++bus) {
    for (const End& at : places_of(network, network.buses[bus]))
      all.push_back({bus, at, told_apart_from(AtAccess(network, bus, at).network(), classes)});
  }
  keep_best(all, most);
  return all;
}

}  // namespace whichwire
