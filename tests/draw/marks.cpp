// What is suspected, as findings say it, and where that is drawn.
#include <doctest/doctest.h>

#include <algorithm>

#include "building.hpp"
#include "draw/block.hpp"
#include "draw/notes.hpp"
#include "draw/percent.hpp"
#include "pictures.hpp"

using namespace whichwire;

namespace {

Marks marked(const Network& network, const std::vector<Marginal>& marginals) {
  Ranking ranking;
  ranking.marginals = marginals;
  return marks_of(network, Scan{}, ranking, Verdict{}, CheckPlan{}, 0);
}

/// Whether the thing says the share, with its pattern before it on the same line.
bool shows(const Thing& thing, const Suspicion& one) {
  const std::string share = draw::percent(one.probability) + " ";
  return std::ranges::any_of(thing.words, [&](const Words& words) {
    return words.text.starts_with(share) && std::ranges::any_of(thing.shapes, [&](const Shape& shape) {
             const double y = words.at.y + words.at.height / 2;
             return shape.form == Shape::Form::box && shape.ink == draw::ink_of(one.probability) &&
                    shape.points[0].y < y && y < shape.points[1].y && shape.points[1].x <= words.at.x;
           });
  });
}

/// The id of the part that the fault stands at, as faults are called: `ECM` of `ECM/A-1`, `S1` of `DRV@S1`.
std::string owner_of(const Network& network, const Fault& fault) {
  const std::string part = part_of(network, fault);
  return fault.part == PartKind::terminator ? part.substr(part.find('@') + 1) : part.substr(0, part.find('/'));
}

std::string id_of(const Network& network, const Part& part) {
  return part.kind == Part::Kind::segment ? network.buses[part.bus].segments[part.index].id
         : part.kind == Part::Kind::point ? network.points[part.index].id
                                          : std::string();
}

}  // namespace

TEST_CASE(
    "every fault that any shipped network can have is marked at its part, with its share and the pattern for it") {
  constexpr double shares[] = {0.02, 0.2, 0.6};
  std::size_t shown = 0;
  for (const std::string& name : test::shipped_names()) {
    CAPTURE(name);
    const Network network = test::shipped(name);
    std::vector<Marginal> marginals;
    for (const Fault& fault : faults_of(network)) {
      const double share = shares[marginals.size() % 3];
      marginals.push_back({fault, {share, share}});
    }
    const Marks marks = marked(network, marginals);
    const Picture picture = picture_of(network, &marks);
    for (const Suspicion& one : marks.suspicions) {
      CAPTURE(one.what);
      CAPTURE(one.probability);
      CHECK(std::ranges::any_of(picture.things,
                                [&](const Thing& thing) { return thing.part == one.part && shows(thing, one); }));
      ++shown;
    }
    for (const Marginal& one : marginals) {
      const std::string owner = owner_of(network, one.fault);
      CAPTURE(text_of(network, one.fault));
      const Part called = part_called(network, owner);
      CHECK(std::ranges::any_of(marks.suspicions, [&](const Suspicion& mark) {
        return called.kind == Part::Kind::none ? id_of(network, mark.part) == owner : mark.part == called;
      }));
    }
  }
  CHECK(shown > 3000);
}

TEST_CASE("faults that are one mark to the eye are summed, and what is below one in a hundred is not marked") {
  test::Building made;
  made.bus("CAN", Protocol::can_hs);
  made.module("ECM");
  made.segment("CAN", "C1", "DLC", "ECM");
  std::vector<Marginal> marginals;
  for (const Fault& fault : faults_of(made.network)) {
    const std::string text = text_of(made.network, fault);
    if (fault.comes_and_goes) continue;
    if (text.starts_with("short C1 high ")) marginals.push_back({fault, {0.2, 0.3}});  // to ground, to battery
    if (text == "dead ECM") marginals.push_back({fault, {0.009, 0.02}});
  }
  REQUIRE(marginals.size() == 3);
  const Marks marks = marked(made.network, marginals);
  REQUIRE(marks.suspicions.size() == 1);
  CHECK(marks.suspicions[0].part == Part{Part::Kind::segment, 0, 0});
  CHECK(marks.suspicions[0].what == "short high");
  CHECK(marks.suspicions[0].probability == doctest::Approx(0.4));
}
