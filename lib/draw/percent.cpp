#include "draw/percent.hpp"

#include <cmath>

namespace whichwire::draw {

std::string percent(double probability) {
  if (probability > 0.99) return "over 99 %";
  if (probability < 0.01) return "under 1 %";
  return std::to_string(std::lround(probability * 100)) + " %";
}

std::string unbroken(std::string_view text) {
  std::string whole(text);
  for (std::size_t at = whole.find(" %"); at != std::string::npos; at = whole.find(" %", at + 1))
    if (at > 0 && whole[at - 1] >= '0' && whole[at - 1] <= '9') whole.replace(at, 1, no_break_space);
  return whole;
}

}  // namespace whichwire::draw
