#include "draw/legend.hpp"

#include <algorithm>

#include "draw/lettering.hpp"

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
      add(box(Ink::outline, {2, 3, 26, 14}, 2), one.means, one.state);
    }
    for (const Sign& one : lines)
      if (has(one.ink)) add(line(one.ink, {{2, 10}, {30, 10}}), one.means);
    if (has(Ink::joint)) add({Shape::Form::disc, Ink::joint, {{16, 10}}, 4}, "splice");
    if (has(Ink::coupling)) {
      add(line(Ink::coupling, {{9, 4}, {13, 10}, {9, 16}}), "inline connector");
      block_.things.back().shapes.push_back(line(Ink::coupling, moved({{17, 4}, {21, 10}, {17, 16}})));
    }
    if (has(Ink::resistor)) add(box(Ink::resistor, {8, 6.5, 16, 7}), "terminating resistor");
    if (has(Ink::torn_outline)) add(box(Ink::torn_outline, {2, 3, 26, 14}, 2), "stands at another bus too");
    for (const Sign& one : suspicions)
      if (has(one.ink)) add(box(one.ink, {8, 4.5, 14, 11}, 2), one.means);
    add_distinctions();
    if (has(Ink::probe)) {
      add({Shape::Form::disc, Ink::probe, {{15, 10}}, 7.5}, "check here, in this order");
    }
    return std::move(block_);
  }

 private:
  /// The signs of what differs from another network, as notes.cpp draws them.
  void add_distinctions() {
    if (!has(Ink::differs)) return;
    const auto sign = [&](std::vector<std::vector<Spot>> strokes, const char* means) {
      add(line(Ink::differs, strokes.front()), means);
      for (auto other = strokes.begin() + 1; other != strokes.end(); ++other)
        block_.things.back().shapes.push_back(line(Ink::differs, moved(*other)));
    };
    const std::vector<Spot> upper = {{9, 7.5}, {20, 7.5}}, lower = {{9, 12.5}, {20, 12.5}};
    sign({{{8.5, 10}, {20.5, 10}}, {{14.5, 4}, {14.5, 16}}}, "only in this one of the two");
    sign({upper, lower, {{11, 16}, {18, 4}}}, "not as in the other");
    sign({upper, lower}, "has another name there");
  }

  bool has(Ink ink) const {
    return std::ranges::any_of(things_, [&](const Thing& thing) {
      return std::ranges::find(thing.shapes, ink, &Shape::ink) != thing.shapes.end();
    });
  }

  std::vector<Spot> moved(std::vector<Spot> spots) const {
    for (Spot& spot : spots) spot = {spot.x + at_.x, spot.y + at_.y};
    return spots;
  }

  void add(Shape sign, const char* means, Thing::State state = Thing::State::plain) {
    const double text = width_of(means, Lettering::note);
    if (next_ > 0 && next_ + sign_width + text > width_) {
      next_ = 0;
      y_ += row_height;
    }
    at_ = {next_, y_};
    Thing thing{
        Thing::Role::legend, {}, {std::move(sign)}, {{{sign_width, 3, text, 14}, means, Lettering::note}}, state};
    move(thing, at_.x, at_.y);
    block_.things.push_back(std::move(thing));
    next_ += sign_width + text + 22;
  }

  const std::vector<Thing>& things_;
  double width_, next_ = 0, y_ = 0;
  Spot at_;
  Block block_;
};

}  // namespace

std::string_view meaning_of(Thing::State state) {
  const State* const found = std::ranges::find(states, state, &State::state);
  return found == std::end(states) ? "" : found->means;
}

Block legend_of(const std::vector<Thing>& things, double width) { return Legend(things, width).take(); }

}  // namespace whichwire::draw
