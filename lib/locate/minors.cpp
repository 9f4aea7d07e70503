// Candidates that improve little where the search stands: taken as if independent, with a bound of the error.
//
// The product of their odds is right but for four things. (1) Two that lose at the same observation share the loss.
// (2) One lowers an observation, cutting a chosen disturbance off, and loses by it; another that raises it again takes
// the loss back. Both make sets likelier than the product: given any others, a minor is present with odds of at most
// its odds and all that others can help it, so how much they help is bounded by independent ones of those odds
// (Holley's inequality: the help only grows with what is present). (3) One cuts off what another disturbs: sets with
// such a pair weigh at most the odds of their members and the loss that either brings in every superset. (4) Two that
// gain at one observation, or raise or lower more together than each alone make a set less likely: such pairs are
// weighed exactly. Where the error is too large the candidates that bring most of it are searched one by one.
#include <algorithm>
#include <cmath>

#include "locate/expand.hpp"

namespace whichwire::search {
namespace {

double logistic(double x) { return 1 / (1 + std::exp(-x)); }

bool listed(const Problem& problem, const Prospect& minor) {
  return minor.gain > 0 && problem.listing(minor.candidate);
}

/// What a minor has to do with an observation.
struct Stake {
  std::uint32_t minor;
  Level raises = Level::up;  ///< up: it does not raise it
  double loss = 0;           ///< by raising it, alone
  double lower_loss = 0;     ///< by lowering it, at most
};

class Error {
 public:
  Error(const Problem& problem, Context& context, const std::vector<const Prospect*>& minors, double threshold)
      : problem_(problem), context_(context), minors_(minors), by_(minors.size(), 0), met_by_(minors.size(), 0) {
    take_stakes();
    for (const double odds : exact_) mass_ += log1p_exp(odds);
    allowed_ = std::exp(threshold - mass_);
    bound_help();
    bound_undone();
    bound_met(allowed_);
  }

  double allowed() const { return allowed_; }

  double exact(std::size_t k) const { return exact_[k]; }
  double met_by(std::size_t k) const { return met_by_[k]; }
  /// Lower bound of all sets as a share of the product.
  double least() const { return 1 - lost_ - unsure_; }
  /// Error that a minor has a part in, as a share of the product.
  double by(std::size_t k) const { return by_[k]; }
  /// The same for the sets that are not listed one by one.
  double least_apart() const { return least() + lost_listed_; }
  /// Log of how much likelier all sets may be than the lower bound.
  double whole() const { return help_ + std::log1p(undone_) + std::log((1 - lost_ + unsure_) / least()); }

 private:
  void take_stakes() {
    at_.resize(problem_.observations());
    std::vector<Raised> raised;
    for (std::uint32_t k = 0; k < minors_.size(); ++k) {
      exact_.push_back(context_.alone(*minors_[k], raised));
      const auto stake = [&](std::uint32_t observation) -> Stake& {
        auto& stakes = at_[observation];
        if (stakes.empty() || stakes.back().minor != k) stakes.push_back({k});
        return stakes.back();
      };
      // What it raises with the chosen as they are, and what it still would if others undid some of that.
      for (const auto& [observation, level] : raised) stake(observation).raises = level;
      for (const auto& [observation, level] : minors_[k]->raises) {
        if (level <= context_.floor(observation)) continue;
        Stake& own = stake(observation);
        own.raises = std::max(own.raises, level);
      }
      for (const auto observation : minors_[k]->lowers) {
        stake(observation).lower_loss = context_.most_lost_by_lowering(observation);
      }
    }
    for (std::uint32_t o = 0; o < at_.size(); ++o) {
      for (Stake& stake : at_[o]) stake.loss = stake.raises == Level::up ? 0 : context_.loss_at(o, stake.raises);
    }
  }

  /// How much of what both lose at an observation, each alone, is not lost when both are present.
  double shared(std::uint32_t observation, const Stake& a, const Stake& b) const {
    double most = 0;
    if (a.raises != Level::up && b.raises != Level::up) {
      most = std::max(0.0, a.loss + b.loss + context_.at_best(observation, std::max(a.raises, b.raises)));
    }
    if (a.lower_loss > 0) most += b.raises != Level::up ? a.lower_loss : std::min(a.lower_loss, b.lower_loss);
    if (b.lower_loss > 0 && a.raises != Level::up) most += b.lower_loss;
    return most;
  }

