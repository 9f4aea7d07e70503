// One node of the search after another: bounds it, splits it into independent parts, expands the parts.
#pragma once

#include <deque>

#include "locate/ceilings.hpp"
#include "locate/known_parts.hpp"

namespace whichwire::search {

/// Candidates alike in every context of a node.
struct Alike {
  std::vector<std::uint32_t> members;  ///< prospects
  double log_odds = 0, log1p_odds = 0, ratio = 0, hope = 0;
};

/// What is remembered from node to node and from round to round of one problem.
struct Memory {
  Memory(const Problem& problem, std::size_t most_spared) : together(problem), spares(problem, together, most_spared) {}
  Together together;
  Spares spares;
  KnownParts parts;
};

/// From half of so much work on the threshold rises, up to `step` above what it was, so that what comes late is looked
/// at less closely. A quarter beyond it nothing is looked at any more.
struct Patience {
  std::size_t work;
  double step = 0;
};

class Expander {
 public:
  Expander(const Problem& problem, Memory& memory, Patience patience)
      : problem_(problem),
        together_(memory.together),
        spares_(memory.spares),
        known_(memory.parts),
        patience_(patience),
        before_(together_.work()) {}

  /// The sets that contain `chosen` and otherwise only `free` ones. Null when their whole mass is below `threshold`
  /// (log, against the chosen set): then `left_out` is a bound of it.
  std::unique_ptr<Both> expand(std::vector<Candidate>& chosen, const std::vector<Candidate>& free, double threshold,
                               double& left_out);

  /// Log bound of the mass of all sets of `free`.
  double bound(const std::vector<Candidate>& free) const;

  std::size_t work() const { return work_ + together_.work() - before_; }

 private:
  /// What is below this (log, against the chosen set) is left out now: more where patience runs out.
  double now(double threshold) const;
  bool spent() const { return work() > patience_.work + patience_.work / 4; }
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
  PartFound find(Context& context, Part& part, std::vector<Candidate>& chosen, double threshold);
  /// False where it made some of them active instead.
  bool take_as_minors(Context& context, Part& part, double threshold, PartFound& found);
  bool minor(const Prospect& prospect) const;
  static void sort_minors(Both& node);

  const Problem& problem_;
  Together& together_;
  Spares& spares_;
  KnownParts& known_;
  Patience patience_;
  std::size_t before_, work_ = 0, depth_ = 0;
  std::deque<Context> contexts_;
};

}  // namespace whichwire::search
