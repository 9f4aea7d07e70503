#include "locate/ceilings.hpp"

#include <algorithm>
#include <cmath>

#include "locate/tree.hpp"

namespace whichwire::search {
namespace {

/// Below what is wanted by so much, how far below hardly matters.
bool far_below(double bound, double wanted) {
  constexpr double far = 3;
  return bound < wanted - far;
}

}  // namespace

Ceilings::Ceilings(const Problem& problem, const Context& context, std::vector<Ceiling::Entry> entries,
                   const Prospect* first)
    : problem_(problem),
      context_(context),
      entries_(std::move(entries)),
      first_(first),
      all_(problem, context, entries_, first) {}

/// A few that suit most; beyond these each at which one comes in that may improve more than all that lose less.
std::vector<double> Ceilings::prices() const {
  std::vector<double> prices = {0.5, 1.5, 3.0, 5.0, 8.0, 12.0, 18.0};
  constexpr double more = 1;
  const auto odds_at_best = [](const Ceiling::Entry& entry) { return entry.log_odds + entry.prospect->gain; };
  std::vector<const Ceiling::Entry*> beyond;
  double most = 0;
  for (const auto& entry : entries_) {
    if (entry.prospect->sure < prices.back()) {
      most = std::max(most, odds_at_best(entry));
    } else {
      beyond.push_back(&entry);
    }
  }
  std::stable_sort(beyond.begin(), beyond.end(),
                   [](const auto* a, const auto* b) { return a->prospect->sure < b->prospect->sure; });
  for (const auto* entry : beyond) {
    if (odds_at_best(*entry) < most + more) continue;
    most = odds_at_best(*entry);
    prices.push_back(entry->prospect->sure);
  }
  return prices;
}

/// Each has all members of those before.
const std::deque<Ceilings::Class>& Ceilings::classes() const {
  if (classes_) return *classes_;
  classes_.emplace();
  for (const double price : prices()) {
    std::vector<Ceiling::Entry> members;
    std::vector<std::uint32_t> up_to;
    up_to.reserve(entries_.size());
    for (const auto& entry : entries_) {
      if (entry.prospect->sure < price) members.push_back(entry);
      up_to.push_back(static_cast<std::uint32_t>(members.size()));
    }
    if (members.size() == entries_.size()) break;
    if (!classes_->empty() && classes_->back().up_to == up_to) {
      classes_->back().price = price;
    } else {
      classes_->push_back({price, Ceiling(problem_, context_, std::move(members), first_), std::move(up_to)});
    }
  }
  return *classes_;
}

/// What is bound by `bound` class by class, where `paid` is lost in any case. It is given the log of the share of each.
template <class Bound>
double Ceilings::sum(double paid, Bound bound) const {
  double sum = -INFINITY, before = 1;
  for (const Class& one : classes()) {
    const double next = std::exp(-std::max(0.0, one.price - paid));
    if (next < before) sum = log_sum(sum, bound(&one, std::log(before - next)));
    before = next;
  }
  return log_sum(sum, bound(nullptr, std::log(before)));
}

double Ceilings::whole(double wanted) const {
  const double all = all_.whole();
  if (far_below(all, wanted)) return all;
  double closest = all;  // whatever is lost
  if (all >= wanted) {
    closest = std::min(all, all_.fitted(wanted));
    if (closest < wanted) return closest;
  }
  const double paid = first_ != nullptr ? first_->penalty : 0;
  return sum(paid, [&](const Class* one, double share) {
    if (one == nullptr) return share + closest;
    const double its = one->ceiling.whole(), most = wanted - share;
    return share + (its < most ? its : std::min(its, one->ceiling.fitted(most)));
  });
}

double Ceilings::after(std::size_t k, double wanted) const {
  const Prospect& first = *entries_[k].prospect;
  const double all = all_.after(first, k + 1);
  if (far_below(all, wanted)) return all;
  return sum(first.penalty, [&](const Class* one, double share) {
    return share + (one != nullptr ? one->ceiling.after(first, one->up_to[k]) : all);
  });
}

}  // namespace whichwire::search
