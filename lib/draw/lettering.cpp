#include "draw/lettering.hpp"

#include <array>

#include "draw/percent.hpp"
#include "network/utf8.hpp"

namespace whichwire::draw {

namespace {

// Advances of the characters U+0020 to U+007E, in thousandths of the size.
using Advances = std::array<std::uint16_t, 95>;
constexpr Advances regular = {318,  401, 460, 838, 636, 950, 780, 275, 390, 390, 500, 838, 318, 361, 318, 337,
                              636,  636, 636, 636, 636, 636, 636, 636, 636, 636, 337, 337, 838, 838, 838, 531,
                              1000, 684, 686, 698, 770, 632, 575, 775, 752, 295, 295, 656, 557, 863, 748, 787,
                              603,  787, 695, 635, 611, 732, 684, 989, 685, 611, 685, 390, 337, 390, 838, 500,
                              500,  613, 635, 550, 635, 615, 352, 635, 634, 278, 278, 579, 278, 974, 634, 612,
                              635,  635, 411, 521, 392, 634, 592, 818, 592, 592, 525, 636, 337, 636, 838};
constexpr Advances bold = {348,  456, 521, 838, 696, 1002, 872, 306,  457, 457, 523, 838, 380, 415,  380, 365,
                           696,  696, 696, 696, 696, 696,  696, 696,  696, 696, 400, 400, 838, 838,  838, 580,
                           1000, 774, 762, 734, 830, 683,  683, 821,  837, 372, 372, 775, 637, 995,  837, 850,
                           733,  850, 770, 720, 682, 812,  774, 1103, 771, 724, 725, 457, 365, 457,  838, 500,
                           500,  675, 716, 593, 716, 678,  435, 716,  712, 343, 343, 665, 343, 1042, 712, 687,
                           716,  716, 493, 595, 478, 712,  652, 924,  645, 652, 582, 712, 365, 712,  838};
constexpr double other_letter = 0.95;  // wider than all of Latin, Greek and Cyrillic but a few capitals
constexpr double wide_letter = 1.1;    // of those that take two columns
constexpr std::string_view ellipsis = "\u2026";

bool is_bold(Lettering lettering) {
  return lettering != Lettering::name && lettering != Lettering::note && lettering != Lettering::mark &&
         lettering != Lettering::subtitle;
}

double width_of(char32_t code, Lettering lettering) {
  if (code == 0xa0) code = ' ';  // as wide
  if (code >= 0x20 && code < 0x7f) return (is_bold(lettering) ? bold : regular)[code - 0x20] / 1000.0;
  const int columns = utf8::columns_of(code);
  return columns == 0 ? 0 : columns == 1 ? other_letter : wide_letter;
}

}  // namespace

double size_of(Lettering lettering) {
  switch (lettering) {
    case Lettering::title:
      return 20;
    case Lettering::subtitle:
    case Lettering::bus:
    case Lettering::id:
      return 13;
    case Lettering::name:
    case Lettering::note:
    case Lettering::mark:
    case Lettering::tag:
    case Lettering::number:
      return 10;
  }
  return 10;
}

double line_height(Lettering lettering) { return size_of(lettering) * 1.3; }

double width_of(std::string_view text, Lettering lettering) {
  double width = 0;
  for (std::size_t i = 0; i < text.size();) {
    const utf8::Character character = utf8::at(text, i);
    width += width_of(character.code, lettering);
    i += character.length;
  }
  return width * size_of(lettering);
}

std::string fitted(std::string_view text, Lettering lettering, double width) {
  std::string whole = printable(text);
  if (width_of(whole, lettering) <= width) return whole;
  double room = width - width_of(ellipsis, lettering);
  std::size_t end = 0;
  while (end < whole.size()) {
    const utf8::Character character = utf8::at(whole, end);
    room -= width_of(character.code, lettering) * size_of(lettering);
    if (room < 0) break;
    end += character.length;
  }
  return whole.substr(0, end).append(ellipsis);
}

std::vector<std::string> lines_of(std::string_view text, Lettering lettering, double width, std::size_t most) {
  std::vector<std::string> lines;
  const std::string whole = unbroken(printable(text));
  std::size_t at = 0;
  while (at < whole.size() && lines.size() + 1 < most) {
    std::size_t end = std::string::npos;
    for (std::size_t blank = whole.find(' ', at);; blank = whole.find(' ', blank + 1)) {
      const std::size_t stop = std::min(blank, whole.size());
      if (end != std::string::npos && width_of(whole.substr(at, stop - at), lettering) > width) break;
      end = stop;
      if (stop == whole.size()) break;
    }
    lines.push_back(fitted(whole.substr(at, end - at), lettering, width));
    at = end + 1;
  }
  if (at < whole.size()) lines.push_back(fitted(whole.substr(at), lettering, width));
  return lines;
}

}  // namespace whichwire::draw
