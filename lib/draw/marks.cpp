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

/// Adds to what is suspected; the same of one part is summed.
void suspect(std::vector<Suspicion>& all, const Suspicion& one) {
  const auto same = std::ranges::find_if(
      all, [&](const Suspicion& other) { return other.part == one.part && other.what == one.what; });
  if (same == all.end()) {
    all.push_back(one);
  } else {
    same->probability = std::min(1.0, same->probability + one.probability);
  }
}

std::vector<Suspicion> worth_a_mark(std::vector<Suspicion> all) {
  std::erase_if(all, [](const Suspicion& one) { return one.probability < least_suspicion; });
  std::ranges::stable_sort(all, std::greater(), &Suspicion::probability);
  return all;
}

std::vector<Suspicion> suspicions_of(const Network& network, const Ranking& ranking) {
  std::vector<Suspicion> all;
  for (const Marginal& marginal : ranking.marginals)
    suspect(all, {place_of(network, marginal.fault), what_of(network, marginal.fault), marginal.probability.low});
  return worth_a_mark(std::move(all));
}

std::vector<Suspicion> suspicions_of(const Network& network, const Assessment& assessment) {
  std::vector<Suspicion> all;
  for (const Repair& repair : assessment.repairs)
    for (const Fault& fault : repair.likeliest)
      suspect(all, {place_of(network, fault), what_of(network, fault), repair.probability.low});
  return worth_a_mark(std::move(all));
}

std::optional<Answer> answer_of(const Scan& scan, const std::string& module) {
  const auto seen = std::ranges::find(scan.modules, module, &ModuleSeen::module);
  return seen == scan.modules.end() ? std::nullopt : std::optional(seen->answer);
}

Marks answers_of(const Network& network, const Scan& scan) {
  Marks marks;
  for (const Module& module : network.modules) marks.answers.push_back(answer_of(scan, module.id));
  return marks;
}

void probe(Marks& marks, const Network& network, const Check& check, std::size_t number) {
  const Part part = part_called(network, check.part);
  if (part.kind != Part::Kind::none) marks.probes.push_back({part, number, check.pin.empty() ? check.mode : check.pin});
}

}  // namespace

Part part_called(const Network& network, std::string_view id) {
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

Marks marks_of(const Network& network, const Scan& scan, const Ranking& ranking, const Verdict& verdict,
               const CheckPlan& plan, std::size_t most_checks) {
  Marks marks = answers_of(network, scan);
  marks.suspicions = suspicions_of(network, ranking);
  for (std::size_t i = 0; i < std::min(plan.checks.size(), most_checks); ++i)
    probe(marks, network, plan.checks[i], i + 1);
  marks.headline = verdict.headline + " (" + draw::percent(verdict.headline_probability) + ")";
  return marks;
}

Marks marks_of(const Network& network, const Scan& scan, const Assessment* assessment) {
  Marks marks = answers_of(network, scan);
  if (assessment == nullptr) return marks;
  marks.suspicions = suspicions_of(network, *assessment);
  if (assessment->next.check) probe(marks, network, *assessment->next.check, 1);
  return marks;
}

}  // namespace whichwire
