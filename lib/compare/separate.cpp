#include "compare/separate.hpp"

#include <algorithm>
#include <boost/dynamic_bitset.hpp>
#include <numeric>
#include <set>

#include "compare/numbers.hpp"

namespace whichwire {
namespace {

using Checks = boost::dynamic_bitset<>;

/// Pairs that must be told apart, each as the checks that do so; only those that no other implies.
std::vector<Checks> pairs_of(const OutcomeTable& table) {
  const std::size_t count = table.minutes.size();
  // Faults with the same outcomes and repair are one.
  std::set<std::pair<std::size_t, std::vector<std::uint32_t>>> known;
  std::vector<std::size_t> faults;
  for (std::size_t f = 0; f < table.shows.size(); ++f) {
    if (known.emplace(table.repair[f], table.shows[f]).second) faults.push_back(f);
  }
  std::set<Checks> all;
  for (std::size_t i = 0; i < faults.size(); ++i) {
    for (std::size_t j = i + 1; j < faults.size(); ++j) {
      if (table.repair[faults[i]] == table.repair[faults[j]]) continue;
      Checks checks(count);
      for (std::size_t c = 0; c < count; ++c) checks[c] = tells_apart(table, c, faults[i], faults[j]);
      if (checks.any()) all.insert(std::move(checks));
    }
  }
  std::vector<Checks> pairs(all.begin(), all.end());
  std::sort(pairs.begin(), pairs.end(), [](const Checks& x, const Checks& y) { return x.count() < y.count(); });
  std::vector<Checks> least;
  for (const Checks& pair : pairs) {
    const bool implied =
        std::any_of(least.begin(), least.end(), [&](const Checks& other) { return other.is_subset_of(pair); });
    if (!implied) least.push_back(pair);
  }
  return least;
}

class Search {
 public:
  Search(const std::vector<double>& minutes, std::vector<Checks> pairs)
      : minutes_(minutes), pairs_(std::move(pairs)), most_steps_(compare_number("most-steps")) {
    drop_dominated();
  }

  Cheapest find() {
    std::vector<std::size_t> open(pairs_.size());
    std::iota(open.begin(), open.end(), 0U);
    best_ = greedy(open);
    best_minutes_ = cost(best_);
    const double root = bound(open);
    Checks chosen(minutes_.size());
    branch(open, chosen, 0);
    Cheapest found;
    for (std::size_t c = best_.find_first(); c != Checks::npos; c = best_.find_next(c)) found.checks.push_back(c);
    found.minutes = best_minutes_;
    found.at_least = steps_ > most_steps_ ? std::min(root, best_minutes_) : best_minutes_;
    return found;
  }

 private:
  double cost(const Checks& checks) const {
    double sum = 0;
    for (std::size_t c = checks.find_first(); c != Checks::npos; c = checks.find_next(c)) sum += minutes_[c];
    return sum;
  }

  /// A check that tells apart no more than another that is no dearer is never needed.
  void drop_dominated() {
    std::vector<Checks> told(minutes_.size(), Checks(pairs_.size()));
    for (std::size_t p = 0; p < pairs_.size(); ++p) {
      for (std::size_t c = pairs_[p].find_first(); c != Checks::npos; c = pairs_[p].find_next(c)) told[c].set(p);
    }
    for (std::size_t c = 0; c < told.size(); ++c) {
      for (std::size_t other = 0; other < told.size() && told[c].any(); ++other) {
        if (other == c || minutes_[other] > minutes_[c] || !told[c].is_subset_of(told[other])) continue;
        for (Checks& pair : pairs_) pair.reset(c);
        told[c].reset();
      }
    }
  }

  /// The check that tells most of the open pairs apart a minute, again and again.
  Checks greedy(std::vector<std::size_t> open) const {
    Checks chosen(minutes_.size());
    while (!open.empty()) {
      std::vector<double> worth(minutes_.size(), 0);
      for (const std::size_t p : open) {
        for (std::size_t c = pairs_[p].find_first(); c != Checks::npos; c = pairs_[p].find_next(c))
          worth[c] += 1 / std::max(minutes_[c], 0.1);
      }
      const auto best = static_cast<std::size_t>(std::max_element(worth.begin(), worth.end()) - worth.begin());
      chosen.set(best);
      std::erase_if(open, [&](std::size_t p) { return pairs_[p][best]; });
    }
    return chosen;
  }

  /// Of pairs that no check has in common each costs at least its cheapest check.
  double bound(const std::vector<std::size_t>& open) const {
    Checks used(minutes_.size());
    double sum = 0;
    for (const std::size_t p : open) {
      if (pairs_[p].intersects(used)) continue;
      used |= pairs_[p];
      sum += cheapest_of(pairs_[p]);
    }
    return sum;
  }

  double cheapest_of(const Checks& checks) const {
    double least = 1e18;
    for (std::size_t c = checks.find_first(); c != Checks::npos; c = checks.find_next(c))
      least = std::min(least, minutes_[c]);
    return least;
  }

  /// Takes each check of the pair with the fewest in turn; checks taken before are out in the later branches.
  void branch(const std::vector<std::size_t>& open, Checks& chosen, double minutes) {
    if (++steps_ > most_steps_) return;
    if (open.empty()) {
      if (minutes < best_minutes_ - 1e-9) {
        best_ = chosen;
        best_minutes_ = minutes;
      }
      return;
    }
    if (minutes + bound(open) >= best_minutes_ - 1e-9) return;
    const std::size_t pair = *std::min_element(
        open.begin(), open.end(), [&](std::size_t x, std::size_t y) { return pairs_[x].count() < pairs_[y].count(); });
    const Checks checks = pairs_[pair];
    std::vector<std::pair<std::size_t, Checks>> before;  // pairs as they were
    for (std::size_t c = checks.find_first(); c != Checks::npos; c = checks.find_next(c)) {
      std::vector<std::size_t> rest;
      for (const std::size_t p : open) {
        if (!pairs_[p][c]) rest.push_back(p);
      }
      chosen.set(c);
      branch(rest, chosen, minutes + minutes_[c]);
      chosen.reset(c);
      bool empty = false;
      for (const std::size_t p : open) {
        if (!pairs_[p][c]) continue;
        before.emplace_back(p, pairs_[p]);
        pairs_[p].reset(c);
        empty = empty || pairs_[p].none();
      }
      if (empty) break;
    }
    for (auto one = before.rbegin(); one != before.rend(); ++one) pairs_[one->first] = std::move(one->second);
  }

  const std::vector<double>& minutes_;
  std::vector<Checks> pairs_;
  double most_steps_, steps_ = 0;
  Checks best_;
  double best_minutes_ = 0;
};

}  // namespace

bool tells_apart(const OutcomeTable& table, std::size_t check, std::size_t one, std::size_t other) {
  return (table.shows[one][check] & table.shows[other][check]) == 0;
}

Cheapest cheapest_checks(const OutcomeTable& table) { return Search(table.minutes, pairs_of(table)).find(); }

}  // namespace whichwire
