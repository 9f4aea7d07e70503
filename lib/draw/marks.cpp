// What findings say of each part that has a place in the picture: its answer, what is suspected of it, the checks to
// do at it. Faults of one part that would be one mark to the eye are summed; two at once are very rare.
// Tests: tests/draw/marks.cpp.
#include <algorithm>
#include <whichwire/fault.hpp>
#include <whichwire/picture.hpp>

#include "draw/percent.hpp"
#include "network/utf8.hpp"

namespace whichwire {

namespace {

constexpr double least_suspicion = 0.01;

Part part_at(const End& end) {
  switch (end.kind) {
    case End::Kind::module:
      return {Part::Kind::module, end.index};
    case End::Kind::point:
      return {Part::Kind::point, end.index};
    case End::Kind::diagnostic_connector:
      return {Part::Kind::connector};
  }
  return {};
}

/// Where a fault is drawn.
Part place_of(const Network& network, const Fault& fault) {
  switch (fault.part) {
    case PartKind::module:
    case PartKind::power_pin:
    case PartKind::ground_pin:
    case PartKind::reference:
      return {Part::Kind::module, fault.owner};
    case PartKind::segment:
      return {Part::Kind::segment, fault.item, fault.bus};
    case PartKind::feed:
      return {Part::Kind::feed, fault.owner};
    case PartKind::ground:
      return {Part::Kind::ground, fault.owner};
    case PartKind::terminator:
      return part_at(network.buses[fault.bus].terminators[fault.item].at);
    case PartKind::bus:
      return {Part::Kind::bus, fault.bus};
    case PartKind::connector_bus_pin:
    case PartKind::connector_power_pin:
    case PartKind::connector_ground_pin:
      return {Part::Kind::connector};
  }
  return {};
}

/// `A-27`; of a pin that the network does not name, what it is for.
std::string pin_of(const Network& network, const Fault& fault) {
  const std::string part = part_of(network, fault);
  const std::size_t slash = part.find('/');
  const bool feed = fault.part == PartKind::power_pin || fault.part == PartKind::connector_power_pin;
  const bool ground = fault.part == PartKind::ground_pin || fault.part == PartKind::connector_ground_pin;
  if (fault.item == nowhere || slash == std::string::npos) return feed ? "feed" : ground ? "ground" : part;
  return part.substr(slash + 1);
}

std::string short_word(FaultKind kind) {
  switch (kind) {
    case FaultKind::dead:
      return "itself";
    case FaultKind::holds:
      return "holds bus";
    case FaultKind::babbles:
      return "floods bus";
    case FaultKind::unconfigured:
      return "not set up";
    case FaultKind::not_forwarding:
      return "passes none";
    case FaultKind::port_dead:
      return "port";
    case FaultKind::back_feeds:
      return "back-feeds";
    case FaultKind::not_fitted:
      return "not fitted";
    case FaultKind::open:
      return "open";
    case FaultKind::short_circuit:
      return "short";
    case FaultKind::resistive:
      return "corroded";
    case FaultKind::missing:
      return "no resistor";
    case FaultKind::extra:
      return "resistor too many";
    case FaultKind::added_device:
      return "added device";
  }
  return "";
}

std::string what_of(const Network& network, const Fault& fault) {
  const std::string word = short_word(fault.kind);
  switch (fault.part) {
    case PartKind::power_pin:
    case PartKind::ground_pin:
    case PartKind::reference:
    case PartKind::connector_bus_pin:
    case PartKind::connector_power_pin:
    case PartKind::connector_ground_pin:
      return pin_of(network, fault) + " " + word;
    case PartKind::segment:
      return fault.lines == Lines::both ? word : word + " " + std::string(word_for(fault.lines));
    default:
      return fault.kind == FaultKind::port_dead || fault.kind == FaultKind::holds || fault.kind == FaultKind::babbles
                 ? word + " " + network.buses[fault.bus].id
                 : word;
  }
}

std::vector<Suspicion> suspicions_of(const Network& network, const Ranking& ranking) {
  std::vector<Suspicion> all;
  for (const Marginal& marginal : ranking.marginals) {
    const Suspicion one{place_of(network, marginal.fault), what_of(network, marginal.fault), marginal.probability.low};
    const auto same = std::ranges::find_if(
        all, [&](const Suspicion& other) { return other.part == one.part && other.what == one.what; });
    if (same == all.end()) {
      all.push_back(one);
    } else {
      same->probability = std::min(1.0, same->probability + one.probability);
    }
  }
  std::erase_if(all, [](const Suspicion& one) { return one.probability < least_suspicion; });
  std::ranges::stable_sort(all, std::greater(), &Suspicion::probability);
  return all;
}

/// The part with this id, of those that a check is done at.
Part part_called(const Network& network, const std::string& id) {
  if (id == "DLC") return {Part::Kind::connector};
  const auto found = [&](Part::Kind kind, const auto& all) {
    const std::size_t index = index_of(all, id);
    return index == nowhere ? Part{} : Part{kind, index};
  };
  for (const Part part : {found(Part::Kind::module, network.modules), found(Part::Kind::point, network.points),
                          found(Part::Kind::feed, network.feeds), found(Part::Kind::ground, network.grounds),
                          found(Part::Kind::bus, network.buses)}) {
    if (part.kind != Part::Kind::none) return part;
  }
  return {};
}

std::vector<Answer> known_answers(const Scan& scan, const std::string& module) {
  std::vector<Answer> answers;
  for (const ModuleSeen& seen : scan.modules)
    if (seen.module == module) answers.push_back(seen.answer);
  return answers;
}

}  // namespace

Marks marks_of(const Network& network, const Scan& scan, const Ranking& ranking, const Verdict& verdict,
               const CheckPlan& plan, std::size_t most_checks) {
  Marks marks;
  for (const Module& module : network.modules) {
    const std::vector<Answer> answers = known_answers(scan, module.id);
    marks.answers.push_back(answers.empty() ? std::nullopt : std::optional(answers.front()));
  }
  marks.suspicions = suspicions_of(network, ranking);
  for (std::size_t i = 0; i < std::min(plan.checks.size(), most_checks); ++i) {
    const Check& check = plan.checks[i];
    const Part part = part_called(network, check.part);
    if (part.kind != Part::Kind::none)
      marks.probes.push_back({part, i + 1, check.pin.empty() ? check.mode : check.pin});
  }
  marks.headline = verdict.headline + " (" + draw::percent(verdict.headline_probability) + ")";
  return marks;
}

}  // namespace whichwire
