#include "locate/list.hpp"

#include <algorithm>
#include <cmath>

#include "locate/search.hpp"

namespace whichwire::search {
namespace {

/// Walks all ways through the tree by a list of nodes still to decide; `rest` bounds what they can add at best.
class Walk {
 public:
  Walk(double threshold, const std::function<void(const Leaf&)>& emit) : threshold_(threshold), emit_(emit) {}

  void start(const Both& root) {
    push(root);
    go(root.best);
  }

 private:
  struct Pending {
    const Choice* choice;  // one of the two
    const Both* minors;
  };

  /// Puts a node's undecided things on the list; its `apart` is taken at once.
  std::size_t push(const Both& node) {
    const auto before = pending_.size();
    leaf_.apart += node.apart + node.paired;
    leaf_.nodes.push_back(&node);
    for (const auto& choice : node.choices) pending_.push_back({choice.get(), nullptr});
    if (node.listed_minors > 0) pending_.push_back({nullptr, &node});
    return before;
  }

  void go(double best) {
    if (best < threshold_) return;
    if (pending_.empty()) {
      emit_(leaf_);
      return;
    }
    const Pending next = pending_.back();
    pending_.pop_back();
    if (next.choice != nullptr) {
      for (const Option& option : next.choice->options) take(option, best - next.choice->best);
    } else {
      double none = best;
      for (std::size_t i = 0; i < next.minors->listed_minors; ++i)
        none -= std::max(0.0, next.minors->minors[i].log_odds);
      take_minors(*next.minors, 0, none, true);
    }
    pending_.push_back(next);
  }

  void take(const Option& option, double others) {
    if (others + option.ratio + option.rest->best < threshold_) return;
    if (!option.members.empty()) leaf_.options.push_back(&option);
    const auto before = push(*option.rest);
    go(others + option.ratio + option.rest->best);
    pending_.resize(before);
    leaf_.apart -= option.rest->apart + option.rest->paired;
    leaf_.nodes.pop_back();
    if (!option.members.empty()) leaf_.options.pop_back();
  }

  void take_minors(const Both& node, std::size_t from, double weight, bool first) {
    go(weight);
    for (std::size_t i = from; i < node.listed_minors; ++i) {
      const double with = weight + node.minors[i].log_odds;
      if (with < threshold_) break;  // they are in falling order
      // Beside it those summed out are less likely, or likelier by what it spares them; of several count the first's.
      double others = std::log1p(-std::min(node.minors[i].met, 0.999));
      if (first) others += node.minors[i].helped;
      leaf_.minors.push_back(node.minors[i].candidate);
      leaf_.apart += others;
      take_minors(node, i + 1, with, false);
      leaf_.apart -= others;
      leaf_.minors.pop_back();
    }
  }

  double threshold_;
  const std::function<void(const Leaf&)>& emit_;
  std::vector<Pending> pending_;
  Leaf leaf_;
};

double class_log_odds(const Problem& problem, const std::vector<Candidate>& members) {
  double any = 0;
  for (const auto member : members) any += log1p_exp(problem.log_odds[member]);
  return log_minus_one(any);
}

/// The exact weight of a leaf: of the set itself, its classes counted whole, times what is summed out.
ListedSet listed(const Problem& problem, Together& together, const Leaf& leaf) {
  ListedSet set;
  std::vector<Candidate> chosen = leaf.minors;
  for (const auto minor : leaf.minors) set.classes.push_back({minor});
  for (const Option* option : leaf.options) {
    const auto& members = option->members;
    chosen.push_back(members.front());
    if (members.size() > 1) set.log_weight += class_log_odds(problem, members) - problem.log_odds[members.front()];
    if (option->listed) set.classes.push_back(members);
  }
  set.log_weight += together.log_weight(chosen) + leaf.apart;
  return set;
}

/// Spreads a leaf into the plain sets that it sums: any members of its classes, hidden candidates added or not.
class Spread {
 public:
  Spread(const Problem& problem, Together& together, double floor, std::vector<PlainSet>& out)
      : problem_(problem), together_(together), floor_(floor), out_(out) {}

  void spread(const Leaf& leaf) {
    set_ = leaf.minors;
    for (const Both* node : leaf.nodes) {
      extras_.insert(extras_.end(), node->hidden.begin(), node->hidden.end());
      for (auto i = node->listed_minors; i < node->minors.size(); ++i) extras_.push_back(node->minors[i].candidate);
    }
    pick_members(leaf, 0);
  }

 private:
  /// One member of each class stands first; those after it may be added.
  void pick_members(const Leaf& leaf, std::size_t at) {
    if (at == leaf.options.size()) {
      const auto by_odds = [&](Candidate a, Candidate b) { return problem_.log_odds[a] > problem_.log_odds[b]; };
      auto extras = extras_;
      std::stable_sort(extras.begin(), extras.end(), by_odds);
      add(extras, 0, together_.log_weight(set_));
      return;
    }
    const auto& members = leaf.options[at]->members;
    const auto count = extras_.size();
    for (std::size_t i = 0; i < members.size(); ++i) {
      set_.push_back(members[i]);
      extras_.insert(extras_.end(), members.begin() + static_cast<std::ptrdiff_t>(i) + 1, members.end());
      pick_members(leaf, at + 1);
      extras_.resize(count);
      set_.pop_back();
    }
  }

