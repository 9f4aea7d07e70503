// A bus as its main line: what stands in it from left to right, what hangs from it above and below, on as many rows as
// it takes; every second row runs back from right to left, as a folded harness does. Tests: tests/draw/picture.cpp.
#pragma once

#include <array>

#include "draw/block.hpp"
#include "draw/branch.hpp"
#include "draw/drawing.hpp"
#include "draw/notes.hpp"
#include "draw/wiring.hpp"

namespace whichwire::draw {

/// The line begins at the origin, where the gateway's spine is or would be.
class MainLine {
 public:
  /// `root`: the tree of the bus from where the line begins. A spine at its beginning or end is not drawn by it.
  MainLine(Drawing& drawing, std::size_t bus, const Node& root);

  Block take();
  /// Where a line of one row ends.
  double end() const { return last_.x; }

 private:
  enum Side : std::uint8_t { above, below };

  struct Row {
    Block block;
    std::array<double, 2> filled{};  ///< how far boxes reach above and below the line
    double line = 0;                 ///< how far the line and its notes reach
  };

  /// A place on the line.
  struct Mark {
    std::size_t row = 0;
    double x = 0;
  };

  /// A stretch of the line, which may lead to the next row.
  struct Stretch {
    Part part;  ///< a segment, or a point whose splice goes on
    Mark from, to;
  };

  struct Hanging {
    Branch branch;
    Side side = below;
    double at = 0;
  };

  void measure();
  void place_box(std::size_t i);
  void place_point(std::size_t i);
  Hanging hang(const Node& node, double from);
  void put_splice(const Node& node, std::vector<Hanging>& hanging, bool first);
  /// The sign of a point; of a hidden one nothing.
  Thing sign_of(const Node& point, double x) const;
  static Thing nothing_at(const Node& point);
  /// The point and its label; the line goes on from `end`.
  void put_sign(const Node& node, Thing sign, double end, double label);
  Ink bar_ink(const Node& point) const;
  void place_spine(const Node& node);
  /// The wire to the node at `x`; what is said of it ends before `notes_end`.
  void stretch_to(const Node& node, double x, double notes_end);
  void new_row();
  /// `begun`: what is not put into the row yet has begun it.
  bool overflows(double right, bool begun = false) const;
  bool hangs_a_bus(const Node& node) const;
  bool is_spine(const End& end) const;
  double gap_before(const Node& node) const;
  std::vector<const Node*> branches_at(std::size_t i) const;
  std::vector<Note> notes_of(const Node& node) const;
  std::vector<Note> wire_notes(const Node& node) const;
  Thing drawn(const Stretch& stretch, const std::vector<double>& heights, double width) const;

  Row& row() { return rows_.back(); }

  Drawing& drawing_;
  std::size_t bus_;
  std::vector<const Node*> way_;
  std::vector<Row> rows_;
  std::vector<Stretch> stretches_;
  std::array<double, 2> clear_{}, length_{};  ///< where notes beside stubs begin, and single boxes
  Mark last_;                                 ///< up to where the line is drawn
};

}  // namespace whichwire::draw
