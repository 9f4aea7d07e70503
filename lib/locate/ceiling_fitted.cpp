// The ceiling with the u of every observation fitted by itself.
//
// Σu + Σ log(1 + odds * exp(what is beyond u)) is convex in all u: the dual of the covering that explains every
// observation at the least price. Whatever the u, it is a bound; so it is brought down observation by observation until
// it is low enough or hardly falls.
#include <algorithm>
#include <cmath>

#include "locate/ceiling.hpp"
#include "locate/tree.hpp"

namespace whichwire::search {
namespace {

class Fit {
 public:
  Fit(const Problem& problem, const Gains& gains, const std::vector<Ceiling::Entry>& entries)
      : gains_(gains), u_(gains.places(), 0) {
    std::vector<std::uint32_t> of_signature(problem.signatures.size(), none);
    for (std::uint32_t k = 0; k < entries.size(); ++k) add(problem, entries[k], k, of_signature);
    gather();
  }

  double bound(double wanted) {
    constexpr int most_turns = 40;
    constexpr double least_fall = 0.02;  // of what it is above what is wanted
    double bound = sum();
    const auto enough = [&](const Group& group) { return group.with >= wanted; };  // it weighs that by itself
    if (std::any_of(groups_.begin(), groups_.end(), enough)) return bound;
    for (int turn = 0; turn < most_turns && bound >= wanted; ++turn) {
      for (std::uint32_t place = 0; place < u_.size(); ++place) fit(place);
      const double before = bound;
      bound = sum();
      if (before - bound < least_fall * (bound - wanted)) break;
    }
    return bound;
  }

 private:
  static constexpr std::uint32_t none = 0xffffffff;

  /// Candidates that improve the same: at least one of them is present.
  struct Group {
    std::uint32_t first;  ///< entry
    double log_odds;
    double with = 0;     ///< log odds with what it brings beyond u
    double present = 0;  ///< the share of such sets with it
  };
  struct Part {
    std::uint32_t group;
    Improver improver;
  };

  void add(const Problem& problem, const Ceiling::Entry& entry, std::uint32_t k,
           std::vector<std::uint32_t>& of_signature) {
    if (gains_.of(k).empty()) {
      others_ += entry.log1p_odds;
      return;
    }
    const Prospect& prospect = *entry.prospect;
    const auto signature = problem.signature[prospect.candidate];
    const bool alike = raises_signature(problem, prospect) && prospect.improves_alone();
    if (alike && of_signature[signature] != none) {
      Group& group = groups_[of_signature[signature]];
      group.log_odds = log_sum(group.log_odds, log_sum(entry.log_odds, group.log_odds + entry.log_odds));
      return;
    }
    if (alike) of_signature[signature] = static_cast<std::uint32_t>(groups_.size());
    groups_.push_back({k, entry.log_odds});
  }

  /// The parts of all groups by place.
  void gather() {
    from_.assign(u_.size() + 1, 0);
    for (const Group& group : groups_) {
      for (const auto hold : gains_.of(group.first)) ++from_[gains_.improver(hold).place + 1];
    }
    for (std::size_t i = 1; i < from_.size(); ++i) from_[i] += from_[i - 1];
    parts_.resize(from_.back());
    auto next = from_;
    for (std::uint32_t g = 0; g < groups_.size(); ++g) {
      for (const auto hold : gains_.of(groups_[g].first)) {
        const Improver& one = gains_.improver(hold);
        parts_[next[one.place]++] = {g, one};
      }
    }
  }

  void set(Group& group, double with) {
    group.with = with;
    group.present = 1 / (1 + std::exp(-with));
  }

  /// The bound, anew: nothing is lost by rounding.
  double sum() {
    double sum = others_;
    for (const double u : u_) sum += u;
    for (Group& group : groups_) {
      double with = group.log_odds;
      for (const auto hold : gains_.of(group.first)) {
        const Improver& one = gains_.improver(hold);
        with += one.beyond(u_[one.place]);
      }
      set(group, with);
      sum += log1p_exp(with);
    }
    return sum;
  }

  /// At the best u one is present among those that are paid for what is beyond it. Each step goes that way and no
  /// further than to where another begins or ceases to be paid for, so the bound only falls.
  void fit(std::uint32_t place) {
    const std::span here(parts_.data() + from_[place], from_[place + 1] - from_[place]);
    const double u = u_[place];
    double above = 0, below = 0;  // present among those that are worth more than u; as much at least
    double up = gains_.most(place), down = 0;
    for (const auto& [group, one] : here) {
      const double worth = std::max(one.alone, one.joint);
      const double present = groups_[group].present * (one.alone >= u && one.alone > 0 ? 1 : one.share);
      if (worth > u) above += present;
      if (worth >= u) below += present;
      for (const double kink : {one.alone, one.joint}) {
        if (kink > u) up = std::min(up, kink);
        if (kink < u) down = std::max(down, kink);
      }
    }
    constexpr double hardly_any = 1e-9;
    double next = u;
    if (above > 1) next = std::min(up, u + std::log(above));
    if (below < 1) next = std::max(down, u + std::log(std::max(below, hardly_any)));
    constexpr double hardly = 0.01;
    if (std::abs(next - u) < hardly) return;
    for (const auto& [group, one] : here) set(groups_[group], groups_[group].with + one.beyond(next) - one.beyond(u));
    u_[place] = next;
  }

  const Gains& gains_;
  std::vector<double> u_;  ///< by place
  std::vector<Group> groups_;
  std::vector<std::uint32_t> from_;
  std::vector<Part> parts_;
  double others_ = 0;  ///< sum of log1p(odds) of those that improve nothing
};

}  // namespace

double Ceiling::fitted(double wanted) const {
  if (unlikely_ || gains_.places() < 2 || std::isinf(wanted)) return INFINITY;
  return Fit(problem_, gains_, entries_).bound(wanted);
}

}  // namespace whichwire::search
