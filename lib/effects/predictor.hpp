// Levels of a fixed list of questions under any set of faults, fast: only atoms that the faults act on are looked at.
// Built once a scan. Tested by tests/differential against plain_predict.
#pragma once

#include <algorithm>
#include <span>
#include <vector>

#include "effects/bus_state.hpp"
#include "effects/routes.hpp"

namespace whichwire {

/// A question whose level is not `up`.
struct Raised {
  std::uint32_t question;
  Level level;
  friend auto operator<=>(const Raised&, const Raised&) = default;
};

class Predictor {
 public:
  Predictor(const Effects::Compiled&, std::span<const Question>, const Circumstances&);

  /// The questions that are not `up` when exactly these are present, in rising order of question. Those that act
  /// `firmly` disturb their bus only where they would beside any other faults. Faults that come and go are to be given
  /// to `left_behind` instead.
  void present(std::span<const Fault* const> acting, std::span<const Fault* const> firmly, std::vector<Raised>& out);

  /// What one fault that comes and goes left behind, in rising order of question.
  void left_behind(const Fault& fault, std::vector<Raised>& out);

  /// Questions whose level is the best of several routes of which the last set acted on some, in any order.
  const std::vector<std::uint32_t>& routed_questions() const { return routed_last_; }

  /// Whether its level is the best of several routes.
  bool has_several_routes(std::uint32_t question) const {
    return std::any_of(by_route_.begin(), by_route_.end(),
                       [&](const ManyRoutes& one) { return one.question == question; });
  }

  /// Questions that a hop on the bus has a part in for which `wanted(p, q)`, rising.
  template <class Wanted>
  std::vector<std::uint32_t> questions_over(std::size_t bus, Wanted wanted) const {
    std::vector<std::uint32_t> questions;
    for (const auto atom : bus_atoms_[bus]) {
      if (!wanted(atoms_.all()[atom].p, atoms_.all()[atom].q)) continue;
      questions.insert(questions.end(), direct_[atom].begin(), direct_[atom].end());
      for (const auto entry : routed_[atom]) questions.push_back(by_route_[entry].question);
    }
    std::sort(questions.begin(), questions.end());
    questions.erase(std::unique(questions.begin(), questions.end()), questions.end());
    return questions;
  }

  /// Hops that are asked for on a bus, as pairs of points.
  std::vector<std::pair<PointIndex, PointIndex>> hops_on(std::size_t bus) const;

 private:
  struct ManyRoutes {
    std::uint32_t question;
    Clause clause;
  };

  /// What a bus was last asked about, and the levels of its atoms then: sets that follow each other often differ on one
  /// bus alone.
  struct BusLast {
    std::vector<const Fault*> faults;
    std::size_t disturbing = 0;
    std::vector<Level> levels;
  };

  void enter(std::uint32_t question, const std::vector<Clause>& clauses);
  void act_on_modules(std::span<const Fault* const> faults);
  void act_on_buses(std::size_t acting);
  void act_on_bus(std::size_t bus, std::size_t acting);
  void note_modules_of(const Fault& fault);
  void set_atom(AtomIndex atom, Level level);
  void raise(std::uint32_t question, Level level);
  Level best_route(const Clause& clause) const;

  const Supply& supply_;
  bool tool_has_own_battery_;
  std::vector<Question> questions_;
  AtomTable atoms_;
  std::vector<std::vector<std::uint32_t>> direct_, routed_;  ///< by atom: questions; entries of by_route_
  std::vector<ManyRoutes> by_route_;
  std::vector<std::vector<AtomIndex>> bus_atoms_;                  ///< by bus: hops and places
  std::vector<AtomIndex> life_atom_, fitted_atom_, forward_atom_;  ///< by module; no_atom: nobody asks
  std::vector<std::vector<AtomIndex>> port_atoms_;                 ///< by module
  AtomIndex tester_atom_;
  std::vector<BusState> bus_state_;
  std::vector<BusLast> bus_last_;

  std::vector<Level> atom_level_, question_level_;  ///< scratch, all `up` between calls
  std::vector<AtomIndex> changed_;
  std::vector<std::uint32_t> touched_, dirty_;
  std::vector<std::uint8_t> is_dirty_;  ///< by entry of by_route_
  std::vector<std::size_t> modules_, buses_;
  std::vector<const Fault*> all_, on_bus_;
  std::vector<std::uint32_t> routed_last_;
};

}  // namespace whichwire
