// Pictures for paper and phones: narrow, cut by no end of a sheet, and brief where most of a network says nothing.
#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>

#include "draw/block.hpp"
#include "draw/sheets.hpp"
#include "pictures.hpp"

using namespace whichwire;
using whichwire::draw::Sheets;
using whichwire::draw::usual_sheet;

namespace {

/// Boxes, notes and headings that an end of a sheet cuts; a gateway along its buses is none.
std::vector<std::string> cut_by_sheets(const Picture& picture) {
  std::vector<std::string> cut;
  const double sheet_height = Sheets(picture.width).height();
  for (const Thing& thing : picture.things) {
    if (thing.role == Thing::Role::wire || thing.role == Thing::Role::joint) continue;
    const Rectangle at = draw::bounds_of(thing);
    if (std::floor(at.y / sheet_height) != std::floor(at.bottom() / sheet_height))
      cut.push_back(std::to_string(thing.part.index) + " at " + std::to_string(at.y));
  }
  return cut;
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
    CHECK(picture.width == doctest::Approx(usual_sheet));
    CHECK(cut_by_sheets(picture) == std::vector<std::string>{});
  }
}

TEST_CASE("a bus of a hundred modules, taller than a sheet, goes on upon the next, and nothing but wires is cut") {
  const Network network = *read_network(bench::vehicle_text(100, 2), "generated").network;
  const Marks crowded = test::crowded_marks(network);
  for (const Marks* marks : {static_cast<const Marks*>(nullptr), &crowded}) {
    const Picture picture = picture_of(network, marks, {false, true, PictureFit::sheets});
    CHECK(picture.width == usual_sheet);
    CHECK(picture.height > Sheets(usual_sheet).height());
    CHECK(cut_by_sheets(picture) == std::vector<std::string>{});
    for (std::size_t i = 0; i < network.modules.size(); ++i) CHECK(draws(picture, i));
  }
}

TEST_CASE("what no sheet could hold makes all of them larger, and nothing is cut or lost") {
  Network network = test::shipped("compact-car");
  Marks marks;
  for (std::size_t i = 0; i < 100; ++i) {
    const Part part{Part::Kind::module, 1};
    marks.suspicions.push_back({part, "pin " + std::to_string(i) + " open", 0.01});
  }
  const Picture picture = picture_of(network, &marks, {false, true, PictureFit::sheets});
  CHECK(picture.width > usual_sheet);
  CHECK(cut_by_sheets(picture) == std::vector<std::string>{});
  std::size_t told = 0;
  for (const Thing& thing : picture.things)
    for (const Words& words : thing.words) {
      told += words.text.starts_with("1 % pin ") ? 1 : 0;
      CHECK(words.at.right() <= picture.width);
    }
  CHECK(told == marks.suspicions.size());
}

TEST_CASE("modules that are on no bus are not cut either") {
  Network network = *read_network(bench::vehicle_text(60, 8), "generated").network;
  for (int i = 0; i < 300; ++i) network.modules.emplace_back().id = "L" + std::to_string(i);
  const Picture picture = picture_of(network, nullptr, {false, true, PictureFit::sheets});
  CHECK(cut_by_sheets(picture) == std::vector<std::string>{});
  for (std::size_t i = 0; i < network.modules.size(); ++i) CHECK(draws(picture, i));
}

TEST_CASE("in brief the silent module is drawn, and every other is drawn or named") {
  std::size_t drawn = 0, named = 0;
  for (const auto& one : test::networks_to_draw()) {
    CAPTURE(one.first);
    const Network& network = one.second;
    const Marks marks = test::one_silent(network);
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
  const Marks marks = test::one_silent(large);
  CHECK_FALSE(pictures_for_page(small, nullptr).brief.has_value());
  const PagePictures pictures = pictures_for_page(large, &marks);
  REQUIRE(pictures.brief.has_value());
  CHECK(pictures.brief->width <= usual_sheet);
  CHECK(pictures.brief->height < pictures.whole.height / 2);
}