  void bound_help() {
    std::vector<double> saved(minors_.size(), 0);
    std::vector<std::uint32_t> helpers;
    std::vector<std::vector<Stake>> own(minors_.size());
    std::vector<std::vector<std::uint32_t>> places(minors_.size());
    for (std::uint32_t o = 0; o < at_.size(); ++o) {
      if (at_[o].size() < 2) continue;
      for (const auto& stake : at_[o]) {
        own[stake.minor].push_back(stake);
        places[stake.minor].push_back(o);
      }
    }
    // Odds of each given any others, at most: one other may save all that can be saved at a place.
    std::vector<double> save_at_most(minors_.size(), 0);
    for (std::uint32_t o = 0; o < at_.size(); ++o) {
      for (const auto& stake : at_[o]) {
        double save = 0;
        for (const auto& other : at_[o]) {
          if (other.minor != stake.minor) save = std::max(save, shared(o, stake, other));
        }
        save_at_most[stake.minor] += save;
      }
    }
    for (std::uint32_t k = 0; k < minors_.size(); ++k) {
      for (std::size_t i = 0; i < own[k].size(); ++i) {
        for (const auto& other : at_[places[k][i]]) {
          if (other.minor >= k) break;
          const double save = shared(places[k][i], own[k][i], other);
          if (save <= 0) continue;
          if (saved[other.minor] == 0) helpers.push_back(other.minor);
          saved[other.minor] += save;
        }
      }
      // Either each helper in the product, or one by one and, where there are two or more, all that can be saved.
      double product = 0, one_by_one = 0, odds = 0;
      for (const auto other : helpers) {
        const double most = logistic(exact_[other] + save_at_most[other]);
        const double part = std::expm1(std::min(saved[other], save_at_most[k])) * most;
        one_by_one += part;
        product += std::log1p(part);
        odds += most;
      }
      one_by_one = log_sum(std::log1p(one_by_one), save_at_most[k] + 2 * std::log(odds) - std::log(2.0));
      const double help = helpers.empty() ? 0 : std::min({product, one_by_one, save_at_most[k]});
      for (const auto other : helpers) {
        const double most = logistic(exact_[other] + save_at_most[other]);
        const double part = std::expm1(std::min(saved[other], save_at_most[k])) * most;
        by_[other] += std::min(help, std::log1p(part)) * logistic(exact_[k]);
        saved[other] = 0;
      }
      helpers.clear();
      const double more = log1p_exp(exact_[k] + help) - log1p_exp(exact_[k]);
      by_[k] += more;
      help_ += more;
    }
  }

  double at_best(std::size_t k) const { return problem_.log_odds[minors_[k]->candidate] + minors_[k]->gain; }

  void bound_undone() {
    double looser = 0;
    for (std::size_t k = 0; k < minors_.size(); ++k) {
      looser += log1p_exp(at_best(k)) - log1p_exp(exact_[k]);
    }
    for (std::size_t d = 0; d < minors_.size(); ++d) {
      if (!minors_[d]->disturbs || !minors_[d]->company) continue;
      for (std::size_t c = 0; c < minors_.size(); ++c) {
        if (c == d || !context_.may_undo(*minors_[c], *minors_[d])) continue;
        const double part = std::exp(at_best(c) + at_best(d) - std::max(minors_[c]->firm, minors_[d]->firm) + looser);
        by_[c] += part;
        by_[d] += part;
        undone_ += part;
      }
    }
  }

  using Pair = std::pair<std::uint32_t, std::uint32_t>;

  /// Two that raise or lower more together, or of which one gains where the other leaves it nothing to gain.
  std::vector<Pair> pairs_that_meet() const {
    std::vector<Pair> pairs;
    const auto count = static_cast<std::uint32_t>(minors_.size());
    for (std::uint32_t a = 0; a < count; ++a) {
      const Prospect& one = *minors_[a];
      const bool raises = one.company && one.jointly;
      if (!raises && one.lowers.empty()) continue;
      for (std::uint32_t b = 0; b < a; ++b) {
        const Prospect& other = *minors_[b];
        const bool both = (raises && other.company && other.jointly) || (!one.lowers.empty() && !other.lowers.empty());
        if (both && problem_.meets(one.candidate, other.candidate)) pairs.emplace_back(a, b);
      }
    }
    for (std::uint32_t o = 0; o < at_.size(); ++o) {
      for (const Stake& stake : at_[o]) {
        if (stake.loss >= 0) continue;
        for (const Stake& other : at_[o]) {
          if (other.minor == stake.minor || other.raises == Level::up) continue;
          const double both = context_.loss_at(o, std::max(stake.raises, other.raises));
          if (both > stake.loss + other.loss)
            pairs.push_back(Pair{std::max(stake.minor, other.minor), std::min(stake.minor, other.minor)});
        }
      }
    }
    std::sort(pairs.begin(), pairs.end());
    pairs.erase(std::unique(pairs.begin(), pairs.end()), pairs.end());
    return pairs;
  }

