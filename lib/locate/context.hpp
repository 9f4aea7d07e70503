// One node of the search: a chosen set, the candidates still free, and what each of them could at best and at worst do.
//
// Adding a candidate raises observations, with one exception: a break may cut a disturbance off and lower what it had
// raised. What a candidate does otherwise it does firmly. So per observation there is a `floor`: the level that no free
// candidate can undo. An observation at a floor of `down` is settled; a candidate that can raise nothing above its
// floor and lowers nothing is hidden and keeps its odds. Proof of the bounds: DEVELOPERS.md, "The search and its
// certificate". Tested by tests/differential.
#pragma once

#include <deque>
#include <optional>

#include "locate/spares.hpp"

namespace whichwire::search {

/// Where a candidate may cut off what chosen ones disturb.
struct Lowered {
  std::uint32_t observation;
  Level alone;  ///< level that it leaves there by itself
};

/// What a free candidate may do in a context. All numbers are natural logs against the chosen set.
struct Prospect {
  Candidate candidate = 0;
  double log1p_odds = 0;
  std::span<const Raised> raises;   ///< beyond what the chosen set has settled
  std::span<const Lowered> lowers;  ///< by rising observation
  double ratio = 0;                 ///< weight of adding it alone, at best
  double hope = 0;     ///< the same where others undo what it loses: a bound in every superset, others' gains apart
  double gain = 0;     ///< sum of all improvements it may have a part in
  double penalty = 0;  ///< loss that it brings while nothing undoes it, >= 0
  double firm = 0;     ///< loss that it brings in every superset
  double sure = 0;     ///< loss of every superset, be it by what undoes it, as far as is known
  double kept = 0;     ///< loss that it brings as long as none but the free candidates undoes it
  const Observations* only = nullptr;  ///< where it may improve beside one that undoes its loss; null: everywhere
  bool disturbs = false;
  bool hidden = false;
  bool joins = false;    ///< together with others it may improve something, or it may by lowering
  bool company = false;  ///< another free or chosen candidate meets it
  bool jointly = false;  ///< it may raise more together with them
  bool beside = false;   ///< one of the chosen meets it
  bool joined = false;   ///< one of them does otherwise than through others
  bool raises_jointly() const { return company && jointly; }
  /// Whether it improves nothing but by what it raises, and may do so everywhere.
  bool improves_alone() const { return !raises_jointly() && lowers.empty() && only == nullptr; }
};

/// Whether it raises what its signature says, and nothing else beside the chosen.
inline bool raises_signature(const Problem& problem, const Prospect& prospect) {
  return prospect.raises.data() == problem.signatures[problem.signature[prospect.candidate]].data();
}

/// Whether it is shown in the explanations that it stands in: it improves something and may be listed.
inline bool shown(const Problem& problem, const Prospect& prospect) {
  return prospect.gain > 0 && problem.listing(prospect.candidate);
}

class Context {
 public:
  Context(const Problem& problem, Together& together, Spares& spares)
      : problem_(problem), together_(together), spares_(spares) {}

  /// Looks at `free` candidates with exactly `chosen` present.
  void look(std::span<const Candidate> chosen, std::span<const Candidate> free);

  /// Forgets the free candidates that are not `kept` (a flag per prospect), which can only settle more.
  void restrict_to(const std::vector<std::uint8_t>& kept);

  /// Takes prospects out of the list without a new look: for hidden ones, which change nothing.
  void drop(const std::vector<std::uint8_t>& kept);

  std::vector<Prospect>& prospects() { return prospects_; }
  const std::vector<Prospect>& prospects() const { return prospects_; }

  /// Sum of all improvements that the free candidates, together, can bring.
  double total_gain() const { return total_gain_; }

  /// Adds the chosen ones that hang together with it.
  void add_companions(const Prospect& prospect, std::vector<Candidate>& out) const;

  Level level(std::uint32_t observation) const { return level_[observation]; }
  Level floor(std::uint32_t observation) const { return floor_[observation]; }

  /// Observations that a prospect may change, given that only these candidates are free.
  template <class Visit>
  void visit_reach(const Prospect& prospect, Visit visit) const {
    for (const auto& [observation, level] : prospect.raises) {
      if (level > floor_[observation]) visit(observation);
    }
    visit_lowered(prospect, [&](std::uint32_t observation, double, double) { visit(observation); });
    visit_joint(prospect, [&](std::uint32_t observation, Level) { visit(observation); });
  }

