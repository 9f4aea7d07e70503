// Lines of writing beside a part: its name, what is suspected of it, the checks to do at it.
// Tests: tests/draw/picture.cpp.
#pragma once

#include <string>
#include <vector>

#include "draw/block.hpp"
#include "draw/drawing.hpp"

namespace whichwire::draw {

struct Note {
  enum class Kind : std::uint8_t { label, tag, probe, feed, ground, only_here, changed, renamed };
  Kind kind = Kind::label;
  std::string text;
  double share = 0;        ///< of a tag: the probability
  std::size_t number = 0;  ///< of a probe
};

/// What is suspected of the part, most probable first, the checks at it, and in what it differs.
std::vector<Note> marks_at(const Drawing& drawing, const Part& part);

/// A plus for what is only here, two lines as in `=` for another name, the two struck through for what is changed.
/// `at`: the middle of its left edge.
std::vector<Shape> sign_of_difference(Ink ink, Spot at);

/// The pattern for a share of suspicion.
Ink ink_of(double share);

/// What surrounds a part that is suspected or that differs.
std::optional<Ink> halo_at(const Drawing& drawing, const Part& part);

/// No note is taken for wider than `widest`: it is cut.
double width_of(const std::vector<Note>& notes, double widest = 1e9);
double height_of(const std::vector<Note>& notes);

/// The notes one under another from `corner` downward.
Thing notes_at(const Part& part, const std::vector<Note>& notes, Spot corner, double widest = 1e9);

}  // namespace whichwire::draw