  /// Sets of which no two meet weigh as the product says. Of two that meet the weight is looked up, the heaviest first,
  /// until the rest hardly matters: of those, and of sets with more than one such pair, nothing is known.
  void bound_met(double allowed) {
    struct Met {
      Pair pair;
      double product;
    };
    std::vector<Met> met;
    std::vector<double> of(minors_.size(), 0);
    double all = 0;
    for (const auto& [a, b] : pairs_that_meet()) {
      met.push_back({{a, b}, std::exp(exact_[a] + exact_[b])});
      all += met.back().product;
      of[a] += std::exp(exact_[b]);
      of[b] += std::exp(exact_[a]);
    }
    if (met.empty()) return;
    std::stable_sort(met.begin(), met.end(), [](const Met& x, const Met& y) { return x.product > y.product; });
    double unknown = all;
    const bool look_up = unknown > allowed / 4;
    for (const auto& [pair, product] : met) {
      const auto& [a, b] = pair;
      double lost = product / 2, at_most = product;
      if (unknown > allowed / 4) {
        lost = at_most = product - std::min(product, std::exp(context_.exact_pair(*minors_[a], *minors_[b])));
        unknown -= product;
      }
      lost_ += lost;
      if (listed(problem_, *minors_[a]) && listed(problem_, *minors_[b])) lost_listed_ += lost;
      met_by_[a] += at_most / std::exp(exact_[a]);
      met_by_[b] += at_most / std::exp(exact_[b]);
    }
    unsure_ = std::max(0.0, unknown) / 2;
    if (!look_up) return;
    unsure_ += all * all;
    for (std::size_t k = 0; k < minors_.size(); ++k) {
      const double two = std::exp(exact_[k]) * of[k] * of[k];
      unsure_ += two;
      by_[k] += 3 * (two + all * std::exp(exact_[k]) * of[k]);
      met_by_[k] += of[k] * of[k] + all * of[k];
    }
  }

  const Problem& problem_;
  Context& context_;
  const std::vector<const Prospect*>& minors_;
  std::vector<double> exact_, by_, met_by_;
  std::vector<std::vector<Stake>> at_;  ///< by observation
  double mass_ = 0, allowed_ = 0;
  double help_ = 0, undone_ = 0;
  double lost_listed_ = 0;  ///< by pairs of which both are listed: their sets are weighed one by one
  double lost_ = 0;         ///< by pairs that meet, as a share of the product
  double unsure_ = 0;       ///< of how much of that it is not known whether it is lost
};

}  // namespace

void Expander::add_minors(Context& context, Part& part, double threshold, Both& node, double& slack) const {
  // Those that lose little first: a helper then has not much to save itself.
  const auto& prospects = context.prospects();
  const auto lost = [&](std::uint32_t i) { return problem_.log_odds[prospects[i].candidate] - prospects[i].ratio; };
  std::stable_sort(part.minor.begin(), part.minor.end(), [&](auto a, auto b) { return lost(a) < lost(b); });
  std::vector<const Prospect*> minors;
  for (const auto i : part.minor) minors.push_back(&prospects[i]);
  const Error error(problem_, context, minors, threshold);
  const double allowed = error.allowed();
  if (error.least() < 0.5 || std::expm1(error.whole()) > allowed) {
    // The worst ones are searched; what the others may still err among themselves is no more than half their parts.
    std::vector<std::uint32_t> order(minors.size());
    double rest = 0;
    for (std::uint32_t k = 0; k < order.size(); ++k) {
      order[k] = k;
      rest += error.by(k) / 2;
    }
    std::stable_sort(order.begin(), order.end(), [&](auto a, auto b) { return error.by(a) > error.by(b); });
    std::vector<std::uint32_t> left;
    for (const auto k : order) {
      const bool searched = part.active.empty() || rest > allowed / 2;
      (searched ? part.active : left).push_back(part.minor[k]);
      if (searched) rest -= error.by(k) / 2;
    }
    std::sort(part.active.begin(), part.active.end());
    std::sort(left.begin(), left.end());
    part.minor.swap(left);
    return;
  }
  slack += error.whole();
  node.apart += std::log(error.least());
  node.paired += std::log(error.least_apart() / error.least());
  for (std::size_t k = 0; k < minors.size(); ++k) {
    node.minors.push_back({minors[k]->candidate, listed(problem_, *minors[k]), error.exact(k), error.met_by(k)});
  }
}

void Expander::sort_minors(Both& node) {
  const auto unlisted =
      std::stable_partition(node.minors.begin(), node.minors.end(), [](const Minor& minor) { return minor.listed; });
  node.listed_minors = static_cast<std::size_t>(unlisted - node.minors.begin());
  std::stable_sort(node.minors.begin(), unlisted,
                   [](const Minor& a, const Minor& b) { return a.log_odds > b.log_odds; });
  for (auto minor = unlisted; minor != node.minors.end(); ++minor) node.apart += log1p_exp(minor->log_odds);
}

}  // namespace whichwire::search
