// Candidates that improve little where the search stands: taken as if independent, with a bound of the error.
//
// The product of their odds is right but for four things. (1) Two that lose at the same observation share the loss.
// (2) One lowers an observation, cutting a chosen disturbance off, and loses by it; another that raises it again takes
// the loss back. Both make sets likelier than the product, by how much is bounded in help.hpp. (3) One cuts off what
// another disturbs: sets with such a pair weigh at most the odds of their members and the loss that either brings in
// every superset. (4) Two that gain at one observation, or raise or lower more together than each alone make a set less
// likely: such pairs are weighed exactly. Where the error is too large those with a part in it are searched one by one.
#include <algorithm>
#include <cmath>
#include <map>
#include <optional>

#include "locate/expand.hpp"
#include "locate/help.hpp"

namespace whichwire::search {
namespace {

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
    bound_roughly();
    constexpr double fine = 0.1;
    if (least() > 0.5 && std::expm1(whole()) < fine * allowed_) return;
    lost_ = unsure_ = undone_ = 0;
    std::fill(met_by_.begin(), met_by_.end(), 0.0);
    weigh_stakes();
    bound_undone();
    const auto met = pairs_that_meet();
    bound_met(met, allowed_);
    help_.emplace(help_of(met));
    for (std::size_t k = 0; k < by_.size(); ++k) {
      by_[k] += help_->unknown(k);
      sure_help_ += log1p_exp(exact_[k] + help_->surely(k)) - log1p_exp(exact_[k]);
    }
  }

  double allowed() const { return allowed_; }
  std::size_t work() const { return work_; }

  double exact(std::size_t k) const { return exact_[k]; }
  double met_by(std::size_t k) const { return met_by_[k]; }
  /// Lower bound of all sets as a share of the product.
  double least() const { return 1 - lost_ - unsure_; }
  /// The same for the sets that are not listed one by one.
  double least_apart() const { return least() + lost_listed_; }
  /// Log of how much likelier all sets may be than the lower bound.
  double whole() const {
    const double helped = help_ ? help_->most() - sure_help_ : looser_;
    return helped + std::log1p(undone_) + std::log((1 - lost_ + unsure_) / least());
  }
  double surely_helped(std::size_t k) const { return help_ ? help_->surely(k) : 0; }
  /// Probability that a minor is present, at most.
  double present(std::size_t k) const { return help_ ? help_->present(k) : 1 / (1 + std::exp(-at_best(k))); }

  /// Those to be searched one by one, as flags: all that have a part in it worth a branch, and the worst ones until the
  /// product is a lower bound at all. Empty: there are none, so that the error stands.
  std::vector<std::uint8_t> to_be_searched() const {
    constexpr double worth = 0.1;
    std::vector<std::uint32_t> order(minors_.size());
    double rest = 0;
    for (std::uint32_t k = 0; k < order.size(); ++k) {
      order[k] = k;
      rest += by_[k] / 2;  // every error has two that have a part in it
    }
    std::stable_sort(order.begin(), order.end(), [&](auto a, auto b) { return by_[a] > by_[b]; });
    std::vector<std::uint8_t> searched;
    for (const auto k : order) {
      if (by_[k] <= worth * allowed_ && (least() >= 0.5 || rest < 0.25)) break;
      searched.resize(minors_.size(), 0);
      searched[k] = 1;
      rest -= by_[k] / 2;
    }
    return searched;
  }

