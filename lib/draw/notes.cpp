#include "draw/notes.hpp"

#include <algorithm>
#include <iterator>

#include "draw/lettering.hpp"
#include "draw/percent.hpp"

namespace whichwire::draw {

namespace {

constexpr double note_height = 16;
constexpr double sign_width = 19;  // before the words of all but labels

double sign_of(const Note& note) { return note.kind == Note::Kind::label ? 0 : sign_width; }
Lettering lettering_of(const Note& note) {
  switch (note.kind) {
    case Note::Kind::label:
      return Lettering::tag;
    case Note::Kind::tag:
    case Note::Kind::probe:
    case Note::Kind::only_here:
    case Note::Kind::changed:
    case Note::Kind::renamed:
      return Lettering::mark;
    case Note::Kind::feed:
    case Note::Kind::ground:
      return Lettering::note;
  }
  return Lettering::note;
}

Ink difference_ink(Note::Kind difference) {
  if (difference == Note::Kind::only_here) return Ink::only_here;
  return difference == Note::Kind::changed ? Ink::changed : Ink::renamed;
}

void add_sign(Thing& thing, const Note& note, Spot corner) {
  const double middle = corner.y + note_height / 2;
  switch (note.kind) {
    case Note::Kind::label:
      break;
    case Note::Kind::tag:
      thing.shapes.push_back(box(ink_of(note.share), {corner.x + 1, middle - 5.5, 14, 11}, 2));
      break;
    case Note::Kind::probe:
      thing.shapes.push_back({Shape::Form::disc, Ink::probe, {{corner.x + 8, middle}}, 7.5});
      thing.words.push_back({{corner.x, middle - 6.5, 16, 13}, std::to_string(note.number), Lettering::number, true});
      break;
    case Note::Kind::only_here:
    case Note::Kind::changed:
    case Note::Kind::renamed:
      std::ranges::move(sign_of_difference(difference_ink(note.kind), {corner.x, middle}),
                        std::back_inserter(thing.shapes));
      break;
    case Note::Kind::feed:
      thing.shapes.push_back(box(Ink::symbol, {corner.x + 3, middle - 3, 11, 6}));
      thing.shapes.push_back(line(Ink::symbol, {{corner.x, middle}, {corner.x + 17, middle}}));
      break;
    case Note::Kind::ground:
      thing.shapes.push_back(line(Ink::symbol, {{corner.x + 8, middle - 6}, {corner.x + 8, middle - 1}}));
      for (int bar = 0; bar < 3; ++bar) {
        const double half = 6 - 2 * bar, y = middle - 1 + 2.5 * bar;
        thing.shapes.push_back(line(Ink::symbol, {{corner.x + 8 - half, y}, {corner.x + 8 + half, y}}));
      }
      break;
  }
}

Note::Kind kind_of(Distinction::Kind kind) {
  switch (kind) {
    case Distinction::Kind::only_here:
      return Note::Kind::only_here;
    case Distinction::Kind::changed:
      return Note::Kind::changed;
    case Distinction::Kind::renamed:
      return Note::Kind::renamed;
  }
  return Note::Kind::changed;
}

}  // namespace

std::vector<Note> marks_at(const Drawing& drawing, const Part& part) {
  std::vector<Note> notes;
  if (drawing.marks == nullptr) return notes;
  for (const Suspicion& one : drawing.marks->suspicions) {
    if (one.part == part)
      notes.push_back({Note::Kind::tag, percent(one.probability) + " " + one.what, one.probability});
  }
  for (const Probe& probe : drawing.marks->probes) {
    if (probe.part == part) notes.push_back({Note::Kind::probe, probe.what, 0, probe.number});
  }
  for (const Distinction& one : drawing.marks->distinctions) {
    if (one.part == part) notes.push_back({kind_of(one.kind), one.what});
  }
  return notes;
}

std::vector<Shape> sign_of_difference(Ink ink, Spot at) {
  if (ink == Ink::only_here)
    return {line(ink, {{at.x + 2.5, at.y}, {at.x + 14.5, at.y}}),
            line(ink, {{at.x + 8.5, at.y - 6}, {at.x + 8.5, at.y + 6}})};
  std::vector<Shape> sign;
  for (const double y : {at.y - 2.5, at.y + 2.5}) sign.push_back(line(ink, {{at.x + 3, y}, {at.x + 14, y}}));
  if (ink == Ink::changed) sign.push_back(line(ink, {{at.x + 5, at.y + 6}, {at.x + 12, at.y - 6}}));
  return sign;
}

Ink ink_of(double share) { return share >= 0.5 ? Ink::likely : share >= 0.1 ? Ink::possible : Ink::remote; }

std::optional<Ink> halo_at(const Drawing& drawing, const Part& part) {
  if (drawing.marks == nullptr) return std::nullopt;
  const auto& all = drawing.marks->suspicions;
  const auto found = std::ranges::find(all, part, &Suspicion::part);
  if (found != all.end())
    return found->probability >= 0.5   ? Ink::likely_halo
           : found->probability >= 0.1 ? Ink::possible_halo
                                       : Ink::remote_halo;
  const auto& differ = drawing.marks->distinctions;
  const bool differs = std::ranges::find(differ, part, &Distinction::part) != differ.end();
  return differs ? std::optional(Ink::differs_halo) : std::nullopt;
}

double width_of(const std::vector<Note>& notes, double widest) {
  double width = 0;
  for (const Note& note : notes)
    width = std::max(width, sign_of(note) + width_of(printable(note.text), lettering_of(note)));
  return std::min(width, widest);
}

double height_of(const std::vector<Note>& notes) { return note_height * static_cast<double>(notes.size()); }

Thing notes_at(const Part& part, const std::vector<Note>& notes, Spot corner, double widest) {
  Thing thing{Thing::Role::notes, part, {}, {}};
  for (const Note& note : notes) {
    add_sign(thing, note, corner);
    const Lettering lettering = lettering_of(note);
    const std::string text = fitted(note.text, lettering, widest - sign_of(note));
    const double width = width_of(text, lettering);
    if (!text.empty())
      thing.words.push_back({{corner.x + sign_of(note), corner.y + 1, width, note_height - 2}, text, lettering});
    corner.y += note_height;
  }
  return thing;
}

}  // namespace whichwire::draw
