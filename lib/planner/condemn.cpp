// What may be said now. See condemn.hpp. Tests: tests/planner/trade_rules.cpp.
#include "planner/condemn.hpp"

#include <algorithm>

#include "checks/sight.hpp"
#include "planner/confirm.hpp"
#include "planner/numbers.hpp"
#include "planner/offer.hpp"
#include "planner/retake.hpp"

namespace whichwire {
namespace {

bool out_of_reach(const Network& network, const Fault& fault) {
  const bool of_module = fault.part == PartKind::module || fault.part == PartKind::power_pin ||
                         fault.part == PartKind::ground_pin || fault.part == PartKind::reference;
  return of_module && out_of_bounds(network.modules[fault.owner]);
}

bool ends_out_of_reach(const Network& network, const Fault& fault) {
  if (fault.part != PartKind::segment) return false;
  const Segment& segment = network.buses[fault.owner].segments[fault.item];
  const auto beyond = [&](const End& end) {
    return end.kind == End::Kind::module && out_of_bounds(network.modules[end.index]);
  };
  return beyond(segment.from) || beyond(segment.to);
}

class Judge {
 public:
  Judge(const Court& court, const std::vector<Repair>& repairs) : court_(court), repairs_(repairs) {}

  Decision make(const std::optional<Check>& next) {
    if (repairs_.empty()) {
      made_.missing.emplace_back("nothing that is listed fits: scan again");
      return made_;
    }
    const Repair& lead = repairs_.front();
    made_.repair = lead.what;
    made_.probability = lead.probability;
    const Suspect* suspect = likeliest(court_.weighing.suspects, lead.what);
    const std::vector<Fault> faults = suspect != nullptr ? faults_to_repair(*suspect) : std::vector<Fault>{};
    list(faults);
    if (suspect != nullptr && lead.probability.low >= number("probable")) look_at_parts(*suspect);
    if (lead.probability.low >= number("proven")) look_for_slips(lead);
    made_.standing = standing(lead, !next);
    if (made_.standing == Standing::cannot_condemn && made_.missing.empty()) {
      made_.missing.push_back(what_would_tell(!next));
    }
    weigh_costs(lead, next);
    return made_;
  }

 private:
  double number(std::string_view what) const { return number_of(court_.bench.numbers, what); }

  void list(const std::vector<Fault>& faults) {
    for (const Fault& fault : faults) {
      if (!inside_module(fault)) continue;
      for (RuleOut& item : to_rule_out(court_, fault)) {
        if (item.by.empty()) made_.missing.push_back(item.what);
        made_.ruled_out.push_back(std::move(item));
      }
    }
  }

  /// The part itself was seen to be at fault, or cannot be looked at.
  void look_at_parts(const Suspect& suspect) {
    for (const Confirmation& part : confirmations_of(court_, suspect)) {
      if (!part.by.empty() || part.check == nullptr) continue;
      made_.missing.push_back(part.what);
    }
  }

  /// No reading on which it hangs may well have been a slip.
  void look_for_slips(const Repair& lead) {
    const Prospect* const once = retake_before(court_, lead);
    if (once != nullptr) made_.missing.push_back("a second reading at " + once->candidate.check.part);
  }

  Standing standing(const Repair& lead, bool at_the_end) const {
    const double sure = lead.probability.low;
    const bool proven = sure >= number("proven"), probable = sure >= number("probable");
    const bool module = !made_.ruled_out.empty();
    if (proven && lead.what.empty() && made_.missing.empty()) return Standing::not_communication;
    if (refused(at_the_end && !proven) >= number("probable")) return Standing::refer;
    const double nothing = lead.what.empty() ? sure : 0;
    if (passing() + nothing >= number("proven") && !found()) return Standing::comes_and_goes;
    if (passing() >= number("probable") && !(proven && found())) return Standing::comes_and_goes;
    if (module) return proven && made_.missing.empty() ? Standing::proven : Standing::cannot_condemn;
    if (proven && measured(court_.weighing) && made_.missing.empty()) return Standing::proven;
    return probable ? Standing::probable : Standing::cannot_condemn;
  }

