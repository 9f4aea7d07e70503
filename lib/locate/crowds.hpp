// Minors where the search stands, in crowds of those that would change the same observations in the same way: what they
// have to do with each other is then counted crowd by crowd.
#pragma once

#include "locate/context.hpp"

namespace whichwire::search {

/// What a minor has to do with an observation. Losses are natural logs; a gain is a negative loss.
struct Stake {
  std::uint32_t observation;
  Level raises = Level::up;  ///< up: it does not raise it
  double loss = 0;           ///< by raising it, alone
  double lower_loss = 0;     ///< by lowering it, at most
  friend auto operator<=>(const Stake&, const Stake&) = default;
};

struct Crowd {
  /// What its members have in common.
  struct Kind {
    std::vector<Stake> stakes;  ///< by rising observation
    double lost = 0;            ///< log of how much likelier one would be at best than it is alone
    bool listed = false;
    bool raises_jointly = false;
    bool alone = false;  ///< none of the chosen meets them, and they lower nothing
    friend auto operator<=>(const Kind&, const Kind&) = default;
  } kind;
  std::vector<std::uint32_t> members;  ///< rising
};

struct Crowds {
  struct Holder {
    std::uint32_t crowd;
    const Stake* stake;
  };

  Crowds(const Problem& problem, Context& context, const std::vector<const Prospect*>& minors);

  std::vector<double> log_odds;         ///< by minor: of adding it alone, exactly
  std::vector<std::uint32_t> crowd_of;  ///< by minor
  std::vector<std::size_t> place;       ///< by minor: among the members of its crowd
  std::vector<Crowd> all;               ///< in order of their first members
  std::vector<std::vector<Holder>> at;  ///< by observation: crowds with a stake in it
};

}  // namespace whichwire::search