  /// Those at which it may improve something, with the most that the level it brings there is worth, and its share of
  /// that. The shares of all members of a set that have a part in an improvement sum to 1 at least. One may come twice.
  template <class Visit>
  void visit_gains(const Prospect& prospect, Visit visit) const {
    for (const auto& [observation, level] : prospect.raises) {
      if (level <= floor_[observation] || !allowed(prospect, observation)) continue;
      const double worth = std::max(0.0, change(observation, level));
      visit(observation, worth, 1.0);
    }
    visit_lowered(prospect, [&](std::uint32_t observation, double alone, double best) {
      visit(observation, alone, 1.0);
      if (best > alone) visit(observation, best, joint_share());
    });
    visit_joint(prospect, [&](std::uint32_t observation, Level most) {
      visit(observation, joint_change(observation, most), joint_share());
    });
  }

  /// Observations that a prospect's `hope` takes to be improved, the log factors, and its share of them; each once.
  template <class Visit>
  void visit_hoped(const Prospect& prospect, Visit visit) const {
    for (const auto& [observation, level] : prospect.raises) {
      if (level > floor_[observation] && allowed(prospect, observation))
        visit(observation, std::max(0.0, change(observation, level)), 1.0);
    }
    visit_lowered(prospect, [&](std::uint32_t observation, double alone, double best) {
      if (!raises(prospect, observation)) visit(observation, alone > 0 ? alone : best, alone > 0 ? 1 : joint_share());
    });
    visit_only_jointly(prospect, [&](std::uint32_t observation, double worth, const auto& alone) {
      if (!alone) visit(observation, worth, joint_share());
    });
  }

  /// Log factor of an observation when it is raised to at least `level`, others helping, against the chosen set; at
  /// best.
  double at_best(std::uint32_t observation, Level level) const {
    const auto& likelihood = problem_.likelihood[observation];
    auto from = static_cast<std::size_t>(std::max(level, floor_[observation]));
    double best = likelihood[from];
    while (++from < level_count) best = std::max(best, likelihood[from]);
    return best - likelihood[static_cast<std::size_t>(level_[observation])];
  }

  /// Log factor of an observation where a candidate brings it to `level`, what others may bring it to beyond apart:
  /// their own levels are worth that, and so is what they undo where the chosen hold it at `level` already.
  double change(std::uint32_t observation, Level level) const {
    if (level <= level_[observation]) return 0;
    const auto& likelihood = problem_.likelihood[observation];
    const double own = likelihood[static_cast<std::size_t>(std::max(level, floor_[observation]))] -
                       likelihood[static_cast<std::size_t>(level_[observation])];
    return own >= 0 ? own : std::min(0.0, at_best(observation, level));
  }

  /// The same where several bring it to something from `unsure` to `most` together; at least 0.
  double joint_change(std::uint32_t observation, Level most) const;

  /// How much is lost, at most, when the observation is lowered from where it stands, not below its floor.
  double most_lost_by_lowering(std::uint32_t observation) const;

  /// Visits the free candidates that may undo something of a disturbing prospect.
  template <class Visit>
  void visit_cuts(const Prospect& disturber, Visit visit) const {
    if (!disturber.company) return;
    for (const auto cut : problem_.undo.cuts_of(disturber.candidate)) {
      const auto at = place_[cut];
      if (at == 0 || !prospects_[at - 1].company || (parted_ && parted_(cut, disturber.candidate))) continue;
      visit(prospects_[at - 1]);
    }
  }

  /// Whether two may act together with no third free one beside them.
  bool meet_by_themselves(const Prospect& a, const Prospect& b) const {
    return problem_.meets(a.candidate, b.candidate, [&](const Meeting& one, const Meeting& other) {
      return (!one.through_others || a.joined) && (!other.through_others || b.joined);
    });
  }

  /// Log weight of adding it alone, exactly, and what that raises from where it stands.
  double alone(const Prospect& prospect, std::vector<Raised>& raised);

  /// Log weight of adding both, exactly.
  double exact_pair(const Prospect& a, const Prospect& b);

  /// What is lost when the observation is raised to `level` at least; negative: gained.
  double loss_at(std::uint32_t observation, Level level) const;

  static bool allowed(const Prospect& prospect, std::uint32_t observation) {
    return prospect.only == nullptr || prospect.only->test(observation);
  }

  /// Lets disturbers improve only what they can while they lose less than a price, by `only`. Returns the log of a
  /// bound of the mass of all sets in which one of them loses more; no more than about `allowance`.
  double limit(double allowance);

  /// Sum of the improvements that are not allowed.
  double denied(const Prospect& prospect) const;