  /// Weight of what only trained people may touch; `with_wires`: also of bus wires that end there.
  double refused(bool with_wires) const {
    const Network& network = court_.effects.network();
    double sum = 0;
    for (const Suspect& suspect : court_.weighing.suspects.all) {
      const std::vector<Fault> faults = faults_to_repair(suspect);
      const bool beyond = std::any_of(faults.begin(), faults.end(), [&](const Fault& fault) {
        return out_of_reach(network, fault) || (with_wires && ends_out_of_reach(network, fault));
      });
      sum += beyond ? suspect.weight : 0;
    }
    return sum / (1 + court_.weighing.suspects.outside);
  }

  /// Weight of what comes and goes.
  double passing() const {
    double sum = 0;
    for (const Suspect& suspect : court_.weighing.suspects.all) sum += suspect.passing() ? suspect.weight : 0;
    return sum / (1 + court_.weighing.suspects.outside);
  }

  /// Something was seen at a part.
  bool found() const {
    const auto& answers = court_.weighing.answers;
    return std::any_of(answers.begin(), answers.end(), [](const Answered& each) {
      const bool of_a_part = each.check != "rescan" && !each.check.starts_with("poll:");
      return of_a_part && each.weighed.counted && !each.weighed.good;
    });
  }

  /// From its rivals, or where most that stands against it was never weighed, from that.
  std::string what_would_tell(bool at_the_end) const {
    const double outside = court_.weighing.suspects.outside / (1 + court_.weighing.suspects.outside);
    if (repairs_.size() > 1 && outside <= repairs_[1].probability.low) return "a check that tells it from " + rivals();
    const bool once = put_aside(court_.weighing, not_scanned_once_more().check);
    if (was_cleared(court_.weighing) && !once)
      return "the scan taken after clearing: the one before leaves too much to weigh";
    if ((at_the_end || worth_clearing(court_)) && !once)
      return "a scan after all codes were saved and cleared: this one leaves too much to weigh";
    return "a scan with every silent module asked once more: this one leaves too much to weigh";
  }

  std::string rivals() const {
    std::string all;
    for (std::size_t i = 1; i < std::min<std::size_t>(repairs_.size(), 4); ++i) {
      const std::string& what = repairs_[i].what;
      all += (all.empty() ? "" : ", ") + (what.empty() ? std::string("no fault at all") : what);
    }
    return all;
  }

  void weigh_costs(const Repair& lead, const std::optional<Check>& next) {
    made_.loss_minutes = (1 - lead.probability.low) * cost_of_wrong(court_, lead);
    made_.worth_measuring = next && next->minutes * number("cost-minute") < made_.loss_minutes;
  }

  const Court& court_;
  const std::vector<Repair>& repairs_;
  Decision made_;
};

}  // namespace

bool worth_clearing(const Court& court) {
  std::ptrdiff_t old = 0, all = 0;
  for (const ModuleSeen& module : court.scan.modules) {
    all += std::ssize(module.codes);
    old += std::count_if(module.codes.begin(), module.codes.end(),
                         [](const CodeSeen& code) { return code.state != CodeState::current; });
  }
  return old > 0 && static_cast<double>(old) >= number_of(court.bench.numbers, "old-codes") * static_cast<double>(all);
}

bool was_cleared(const Weighing& weighing) {
  return times_answered(weighing, "rescan") > 0 && !put_aside(weighing, "rescan");
}

const Suspect* likeliest(const Suspects& suspects, std::string_view repair) {
  const Suspect* best = nullptr;
  for (const Suspect& suspect : suspects.all) {
    if (suspects.repairs[suspect.repair] != repair) continue;
    if (best == nullptr || suspect.weight > best->weight) best = &suspect;
  }
  return best;
}

Decision decide(const Court& court, const std::vector<Repair>& repairs, const std::optional<Check>& next) {
  return Judge(court, repairs).make(next);
}

}  // namespace whichwire
