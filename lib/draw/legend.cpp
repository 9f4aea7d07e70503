#include "draw/legend.hpp"

#include <algorithm>

#include "draw/lettering.hpp"
#include "draw/notes.hpp"

namespace whichwire::draw {

namespace {

constexpr double sign_width = 34, row_height = 21;

struct Sign {
  Ink ink;
  const char* means;
};

constexpr Sign lines[] = {{Ink::pair, "bus of two wires"},
                          {Ink::single, "bus of one wire"},
                          {Ink::light, "ring"},
                          {Ink::not_known, "wiring not in the file"}};
constexpr Sign suspicions[] = {{Ink::likely, "suspected, 50 % or more"},
                               {Ink::possible, "suspected, 10 % or more"},
                               {Ink::remote, "suspected, 1 % or more"}};
constexpr Sign distinctions[] = {{Ink::only_here, "only in this one of the two"},
                                 {Ink::changed, "not as in the other"},
                                 {Ink::renamed, "has another name there"}};

struct State {
  Thing::State state;
  const char* means;
};
constexpr State states[] = {{Thing::State::answers, "answers"},
                            {Thing::State::refuses, "answers, but refuses the request"},
                            {Thing::State::silent, "silent"},
                            {Thing::State::not_fitted, "shown as not fitted"},
                            {Thing::State::not_reachable, "behind a locked gateway"},
                            {Thing::State::not_seen, "not in the scan"}};

class Legend {
 public:
  Legend(const std::vector<Thing>& things, double width) : things_(things), width_(width) {}

  Block take() {
    for (const State& one : states) {
      if (std::ranges::find(things_, one.state, &Thing::state) == things_.end()) continue;
      add({box(Ink::outline, {2, 3, 26, 14}, 2)}, one.means, one.state);
    }
    for (const Sign& one : lines)
      if (has(one.ink)) add({line(one.ink, {{2, 10}, {30, 10}})}, one.means);
    if (has(Ink::joint)) add({{Shape::Form::disc, Ink::joint, {{16, 10}}, 4}}, "splice");
    if (has(Ink::coupling))
      add({line(Ink::coupling, {{9, 4}, {13, 10}, {9, 16}}), line(Ink::coupling, {{17, 4}, {21, 10}, {17, 16}})},
          "in-line connector");
    if (has(Ink::resistor)) add({box(Ink::resistor, {8, 6.5, 16, 7})}, "terminating resistor");
    if (has(Ink::torn_outline)) add({box(Ink::torn_outline, {2, 3, 26, 14}, 2)}, "stands at another bus too");
    for (const Sign& one : suspicions)
      if (has(one.ink)) add({box(one.ink, {8, 4.5, 14, 11}, 2)}, one.means);
    for (const Sign& one : distinctions)
      if (has(one.ink)) add(sign_of_difference(one.ink, {6, 10}), one.means);
    if (has(Ink::probe)) add({{Shape::Form::disc, Ink::probe, {{15, 10}}, 7.5}}, "check here, in this order");
    return std::move(block_);
  }

 private:
  bool has(Ink ink) const {
    return std::ranges::any_of(things_, [&](const Thing& thing) {
      return std::ranges::find(thing.shapes, ink, &Shape::ink) != thing.shapes.end();
    });
  }

  void add(std::vector<Shape> sign, const char* means, Thing::State state = Thing::State::plain) {
    const double text = width_of(means, Lettering::note);
    if (next_ > 0 && next_ + sign_width + text > width_) {
      next_ = 0;
      y_ += row_height;
    }
    Thing thing{Thing::Role::legend, {}, std::move(sign), {{{sign_width, 3, text, 14}, means, Lettering::note}}, state};
    move(thing, next_, y_);
    block_.things.push_back(std::move(thing));
    next_ += sign_width + text + 22;
  }

  const std::vector<Thing>& things_;
  double width_, next_ = 0, y_ = 0;
  Block block_;
};

}  // namespace

std::string_view meaning_of(Thing::State state) {
  const State* const found = std::ranges::find(states, state, &State::state);
  return found == std::end(states) ? "" : found->means;
}

Block legend_of(const std::vector<Thing>& things, double width) { return Legend(things, width).take(); }

}  // namespace whichwire::draw
