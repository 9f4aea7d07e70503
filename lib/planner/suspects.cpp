// See suspects.hpp. Tests: tests/planner/trade_rules.cpp.
#include "planner/suspects.hpp"

#include <algorithm>
#include <set>
#include <span>

#include "checks/knowledge.hpp"
#include "planner/numbers.hpp"

namespace whichwire {
namespace {

constexpr std::size_t no_repair = 0;  // of `Suspects::repairs`

bool supply_open(const Fault& fault) {
  const bool supply = fault.part == PartKind::power_pin || fault.part == PartKind::ground_pin ||
                      fault.part == PartKind::feed || fault.part == PartKind::ground ||
                      fault.part == PartKind::connector_power_pin || fault.part == PartKind::connector_ground_pin;
  return supply && fault.kind == FaultKind::open;
}

/// One for each pin that a back-feeding module may have lost. These are suspects of their own: what one reading rules
/// out stays ruled out at the next.
std::vector<Variant> by_lost_pin(const Network& network, const std::vector<Fault>& faults) {
  const std::vector<PresentFault> base = present(faults);
  const auto back = std::find_if(faults.begin(), faults.end(),
                                 [](const Fault& fault) { return fault.kind == FaultKind::back_feeds; });
  if (back == faults.end()) return {{1, base}};
  const Module& module = network.modules[back->owner];
  std::vector<Variant> all;
  const auto lose = [&](PartKind part, std::size_t pins) {
    for (std::size_t i = 0; i < std::max<std::size_t>(pins, 1); ++i) {
      Variant& made = all.emplace_back(Variant{1, base});
      made.faults.push_back(
          {{.kind = FaultKind::open, .part = part, .owner = back->owner, .item = pins == 0 ? nowhere : i}});
    }
  };
  lose(PartKind::power_pin, module.power.size());
  lose(PartKind::ground_pin, module.ground.size());
  for (Variant& variant : all) variant.share = 1.0 / static_cast<double>(all.size());
  return all;
}

class Maker {
 public:
  Maker(const Network& network, const PlannerNumbers& numbers) : network_(network), numbers_(numbers) {
    made.repairs = {""};
  }

  void add(const Hypothesis& set) {
    const auto pulled = std::find_if(set.present.begin(), set.present.end(), [](const Fault& fault) {
      return fault.part == PartKind::reference && fault.kind == FaultKind::short_circuit;
    });
    if (pulled == set.present.end()) return add_one(set, set.weight, nowhere, nullptr);
    const Reference& reference = network_.modules[pulled->owner].references[pulled->item];
    const auto loads = reference.loads.size();
    const double in_wire = loads == 0 ? 1 : knowledge().limit("reference-short-in-wire");
    add_one(set, set.weight * in_wire, nowhere, nullptr);
    for (std::size_t load = 0; load < loads; ++load) {
      add_one(set, set.weight * (1 - in_wire) / static_cast<double>(loads), load, &*pulled);
    }
  }

  Suspects made;

 private:
  std::size_t number_of_repair(const std::string& repair) {
    const auto known = std::find(made.repairs.begin(), made.repairs.end(), repair);
    if (known == made.repairs.end()) made.repairs.push_back(repair);
    return static_cast<std::size_t>(std::find(made.repairs.begin(), made.repairs.end(), repair) - made.repairs.begin());
  }

  void add_one(const Hypothesis& set, double weight, std::size_t load, const Fault* pulled) {
    for (Variant& variant : by_lost_pin(network_, set.present)) {
      for (PresentFault& each : variant.faults) {
        if (pulled != nullptr && each.fault == *pulled) each.load = load;
      }
      add_variant(set, weight * variant.share, load, pulled, {1, std::move(variant.faults)});
    }
  }

  void add_variant(const Hypothesis& set, double weight, std::size_t load, const Fault* pulled, Variant variant) {
    Suspect& suspect = made.all.emplace_back();
    suspect.weight = weight;
    suspect.set = set;
    suspect.load = load;
    suspect.variants = {std::move(variant)};
    if (load != nowhere) suspect.load_name = network_.modules[pulled->owner].references[pulled->item].loads[load];
    for (const Fault& fault : faults_in(suspect)) {
      const bool in_load = pulled != nullptr && fault == *pulled;
      const std::string repair =
          repair_of(network_, to_make_good(suspect, fault)) + (in_load ? ": " + suspect.load_name : "");
      suspect.needs.push_back(fault.kind == FaultKind::not_fitted ? nowhere : number_of_repair(repair));
    }
    split_contacts(suspect);
    split_passing(suspect);
  }

