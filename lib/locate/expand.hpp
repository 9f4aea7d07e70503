// One node of the search after another: bounds it, splits it into independent parts, expands the parts.
#pragma once

#include <deque>

#include "locate/ceilings.hpp"
#include "locate/tree.hpp"

namespace whichwire::search {

/// Candidates of one independent part of a node, as indices into the context's prospects.
struct Part {
  std::vector<std::uint32_t> active;  ///< most promising first
  std::vector<std::uint32_t> minor;
  double bound = 0;  ///< log upper bound of its mass; of the first part not known
};

/// Candidates alike in every context of a node.
struct Alike {
  std::vector<std::uint32_t> members;  ///< prospects
  double log_odds = 0, log1p_odds = 0, ratio = 0, hope = 0;
};

class Expander {
 public:
  Expander(const Problem& problem, Together& together, Spares& spares, std::size_t most_work)
      : problem_(problem), together_(together), spares_(spares), most_work_(most_work), before_(together.work()) {}

  /// The sets that contain `chosen` and otherwise only `free` ones. Null when their whole mass is below `threshold`
  /// (log, against the chosen set): then `left_out` is a bound of it.
  std::unique_ptr<Both> expand(std::vector<Candidate>& chosen, const std::vector<Candidate>& free, double threshold,
                               double& left_out);

  /// Log bound of the mass of all sets of `free`.
  double bound(const std::vector<Candidate>& free) const;

  std::size_t work() const { return work_ + together_.work() - before_; }

 private:
  double hidden_mass(const Context& context) const;
  Ceilings ceilings_of(const Context& context) const;
  void soften(Context& context) const;
  double prune(Context& context, const Ceiling& ceiling, double threshold) const;
  void take_hidden(Context& context, Both& node) const;
  std::vector<Part> split(const Context& context) const;
  double bound(const Context& context, const Part& part) const;
  bool mergeable(const Prospect& prospect) const;
  std::vector<Alike> merge(const Context& context, const std::vector<std::uint32_t>& active) const;
  Choice choose(Context& context, const Part& part, std::vector<Candidate>& chosen, double threshold);
  /// Returns the log of the mass that it added; 0 where it made some of them active instead.
  double add_minors(Context& context, Part& part, double threshold, Both& node, double& slack);
  bool minor(const Prospect& prospect) const;
  static void sort_minors(Both& node);

  const Problem& problem_;
  Together& together_;
  Spares& spares_;
  std::size_t most_work_, before_, work_ = 0, depth_ = 0;
  std::deque<Context> contexts_;
};

}  // namespace whichwire::search
