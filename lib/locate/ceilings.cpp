#include "locate/ceilings.hpp"

#include <algorithm>
#include <cmath>

#include "locate/tree.hpp"

namespace whichwire::search {
namespace {

/// What it loses in every set of free candidates: what a disturber loses may be undone.
double loss(const Prospect& prospect) { return prospect.disturbs && prospect.company ? 0 : prospect.penalty; }

}  // namespace

Ceilings::Ceilings(const Problem& problem, const Context& context, std::vector<Ceiling::Entry> entries) {
  for (const auto& entry : entries) entries_.push_back(entry.prospect);
  for (const double price : {0.5, 1.5, 3.0, 5.0}) {
    std::vector<Ceiling::Entry> members;
    std::vector<std::uint32_t> up_to;
    for (const auto& entry : entries) {
      if (loss(*entry.prospect) < price) members.push_back(entry);
      up_to.push_back(static_cast<std::uint32_t>(members.size()));
    }
    if (members.size() == entries.size()) break;
    if (!classes_.empty() && classes_.back().up_to == up_to) {
      classes_.back().price = price;
    } else {
      classes_.push_back({price, Ceiling(problem, context, std::move(members)), std::move(up_to)});
    }
  }
  classes_.push_back({INFINITY, Ceiling(problem, context, std::move(entries)), {}});
}

/// What is bound by `bound` class by class, where `paid` is lost in any case.
template <class Bound>
double Ceilings::sum(double paid, Bound bound) const {
  double sum = -INFINITY, before = 1;
  for (const Class& one : classes_) {
    const double next = std::exp(-std::max(0.0, one.price - paid));
    if (next < before) sum = log_sum(sum, bound(one) + std::log(before - next));
    before = next;
  }
  return sum;
}

double Ceilings::whole() const {
  return sum(0, [](const Class& one) { return one.ceiling.whole(); });
}

double Ceilings::after(std::size_t k, double wanted) const {
  return sum(entries_[k]->penalty, [&](const Class& one) {
    const bool has_all = one.up_to.empty();
    return one.ceiling.after(*entries_[k], has_all ? k + 1 : one.up_to[k], wanted);
  });
}

}  // namespace whichwire::search