  /// An open supply may still carry a little.
  void split_contacts(Suspect& suspect) const {
    const double share = number_of(numbers_, "bad-contact");
    const std::vector<Variant> open = suspect.variants;
    for (std::size_t i = 0; i < open.size(); ++i) {
      Variant contact = open[i];
      bool any = false;
      for (PresentFault& each : contact.faults) {
        if (!supply_open(each.fault)) continue;
        any = true;
        each.ohms = Interval{number_of(numbers_, "bad-contact-low"), number_of(numbers_, "bad-contact-usual"),
                             number_of(numbers_, "bad-contact-high")};
      }
      if (!any) continue;
      contact.share *= share;
      suspect.variants[i].share *= 1 - share;
      suspect.variants.push_back(std::move(contact));
    }
  }

  void split_passing(Suspect& suspect) const {
    if (suspect.set.passing.empty()) return;
    const double share = number_of(numbers_, "passing-now") / static_cast<double>(suspect.set.passing.size());
    const Variant gone = suspect.variants.front();
    for (const std::vector<Fault>& alone : suspect.set.passing) {
      Variant there = gone;
      there.share *= share;
      suspect.variants.front().share -= there.share;
      for (const PresentFault& each : present(alone)) there.faults.push_back(each);
      suspect.variants.push_back(std::move(there));
    }
  }

  const Network& network_;
  const PlannerNumbers& numbers_;
};

}  // namespace

std::vector<Fault> faults_in(const Suspect& suspect) {
  std::vector<Fault> all = suspect.set.present;
  for (const auto& alone : suspect.set.passing) {
    all.push_back(alone.front());
    all.back().comes_and_goes = true;
  }
  return all;
}

Fault to_make_good(const Suspect& suspect, const Fault& fault) {
  const auto& faults = suspect.variants.front().faults;
  const bool lost = fault.kind == FaultKind::back_feeds && !fault.comes_and_goes && !faults.empty() &&
                    supply_open(faults.back().fault) && faults.back().fault.owner == fault.owner;
  return lost ? faults.back().fault : fault;  // which stands last
}

std::vector<Fault> faults_to_repair(const Suspect& suspect) {
  const std::vector<Fault> faults = faults_in(suspect);
  std::vector<Fault> own;
  for (std::size_t i = 0; i < faults.size(); ++i) {
    if (suspect.needs[i] == suspect.repair) own.push_back(faults[i]);
  }
  return own;
}

std::vector<double> by_need(const Suspects& suspects) {
  std::vector<double> sums(suspects.repairs.size());
  for (const Suspect& suspect : suspects.all) {
    const std::set<std::size_t> needs(suspect.needs.begin(), suspect.needs.end());
    for (const std::size_t repair : needs) {
      if (repair != nowhere) sums[repair] += suspect.weight;
    }
    if (needs.empty() || *needs.begin() == nowhere) sums[no_repair] += suspect.weight;
  }
  return sums;
}

void choose_repairs(Suspects& suspects) {
  const std::vector<double> needed = by_need(suspects);
  for (Suspect& suspect : suspects.all) {
    suspect.repair = no_repair;
    const auto choose = [&](std::span<const std::size_t> needs) {
      for (const std::size_t repair : needs) {
        if (repair == nowhere) continue;
        if (suspect.repair == no_repair || needed[repair] > needed[suspect.repair]) suspect.repair = repair;
      }
    };
    const std::span<const std::size_t> all(suspect.needs);
    choose(all.first(suspect.set.present.size()));
    if (suspect.repair == no_repair) choose(all.subspan(suspect.set.present.size()));
  }
}

namespace {

/// Much of what is not listed may hold the likeliest part's fault for sure, and some other besides: that speaks for its
/// repair, and is taken to show itself at the meter as what is listed of it does.
void count_unlisted(const Ranking& ranking, Suspects& suspects) {
  const std::vector<double> needs = by_need(suspects);
  const auto lead = static_cast<std::size_t>(std::max_element(needs.begin() + 1, needs.end()) - needs.begin());
  if (lead == needs.size()) return;
  const auto needed = std::ranges::find(ranking.needed, suspects.repairs[lead], &Needed::repair);
  if (needed == ranking.needed.end()) return;
  const double more = std::min(needed->at_least - needs[lead], suspects.outside);
  if (more <= 0) return;
  for (Suspect& suspect : suspects.all) {
    if (suspect.repair == lead) suspect.weight *= 1 + more / needs[lead];
  }
  suspects.outside -= more;
}

}  // namespace

Suspects suspects_of(const Network& network, const Ranking& ranking, const PlannerNumbers& numbers) {
  const auto most = static_cast<std::size_t>(number_of(numbers, "most-suspects"));
  const Hypotheses sets = hypotheses_of(network, ranking, most, number_of(numbers, "left-out"));
  Maker maker(network, numbers);
  for (const Hypothesis& set : sets.sets) maker.add(set);
  maker.made.outside = sets.neutral;
  choose_repairs(maker.made);
  count_unlisted(ranking, maker.made);
  return std::move(maker.made);
}

}  // namespace whichwire