  /// `most` bounds the weight: an extra adds its odds and may lose something.
  void add(const std::vector<Candidate>& extras, std::size_t from, double most) {
    if (most < floor_) return;
    out_.push_back({together_.log_weight(set_), set_});
    std::sort(out_.back().members.begin(), out_.back().members.end());
    for (std::size_t i = from; i < extras.size(); ++i) {
      const double with = most + problem_.log_odds[extras[i]];
      if (with < floor_) break;
      set_.push_back(extras[i]);
      add(extras, i + 1, with);
      set_.pop_back();
    }
  }

  const Problem& problem_;
  Together& together_;
  double floor_;
  std::vector<PlainSet>& out_;
  std::vector<Candidate> set_, extras_;
};

}  // namespace

void visit_leaves(const Both& root, double threshold, const std::function<void(const Leaf&)>& emit) {
  Walk(threshold, emit).start(root);
}

std::vector<ListedSet> list_sets(const Problem& problem, const Both& root, double share, std::size_t most) {
  Together together(problem);
  std::vector<ListedSet> sets;
  for (double depth = 5;; depth += 2.5) {
    sets.clear();
    double mass = 0;
    visit_leaves(root, root.best - depth, [&](const Leaf& leaf) {
      if (sets.size() > 4 * most) return;
      sets.push_back(listed(problem, together, leaf));
      mass += std::exp(sets.back().log_weight - root.low);
    });
    if (mass >= share || sets.size() >= most || depth > 60) break;
  }
  std::stable_sort(sets.begin(), sets.end(),
                   [](const ListedSet& a, const ListedSet& b) { return a.log_weight > b.log_weight; });
  if (sets.size() > most) sets.resize(most);
  return sets;
}

std::vector<PlainSet> sets_within(const Problem& problem, double within) {
  // The true best is at least the greedy one, so nothing within reach of it is left out of the tree.
  const double floor = greedy_log_weight(problem) - within;
  // Minors are taken for likelier together, by no more than exp(threshold): a set worth exp(floor) is seen as half
  // that.
  const double threshold = floor - std::log(2.0);
  const auto found = search_above(problem, threshold);
  std::vector<PlainSet> sets;
  Together together(problem);
  if (found.root != nullptr) {
    visit_leaves(*found.root, threshold,
                 [&](const Leaf& leaf) { Spread(problem, together, floor, sets).spread(leaf); });
  }
  std::stable_sort(sets.begin(), sets.end(),
                   [](const PlainSet& a, const PlainSet& b) { return a.log_weight > b.log_weight; });
  while (!sets.empty() && sets.back().log_weight < sets.front().log_weight - within) sets.pop_back();
  return sets;
}

std::vector<Share> shares(const Problem& problem, const Both& root) {
  std::vector<Share> share(problem.candidates());
  const auto add = [&](Candidate candidate, double low, double high) {
    share[candidate].low += low;
    share[candidate].high += high;
  };
  const std::function<void(const Both&, double)> visit = [&](const Both& node, double mass) {
    for (const auto hidden : node.hidden) {
      const double part = mass / (1 + std::exp(-problem.log_odds[hidden]));
      add(hidden, part, part);
    }
    for (const Minor& minor : node.minors) {
      const double least = (1 - std::min(minor.met, 1.0)) / (1 + std::exp(minor.helped - minor.log_odds));
      add(minor.candidate, mass * least, mass * std::max(minor.present, 1 / (1 + std::exp(-minor.log_odds))));
    }
    for (const auto& choice : node.choices) {
      for (const Option& option : choice->options) {
        const double part = mass * std::exp(option.ratio + option.rest->low - choice->low);
        double any = 0;
        for (const auto member : option.members) any += log1p_exp(problem.log_odds[member]);
        for (const auto member : option.members) {
          const double own = part / (1 + std::exp(-problem.log_odds[member])) / -std::expm1(-any);
          add(member, own, own);
        }
        visit(*option.rest, part);
      }
    }
  };
  visit(root, 1.0);
  return share;
}

Without without(const Problem& problem, const Both& node, const std::vector<std::uint8_t>& in_group) {
  // Of members alike at least one is present; the share of those sets in which it is none of the group.
  const auto share_without = [&](const std::vector<Candidate>& members) {
    double any = 0, others = 0;
    for (const Candidate member : members) {
      const double odds = log1p_exp(problem.log_odds[member]);
      any += odds;
      if (in_group[member] == 0) others += odds;
    }
    if (others == any) return 0.0;
    return others == 0 ? -INFINITY : log_minus_one(others) - log_minus_one(any);
  };
  double found = node.apart;
  for (const Candidate hidden : node.hidden) {
    if (in_group[hidden] != 0) found -= log1p_exp(problem.log_odds[hidden]);
  }
  for (std::size_t i = 0; i < node.listed_minors; ++i) found += log1p_exp(node.minors[i].log_odds);
  Without all{found, found + node.spread};
  for (const auto& choice : node.choices) {
    Without sum{-INFINITY, choice->missing};
    for (const Option& option : choice->options) {
      const double share = option.ratio + share_without(option.members);
      if (std::isinf(share)) continue;
      const Without rest = without(problem, *option.rest, in_group);
      sum.found = log_sum(sum.found, share + rest.found);
      sum.most = log_sum(sum.most, share + rest.most);
    }
    all.found += sum.found;
    all.most += sum.most;
  }
  all.most = log_sum(all.most, node.missing);
  return all;
}

}  // namespace whichwire::search
