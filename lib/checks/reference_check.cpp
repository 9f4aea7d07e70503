// The sensor supply of a module: up, pulled down by a load or by its wire, or not put out at all.
// Source of the method: common practice, no source. Tests: tests/checks/supply_checks.cpp.
#include "checks/sight.hpp"
#include "checks/supply_checks.hpp"

namespace whichwire {
namespace {

std::string listed(const std::vector<std::string>& loads) {
  std::string all;
  for (const std::string& load : loads) all += (all.empty() ? "" : ", ") + load;
  return all.empty() ? "not listed" : all;
}

}  // namespace

Candidate reference_check(const Job& job, std::size_t module, std::size_t item) {
  const Module& owner = job.network.modules.at(module);
  const Reference& reference = owner.references.at(item);
  Candidate made =
      build(job, "reference", {owner.id, reference.pin, reference.wire, {}, {}},
            {{"ref", reference.id}, {"loads", listed(reference.loads)}}, "reference:" + owner.id + "/" + reference.id);
  made.hazards = owner.place.hazards;
  const std::size_t back = outcome_named(made, "back"), stays = outcome_named(made, "stays");
  const std::size_t above = outcome_named(made, "above");
  const double in_wire = knowledge().limit("reference-short-in-wire");
  made.sees = first_seen([=, &network = job.network](const Fault& fault) {
    const bool own = fault.part == PartKind::reference && fault.owner == module && fault.item == item;
    if (own && fault.to == ShortTo::ground) return Sight{back, 1, stays, in_wire};
    if (own && fault.to == ShortTo::supply) return sight(true, above);
    if (own || of_module(fault, FaultKind::dead, module) || unpowers(network, fault, module)) return sight(true, stays);
    return sight(of_module(fault, FaultKind::back_feeds, module), stays, 0.5);
  });
  return made;
}

}  // namespace whichwire
