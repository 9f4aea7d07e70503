// The legend explains each sign that a picture has, and no other.
#include <doctest/doctest.h>

#include <set>

#include "pictures.hpp"

using namespace whichwire;

namespace {

/// Signs that do not speak for themselves.
constexpr Ink explained[] = {Ink::pair,         Ink::single, Ink::light,     Ink::not_known, Ink::joint,
                             Ink::coupling,     Ink::likely, Ink::possible,  Ink::remote,    Ink::resistor,
                             Ink::torn_outline, Ink::probe,  Ink::only_here, Ink::changed,   Ink::renamed};

struct Signs {
  std::set<Ink> inks;
  std::set<Thing::State> states;
};

Signs signs_of(const Picture& picture, bool in_legend) {
  Signs signs;
  for (const Thing& thing : picture.things) {
    if ((thing.role == Thing::Role::legend) != in_legend) continue;
    if (thing.state != Thing::State::plain) signs.states.insert(thing.state);
    for (const Shape& shape : thing.shapes)
      if (std::ranges::find(explained, shape.ink) != std::end(explained)) signs.inks.insert(shape.ink);
  }
  return signs;
}

/// In turn: nothing, one module of all silent, everything suspected, one thing that differs in each way.
std::vector<Marks> some_marks(const Network& network) {
  std::vector<Marks> all = {Marks{}, test::one_silent(network), test::crowded_marks(network)};
  for (const auto kind : {Distinction::Kind::only_here, Distinction::Kind::changed, Distinction::Kind::renamed}) {
    Marks marks;
    marks.distinctions = {{{Part::Kind::module, network.modules.size() - 1}, kind, "pin"}};
    all.push_back(marks);
  }
  return all;
}

}  // namespace

TEST_CASE("the legend explains each sign that the picture has, and no other") {
  std::set<Ink> met;
  for (const auto& one : test::networks_to_draw()) {
    CAPTURE(one.first);
    for (const Marks& marks : some_marks(one.second)) {
      for (const PictureFit fit : {PictureFit::screen, PictureFit::column, PictureFit::sheets}) {
        for (const bool brief : {false, true}) {
          const Picture picture = picture_of(one.second, &marks, {false, true, fit, brief});
          const Signs has = signs_of(picture, false), told = signs_of(picture, true);
          CHECK(told.inks == has.inks);
          CHECK(told.states == has.states);
          met.insert(has.inks.begin(), has.inks.end());
        }
      }
    }
  }
  CHECK(met.size() == std::size(explained));
}
