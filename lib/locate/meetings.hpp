// Which faults of a network act together other than the worst of each alone, and which can undo which.
//
// Faults on one bus meet: breaks part it, and cut disturbances off or leave sides without a terminator; of what only
// disturbs, the worst counts. Ground wires of a module with several meet: only
// the loss of all is fatal. A module's supply meets its babbling, which needs supply. Faults on the routes of a
// question that has several routes meet. All others are independent causes. Judged by tests/differential.
#pragma once

#include <map>

#include "effects/predictor.hpp"
#include "locate/left_alone.hpp"
#include "locate/problem.hpp"

namespace whichwire {

class Meetings {
 public:
  Meetings(const Effects::Compiled& compiled, const Supply& supply, const Predictor& predictor);

  /// Enters the next candidate. `raised` is what it raises alone; `routed` are the questions with several routes of
  /// which it hits some.
  void add(const Fault& fault, const std::vector<Raised>& raised, const std::vector<std::uint32_t>& routed);

  void finish(search::Problem& problem);

 private:
  void add_bus(const Fault& fault);
  void meet_on_bus(const Fault& fault);
  bool only_disturbs(const Fault& fault) const;
  std::uint32_t side_on_routes(const Fault& fault) const;
  static std::uint32_t side_of(std::size_t bus, Level level);
  void meet_on_routes(const Fault& fault, const std::vector<std::uint32_t>& routed);
  void add_left_alone(const Fault& fault);
  void add_reach(const std::vector<std::uint32_t>& observations, Level most);
  void add_supply(const Fault& fault, const std::vector<Raised>& raised);
  void add_grounds(const std::vector<std::size_t>& modules);
  std::vector<std::size_t> supplied_by(const Fault& fault) const;

  const Effects::Compiled& compiled_;
  const Supply& supply_;
  const Predictor& predictor_;
  std::vector<std::vector<std::vector<LeftAlone>>> left_alone_;  ///< by bus, by segment
  std::uint32_t terminators_from_, grounds_from_, babbling_from_, connector_, routes_;
  std::vector<search::Meeting> now_;
  std::map<std::uint32_t, Level> free_, beside_;  ///< of the candidate being entered: its joint reach
  std::map<search::JointReach, std::uint32_t> reach_index_;
  std::vector<std::vector<search::Meeting>> meetings_;
  std::vector<std::uint8_t> disturbs_;
  std::vector<std::uint32_t> jointly_;
  std::vector<search::JointReach> reaches_;
};

/// Whether a fault can undo something of another that disturbs a bus.
class Undoing {
 public:
  Undoing(const Effects::Compiled& compiled, const Supply& supply, const Predictor& predictor);
  search::Undo of(const Fault& cut, const Fault& disturber) const;

 private:
  struct Sides {
    std::vector<PointIndex> label;  ///< by point, with the segment taken out
    std::vector<PointIndex> asked;  ///< labels in which some hop lies whole
  };

  const Effects::Compiled& compiled_;
  const Supply& supply_;
  std::vector<std::vector<Sides>> sides_;  ///< by bus, by edge
};

/// The pieces into which breaks of all lines part the buses.
class Pieces {
 public:
  Pieces(const Effects::Compiled& compiled, std::span<const Fault* const> breaks);

  /// Whether both ends of a segment lie in other pieces than a disturbance, so that its break cannot undo anything.
  bool parted(const Fault& cut, const Fault& disturber) const;

 private:
  const Effects::Compiled& compiled_;
  std::vector<std::vector<PointIndex>> label_;  ///< by bus: by point; empty where nothing is parted
};

/// Whether it parts the bus for every disturbance.
bool parts_bus(const Fault& fault);

/// Whether a fault on a bus, parted already by the chosen ones, still has asked hops on a side that it belongs to.
bool still_parts(const Effects::Compiled& compiled, const Predictor& predictor, const Fault& fault,
                 std::span<const Fault* const> chosen);

/// Whether it disturbs a bus in a way that a break may cut off.
bool disturbs(const Fault& fault, const Network& network);

}  // namespace whichwire
