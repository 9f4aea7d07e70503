// How much minors help one another: two that lose at the same observation lose less together than each alone, so sets
// with both weigh more than the product of their odds. Bounds of the mass of all sets from above and from below that
// differ only by what three and more have to do with each other. Those of one crowd help and are helped alike. Proof:
// DEVELOPERS.md, "Minors". Tested by tests/differential.
#pragma once

#include <cstdint>
#include <vector>

namespace whichwire::search {

/// What one of a crowd spares one of another, or of its own.
struct Sparing {
  std::uint32_t helper;  ///< crowd
  double most;           ///< log; at most, other minors apart
  double surely;         ///< log; at least, whatever other minors are there
  double factor = 0;     ///< by which it is likelier at most, less 1: set by Help
};

/// A crowd as far as help goes. All numbers are natural logs.
struct HelpedCrowd {
  std::vector<double> log_odds;  ///< of its members, alone
  double lost = 0;               ///< how much likelier each is at best, as far as sets of it and of any others go
  double spared_at_most = 0;     ///< by all others together
  bool listed = false;           ///< stands after all that are not
  std::vector<Sparing> by;       ///< each helping crowd once
};

class Help {
 public:
  /// `least`: bound from below of what all sets weigh, as a share of the product of their odds.
  Help(std::vector<HelpedCrowd> crowds, double least);

  /// Log of how much likelier all sets are than the product, at most.
  double most() const { return most_; }

  /// Of a minor, by crowd and place in it.
  struct Member {
    double odds = 0;     ///< log, alone
    double present = 0;  ///< its probability, at most
    double at_most = 0;  ///< its probability given any others, at most
    double at_best = 0;  ///< its odds at best
    double alone = 0;    ///< its probability, alone
    double surely = 0;   ///< log factor by which it is likelier than its odds, at least, beside those before it that
                         ///< are not listed
    double unknown = 0;  ///< its part in what is not known, as a share of the product
  };
  const Member& of(std::size_t crowd, std::size_t place) const { return members_[crowd][place]; }

 private:
  /// Sums over members of a crowd.
  struct Sum {
    double present = 0, at_most = 0, at_best = 0, alone = 0, second = 0;
    void add(const Member& member, double sign = 1);
  };

  void bound_presence();
  void sum_up();
  void sum_up(std::size_t crowd, std::size_t place, const Sum& before);
  template <class Others>
  double helped_by_any(std::size_t crowd, Others others) const;
  static double brought_by_one(const Sparing& by, const Sum& sum, double at_best);
  double surely_helped(std::size_t crowd, const Sum& before) const;
  Sum whole(std::size_t crowd) const;

  std::vector<HelpedCrowd> crowds_;
  std::vector<std::vector<Member>> members_;
  std::vector<Sum> sums_;             ///< by crowd
  std::vector<double> most_present_;  ///< by crowd: of its members
  std::vector<double>
      brings_unknown_;  ///< by crowd: part that a member has in what later ones do not know, per presence
  double looser_ = 0;   ///< log of how much likelier all sets would be with each at its best
  double most_ = 0;
};

}  // namespace whichwire::search