  /// The loss that a disturbing prospect brings even if all else is undone.
  double firm_penalty(const Prospect& prospect);

 private:
  /// Observations that it may raise above their floor together with others, by rising observation, and the worst level.
  template <class Visit>
  void visit_joint(const Prospect& prospect, Visit visit) const {
    if (!prospect.raises_jointly()) return;
    const JointReach& reach = problem_.joint_reaches[problem_.jointly[prospect.candidate]];
    for (const auto& [observation, most] : prospect.beside ? reach.beside : reach.free) {
      if (most > floor_[observation]) visit(observation, most);
    }
  }

  /// What takes several takes two at least, so half of it for each will do.
  static constexpr double joint_share() { return 0.5; }

  bool raises(const Prospect& prospect, std::uint32_t observation) const {
    const auto at = std::lower_bound(prospect.raises.begin(), prospect.raises.end(), observation,
                                     [](const Raised& raised, std::uint32_t o) { return raised.question < o; });
    return at != prospect.raises.end() && at->question == observation && at->level > floor_[observation];
  }

  /// Observations that it may lower, with what the level that it leaves by itself is worth at best, and what the best
  /// of all is that is left together with others.
  template <class Visit>
  void visit_lowered(const Prospect& prospect, Visit visit) const {
    for (const auto& [observation, alone] : prospect.lowers) {
      if (level_[observation] <= floor_[observation]) continue;
      const double best = std::max(0.0, at_best(observation, Level::up));
      visit(observation, alone < level_[observation] ? std::max(0.0, at_best(observation, alone)) : 0.0, best);
    }
  }

  /// Observations that it may improve together with others more than by itself, with the worth of either; of itself
  /// where it raises them at all.
  template <class Visit>
  void visit_only_jointly(const Prospect& prospect, Visit visit) const {
    auto raised = prospect.raises.begin();
    auto lowered = prospect.lowers.begin();
    visit_joint(prospect, [&](std::uint32_t observation, Level most) {
      while (lowered != prospect.lowers.end() && lowered->observation < observation) ++lowered;
      const bool lowers = lowered != prospect.lowers.end() && lowered->observation == observation;
      if (lowers && level_[observation] > floor_[observation]) return;  // counted by lowering
      while (raised != prospect.raises.end() && raised->question < observation) ++raised;
      std::optional<double> alone;
      if (raised != prospect.raises.end() && raised->question == observation && raised->level > floor_[observation])
        alone = std::max(0.0, change(observation, raised->level));
      const double worth = joint_change(observation, most);
      if (worth > alone.value_or(0)) visit(observation, worth, alone);
    });
  }

  void find_effect(Prospect& prospect);
  void limit(Prospect& prospect, double price);
  void add_gained(Candidate candidate, std::vector<Raised>& raised);
  void find_lowered(Prospect& prospect);
  void settle_floors();
  void weigh();
  void weigh(Prospect& prospect);
  void note_company();
  void unhide();
  Undo undo_of(Candidate cut, Candidate disturber) const;
  void total();
  void note_places();

  const Problem& problem_;
  Together& together_;
  Spares& spares_;
  std::vector<Candidate> chosen_;
  std::vector<Level> level_, floor_, scratch_;
  std::vector<Prospect> prospects_;
  std::deque<std::vector<Raised>> raised_store_;
  std::deque<std::vector<Lowered>> lowered_store_;
  std::deque<Observations> only_store_;
  std::vector<double> price_;         ///< by observation, scratch
  std::vector<double> lost_;          ///< by sort of observation (Undoers), scratch
  Observations reached_;              ///< scratch
  std::vector<std::uint32_t> place_;  ///< by candidate: index of its prospect + 1; 0: it is not free
  std::vector<std::uint8_t> lowered_;
  std::vector<std::uint8_t> counted_;
  std::vector<Candidate> companions_, trial_, firm_companions_;
  std::vector<Level> firm_levels_;                    ///< under `firm_companions_`, the last ones asked for
  std::function<bool(Candidate, Candidate)> parted_;  ///< empty where the chosen part nothing
  bool chosen_disturb_ = false;
  double total_gain_ = 0;
  double weight_ = 0;  ///< log weight of the chosen

  struct Weighed {
    std::uint64_t node = 0;
    double ratio = 0, gain = 0, penalty = 0;
    bool effect = false;
  };
  std::vector<Weighed> weighed_;  ///< by signature, for candidates that meet none of the chosen
  std::uint64_t node_ = 0;
};

}  // namespace whichwire::search