 private:
  using Pair = std::pair<std::uint32_t, std::uint32_t>;

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
  }

  void weigh_stakes() {
    for (std::uint32_t o = 0; o < at_.size(); ++o) {
      for (Stake& stake : at_[o]) stake.loss = stake.raises == Level::up ? 0 : context_.loss_at(o, stake.raises);
    }
  }

  /// Bounds that need no pairs: everybody is helped in all it loses, everybody undoes every disturber, and those that
  /// may meet at all meet everybody.
  void bound_roughly() {
    double all = 0, meeting = 0, all_at_best = 0, disturbing = 0;
    const auto may_meet = [](const Prospect& minor) {
      return (minor.company && minor.jointly) || !minor.lowers.empty() || minor.gain > 0;
    };
    for (std::size_t k = 0; k < minors_.size(); ++k) {
      const double odds = std::exp(exact_[k]), best = std::exp(at_best(k));
      looser_ += log1p_exp(at_best(k)) - log1p_exp(exact_[k]);
      all += odds;
      all_at_best += best;
      if (may_meet(*minors_[k])) meeting += odds;
      if (minors_[k]->disturbs && minors_[k]->company) disturbing += best;
    }
    undone_ = disturbing * all_at_best * std::exp(looser_);
    unsure_ = meeting * all;
    for (std::size_t k = 0; k < minors_.size(); ++k) met_by_[k] = may_meet(*minors_[k]) ? all : meeting;
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

  /// Whether none of its stakes gains, and a worse level never loses less, so that of several the worst loses alone.
  static bool only_loses(std::vector<Stake> stakes) {
    std::sort(stakes.begin(), stakes.end(), [](const Stake& a, const Stake& b) { return a.raises < b.raises; });
    double before = 0;
    for (const Stake& stake : stakes) {
      if (stake.loss < before) return false;
      before = stake.loss;
    }
    return true;
  }

  /// Minors of which every set weighs at least what the worst of them loses at each observation.
  std::vector<std::uint8_t> plain_ones(const std::vector<Pair>& met) const {
    std::vector<std::uint8_t> plain(minors_.size(), 1);
    for (const auto& [a, b] : met) plain[a] = plain[b] = 0;
    for (std::uint32_t o = 0; o < at_.size(); ++o) {
      if (at_[o].size() < 2 || only_loses(at_[o])) continue;
      for (const Stake& stake : at_[o]) plain[stake.minor] = 0;
    }
    for (std::uint32_t k = 0; k < minors_.size(); ++k) {
      if (minors_[k]->beside || !minors_[k]->lowers.empty()) plain[k] = 0;
    }
    return plain;
  }

  Help help_of(const std::vector<Pair>& met) {
    const auto plain = plain_ones(met);
    std::vector<Helped> helped(minors_.size());
    std::vector<std::vector<std::pair<std::uint32_t, const Stake*>>> places(minors_.size());
    for (std::uint32_t o = 0; o < at_.size(); ++o) {
      if (at_[o].size() < 2) continue;
      for (const Stake& stake : at_[o]) places[stake.minor].emplace_back(o, &stake);
    }
    std::vector<Sparing> sparing(minors_.size());
    std::vector<std::uint32_t> helpers;
    for (std::uint32_t k = 0; k < minors_.size(); ++k) {
      helped[k].log_odds = exact_[k];
      helped[k].listed = listed(problem_, *minors_[k]);
      for (const auto& [o, own] : places[k]) {
        double most = 0;
        for (const Stake& other : at_[o]) {
          if (other.minor == k) continue;
          const double save = shared(o, *own, other);
          if (save <= 0) continue;
          most = std::max(most, save);
          Sparing& by = sparing[other.minor];
          if (by.most == 0) helpers.push_back(other.minor);
          by.most += save;
          if (plain[k] != 0 && plain[other.minor] != 0) by.surely += std::min(own->loss, other.loss);
        }
        helped[k].spared_at_most += most;
      }
      helped[k].spared_at_most = std::min(helped[k].spared_at_most, std::max(0.0, at_best(k) - exact_[k]));
      for (const auto other : helpers) {
        sparing[other].other = other;
        helped[k].by_other.push_back(sparing[other]);
        ++work_;
        sparing[other] = {};
      }
      helpers.clear();
    }
    return Help(std::move(helped));
  }

  double at_best(std::size_t k) const { return problem_.log_odds[minors_[k]->candidate] + minors_[k]->gain; }

  void bound_undone() {
    std::map<const Prospect*, std::size_t> place;
    for (std::size_t k = 0; k < minors_.size(); ++k) place[minors_[k]] = k;
    for (std::size_t d = 0; d < minors_.size(); ++d) {
      if (!minors_[d]->disturbs) continue;
      context_.visit_cuts(*minors_[d], [&](const Prospect& cut) {
        const auto at = place.find(&cut);
        if (at == place.end()) return;
        const auto c = at->second;
        const double part = std::exp(at_best(c) + at_best(d) - std::max(cut.firm, minors_[d]->firm) + looser_);
        by_[c] += part;
        by_[d] += part;
        undone_ += part;
      });
    }
  }

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
  void bound_met(const std::vector<Pair>& pairs, double allowed) {
    struct Met {
      Pair pair;
      double product;
    };
    std::vector<Met> met;
    std::vector<double> of(minors_.size(), 0);
    double all = 0;
    for (const auto& [a, b] : pairs) {
      met.push_back({{a, b}, std::exp(exact_[a] + exact_[b])});
      all += met.back().product;
      of[a] += std::exp(exact_[b]);
      of[b] += std::exp(exact_[a]);
    }
    if (met.empty()) return;
    std::stable_sort(met.begin(), met.end(), [](const Met& x, const Met& y) { return x.product > y.product; });
    constexpr std::size_t looked_up = 20;
    double unknown = all;
    const bool look_up = unknown > allowed / 4;
    for (const auto& [pair, product] : met) {
      const auto& [a, b] = pair;
      double lost = product / 2, at_most = product;
      if (unknown > allowed / 4) {
        lost = at_most = product - std::min(product, std::exp(context_.exact_pair(*minors_[a], *minors_[b])));
        unknown -= product;
        work_ += looked_up;
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
  std::size_t work_ = 0;
  std::optional<Help> help_;
  double sure_help_ = 0;  ///< log of how much likelier all sets are than the product, at least
  double looser_ = 0;     ///< log of how much likelier all would be without any loss
  double undone_ = 0;
  double lost_listed_ = 0;  ///< by pairs of which both are listed: their sets are weighed one by one
  double lost_ = 0;         ///< by pairs that meet, as a share of the product
  double unsure_ = 0;       ///< of how much of that it is not known whether it is lost
};

}  // namespace

double Expander::add_minors(Context& context, Part& part, double threshold, Both& node, double& slack) {
  // Those that are not listed first, as Help wants it; of them those that lose little, to whom little can be spared.
  const auto& prospects = context.prospects();
  const auto lost = [&](std::uint32_t i) { return problem_.log_odds[prospects[i].candidate] - prospects[i].ratio; };
  std::stable_sort(part.minor.begin(), part.minor.end(), [&](auto a, auto b) {
    const bool is_listed = listed(problem_, prospects[a]), other = listed(problem_, prospects[b]);
    return is_listed != other ? other : lost(a) < lost(b);
  });
  std::vector<const Prospect*> minors;
  for (const auto i : part.minor) minors.push_back(&prospects[i]);
  const Error error(problem_, context, minors, threshold);
  work_ += error.work();
  const double allowed = error.allowed();
  if (error.least() < 0.5 || std::expm1(error.whole()) > allowed) {
    const auto searched = error.to_be_searched();
    if (!searched.empty()) {
      std::vector<std::uint32_t> left;
      for (std::uint32_t k = 0; k < minors.size(); ++k)
        (searched[k] != 0 ? part.active : left).push_back(part.minor[k]);
      std::sort(part.active.begin(), part.active.end());
      std::sort(left.begin(), left.end());
      part.minor.swap(left);
      return 0;
    }
  }
  slack += error.whole();
  node.apart += std::log(error.least());
  node.paired += std::log(error.least_apart() / error.least());
  double mass = std::log(error.least());
  for (std::size_t k = 0; k < minors.size(); ++k) {
    const double helped = error.surely_helped(k);
    mass += log1p_exp(error.exact(k) + helped);
    node.minors.push_back({minors[k]->candidate, listed(problem_, *minors[k]), error.exact(k) + helped, helped,
                           error.present(k), error.met_by(k)});
  }
  return mass;
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
