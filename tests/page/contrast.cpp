// Whether what is drawn stands out from what it is drawn on: contrast ratios by the formula of WCAG 2.2 (relative
// luminance; success criteria 1.4.3: text at least 4.5 to 1; 1.4.11: signs at least 3 to 1) of the colours that a
// picture has on light screens, on dark ones and on paper.
#include <doctest/doctest.h>

#include <array>
#include <cmath>
#include <map>
#include <regex>
#include <string>

#include "running.hpp"

using namespace whichwire::test;

namespace {

using Colours = std::map<std::string, std::string>;

/// The colours that each rule of the style sets: on light screens, on dark ones, on paper.
std::vector<Colours> themes_of(const std::string& file) {
  const std::string style = read_text(WHICHWIRE_SOURCE_DIR "/lib/render/" + file);
  const std::regex rule("\\{([^{}]*--paper:[^{}]*)\\}"), colour("--([a-z-]+): (#[0-9a-f]{6})");
  std::vector<Colours> themes;
  for (std::sregex_iterator one(style.begin(), style.end(), rule), none; one != none; ++one) {
    const std::string body = (*one)[1];
    Colours colours;
    for (std::sregex_iterator pair(body.begin(), body.end(), colour); pair != none; ++pair)
      colours[(*pair)[1]] = (*pair)[2];
    themes.push_back(colours);
  }
  return themes;
}

double luminance(const std::string& colour) {
  constexpr std::array share = {0.2126, 0.7152, 0.0722};
  double sum = 0;
  for (std::size_t i = 0; i < 3; ++i) {
    const double part = std::stoi(colour.substr(1 + 2 * i, 2), nullptr, 16) / 255.0;
    sum += share.at(i) * (part <= 0.04045 ? part / 12.92 : std::pow((part + 0.055) / 1.055, 2.4));
  }
  return sum;
}

double contrast(const std::string& a, const std::string& b) {
  const double x = luminance(a), y = luminance(b);
  return (std::max(x, y) + 0.05) / (std::min(x, y) + 0.05);
}

/// What the style of pictures says of a selector's fill, the last word counts.
std::string fill_of(const std::string& selector) {
  const std::string style = read_text(WHICHWIRE_SOURCE_DIR "/lib/render/picture.css");
  const std::regex rule("([^{}]+)\\{([^{}]*)\\}"), fill("fill: ([^;]+);"), comma("\\s*,\\s*");
  std::string found;
  for (std::sregex_iterator one(style.begin(), style.end(), rule), none; one != none; ++one) {
    const std::string selectors = (*one)[1], body = (*one)[2];
    for (std::sregex_token_iterator name(selectors.begin(), selectors.end(), comma, -1), end; name != end; ++name) {
      const std::string trimmed = std::regex_replace(name->str(), std::regex("^\\s+|\\s+$"), "");
      std::smatch said;
      if (trimmed == selector && std::regex_search(body, said, fill)) found = said[1];
    }
  }
  return found;
}

struct Pair {
  const char* front;
  const char* ground;
  double least;
};
constexpr double text = 4.5, sign = 3;
constexpr Pair in_both[] = {{"ink", "paper", text},     {"quiet", "paper", text}, {"on-probe", "probe", text},
                            {"suspect", "paper", text}, {"probe", "paper", text}, {"wire", "paper", sign},
                            {"paper", "ink", text}};

}  // namespace

TEST_CASE("the formula gives the published ends of its scale") {
  CHECK(contrast("#000000", "#ffffff") == doctest::Approx(21));
  CHECK(contrast("#777777", "#777777") == doctest::Approx(1));
}

TEST_CASE("what a picture or page writes and draws stands out on light screens, on dark ones and on paper") {
  for (const std::string file : {"picture.css", "page.css"}) {
    CAPTURE(file);
    const std::vector<Colours> themes = themes_of(file);
    REQUIRE(themes.size() == 3);
    for (const Colours& colours : themes) {
      CAPTURE(colours.at("paper"));
      for (const Pair& pair : in_both) {
        CAPTURE(std::string(pair.front) + " on " + pair.ground);
        CHECK(contrast(colours.at(pair.front), colours.at(pair.ground)) >= pair.least);
      }
      if (file == "page.css") {
        for (const std::string front : {"ink", "suspect", "probe", "quiet"})
          CHECK(contrast(colours.at(front), colours.at("shade")) >= text);
      } else {
        CHECK(contrast(colours.at("differs"), colours.at("paper")) >= sign);
      }
    }
  }
}

TEST_CASE("a silent module's words are the colour of paper, and each box that they may stand in is dark") {
  CHECK(fill_of(".picture .silent text") == "var(--paper)");
  for (const std::string box : {"outline", "torn-outline"}) {
    CAPTURE(box);
    CHECK(fill_of(".picture ." + box) == "var(--paper)");
    CHECK(fill_of(".picture .silent > ." + box) == "var(--ink)");
  }
}
