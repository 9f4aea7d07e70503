// Pictures for paper and phones: narrow, cut by no end of a sheet, and brief where most of a network says nothing.
#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>

#include "draw/block.hpp"
#include "draw/drawing.hpp"
#include "pictures.hpp"

using namespace whichwire;
using whichwire::draw::sheet_height;
using whichwire::draw::sheet_width;

namespace {

/// Boxes, notes and headings that an end of a sheet cuts; a gateway along its buses is none.
std::vector<std::string> cut_by_sheets(const Picture& picture) {
  std::vector<std::string> cut;
  for (const Thing& thing : picture.things) {
    if (thing.role == Thing::Role::wire || thing.role == Thing::Role::joint) continue;
    const Rectangle at = draw::bounds_of(thing);
    if (std::floor(at.y / sheet_height) != std::floor(at.bottom() / sheet_height))
      cut.push_back(std::to_string(thing.part.index) + " at " + std::to_string(at.y));
  }
  return cut;
}

/// A scan to which only the last module does not answer.
Marks one_silent(const Network& network) {
  Marks marks;
  marks.answers.assign(network.modules.size(), Answer::yes);
  marks.answers.back() = Answer::no;
  marks.suspicions = {{{Part::Kind::module, network.modules.size() - 1}, "itself", 0.6}};
  return marks;
}

bool draws(const Picture& picture, std::size_t module) {
  return std::ranges::any_of(picture.things, [&](const Thing& thing) {
    return thing.role == Thing::Role::box && thing.part == Part{Part::Kind::module, module};
  });
}

bool names(const Picture& picture, const std::string& id) {
  return std::ranges::any_of(picture.things, [&](const Thing& thing) {
    return thing.part.kind == Part::Kind::bus && std::ranges::any_of(thing.words, [&](const Words& words) {
             return (" " + words.text + ",").find(" " + id + ",") != std::string::npos ||
                    (" " + words.text).find(" " + id + ";") != std::string::npos;
           });
  });
}

}  // namespace

TEST_CASE("of every shipped network no sheet of paper is too narrow, and no end of one cuts anything but wires") {
  for (const std::string& name : test::shipped_names()) {
    CAPTURE(name);
    const Network network = test::shipped(name);
    const Picture picture = picture_of(network, nullptr, {false, true, PictureFit::sheets});
    CHECK(picture.width == doctest::Approx(sheet_width));
    CHECK(cut_by_sheets(picture) == std::vector<std::string>{});
  }
}

TEST_CASE("a bus of a hundred modules, taller than a sheet, goes on upon the next, and nothing but wires is cut") {
  const Network network = *read_network(bench::vehicle_text(100, 2), "generated").network;
  const Marks crowded = test::crowded_marks(network);
  for (const Marks* marks : {static_cast<const Marks*>(nullptr), &crowded}) {
    const Picture picture = picture_of(network, marks, {false, true, PictureFit::sheets});
    CHECK(picture.height > sheet_height);
    CHECK(cut_by_sheets(picture) == std::vector<std::string>{});
    for (std::size_t i = 0; i < network.modules.size(); ++i) CHECK(draws(picture, i));
  }
}

TEST_CASE("in brief the silent module is drawn, and every other is drawn or named") {
  std::size_t drawn = 0, named = 0;
  for (const auto& one : test::networks_to_draw()) {
    CAPTURE(one.first);
    const Network& network = one.second;
    const Marks marks = one_silent(network);
    const Picture picture = picture_of(network, &marks, {false, true, PictureFit::column, true});
    CHECK(draws(picture, network.modules.size() - 1));
    for (std::size_t i = 0; i < network.modules.size(); ++i) {
      CAPTURE(network.modules[i].id);
      const bool box = draws(picture, i);
      CHECK((box || names(picture, network.modules[i].id)));
      (box ? drawn : named) += 1;
    }
  }
  CHECK(drawn > 30);
  CHECK(named > 100);
}

TEST_CASE("where nothing is marked nothing is folded") {
  const Network network = test::shipped("van-high");
  Marks marks;
  marks.answers.assign(network.modules.size(), Answer::yes);
  const Picture picture = picture_of(network, &marks, {false, true, PictureFit::column, true});
  for (std::size_t i = 0; i < network.modules.size(); ++i) CHECK(draws(picture, i));
}

TEST_CASE("a page has a brief picture where the whole is too large to be read on paper, and only there") {
  const Network small = test::shipped("compact-car"), large = test::shipped("electric-car");
  const Marks marks = one_silent(large);
  CHECK_FALSE(pictures_for_page(small, nullptr).brief.has_value());
  const PagePictures pictures = pictures_for_page(large, &marks);
  REQUIRE(pictures.brief.has_value());
  CHECK(pictures.brief->width <= sheet_width);
  CHECK(pictures.brief->height < pictures.whole.height / 2);
}
