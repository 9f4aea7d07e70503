// Reading the search's tree: the heaviest sets in order, and each candidate's share of the mass.
#pragma once

#include <functional>

#include "locate/together.hpp"
#include "locate/tree.hpp"

namespace whichwire::search {

/// One set of the tree.
struct Leaf {
  std::vector<const Option*> options;  ///< those that are not `none`
  std::vector<Candidate> minors;       ///< listed ones that are present
  std::vector<const Both*> nodes;      ///< all on the way, with what each sums out
  double apart = 0;                    ///< log factor of everything summed out
};

/// Calls `emit` for every leaf whose weight in the tree is at least `threshold`, in no particular order.
void visit_leaves(const Both& root, double threshold, const std::function<void(const Leaf&)>& emit);

/// Sets that stand for one another: one member of each class, any of them.
struct ListedSet {
  double log_weight = 0;                        ///< of all of them, with what is summed out
  std::vector<std::vector<Candidate>> classes;  ///< listed candidates only
};

/// The heaviest sets until `share` of the mass found is listed or `most` are, heaviest first.
std::vector<ListedSet> list_sets(const Problem&, const Both& root, double share, std::size_t most);

/// A plain set, nothing summed out or merged.
struct PlainSet {
  double log_weight = 0;           ///< against the empty set
  std::vector<Candidate> members;  ///< rising
};

/// Every single set that weighs at least exp(-within) of the heaviest; heaviest first.
std::vector<PlainSet> sets_within(const Problem&, double within);

/// Share of the mass found of the sets with one candidate: at least `low`; at most `high` and the root's slack.
struct Share {
  double low = 0, high = 0;
};

std::vector<Share> shares(const Problem&, const Both& root);

/// Log bounds of the mass of all sets with none of a group, as far as the tree chooses or hides them: what is found of
/// it, and all that it may be. What was left out beside a chosen one of the group is no part of it.
struct Without {
  double found = 0, most = 0;
};

/// `in_group`: by candidate.
Without without(const Problem&, const Both& root, const std::vector<std::uint8_t>& in_group);

}  // namespace whichwire::search
