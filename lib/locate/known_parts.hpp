// What was found of the independent parts of nodes, remembered: far from what is chosen a vehicle looks the same
// whatever it is, so the same part comes again below nearly every node.
#pragma once

#include <boost/container_hash/hash.hpp>
#include <unordered_map>

#include "locate/context.hpp"
#include "locate/tree.hpp"

namespace whichwire::search {

/// The sets of one part's candidates, against the set chosen above.
struct PartFound {
  std::vector<Minor> minors;
  double apart = 0, paired = 0, spread = 0;  ///< as in Both
  std::shared_ptr<const Choice> choice;      ///< null: none of them is searched one by one
  double mass = 0;                           ///< log of what was found

  /// Log of how much more may be there than was found.
  double more() const { return choice != nullptr ? log1p_exp(choice->lost - choice->low) : spread; }
};

/// Candidates of one independent part of a node, as indices into the context's prospects.
struct Part {
  std::vector<std::uint32_t> active;
  std::vector<std::uint32_t> minor;
  double bound = 0;  ///< log upper bound of its mass; of the first part not known
};

class KnownParts {
 public:
  /// All that decides what is found of a part; empty where that is too much.
  using Key = std::vector<std::uint32_t>;
  static Key key_of(const Problem& problem, const Context& context, const Part& part);

  /// What was found with no more left out than is allowed, or null. `threshold` as in Expander::expand.
  const PartFound* find(const Key& key, double threshold) const;

  void remember(Key key, double threshold, const PartFound& found);

 private:
  static constexpr std::size_t most = 1 << 12;
  struct Known {
    PartFound found;
    double threshold;  ///< the least for which it will do
  };
  std::unordered_map<Key, Known, boost::hash<Key>> known_;
};

}  // namespace whichwire::search
