#include "locate/ceilings.hpp"

#include <algorithm>
#include <cmath>

#include "locate/tree.hpp"

namespace whichwire::search {
namespace {

/// What it loses in every set of free candidates: what a disturber loses may be undone.
double loss(const Prospect& prospect) { return prospect.disturbs && prospect.company ? 0 : prospect.penalty; }

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

/// Each has all members of those before.
const std::deque<Ceilings::Class>& Ceilings::classes() const {
  if (classes_) return *classes_;
  classes_.emplace();
  for (const double price : {0.5, 1.5, 3.0, 5.0}) {
    std::vector<Ceiling::Entry> members;
    std::vector<std::uint32_t> up_to;
    for (const auto& entry : entries_) {
      if (loss(*entry.prospect) < price) members.push_back(entry);
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

/// What is bound by `bound` class by class, and by `all` in the end, where `paid` is lost in any case.
template <class Bound>
double Ceilings::sum(double paid, double all, Bound bound) const {
  double sum = -INFINITY, before = 1;
  for (const Class& one : classes()) {
    const double next = std::exp(-std::max(0.0, one.price - paid));
    if (next < before) sum = log_sum(sum, bound(one) + std::log(before - next));
    before = next;
  }
  return log_sum(sum, all + std::log(before));
}

double Ceilings::whole(double wanted) const {
  const double all = all_.whole();
  if (far_below(all, wanted)) return all;
  const double paid = first_ != nullptr ? first_->penalty : 0;
  return sum(paid, all, [](const Class& one) { return one.ceiling.whole(); });
}

double Ceilings::after(std::size_t k, double wanted) const {
  const Prospect& first = *entries_[k].prospect;
  const double all = all_.after(first, k + 1, wanted);
  if (far_below(all, wanted)) return all;
  return sum(first.penalty, all, [&](const Class& one) { return one.ceiling.after(first, one.up_to[k], wanted); });
}

}  // namespace whichwire::search
