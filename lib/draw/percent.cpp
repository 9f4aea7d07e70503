#include "draw/percent.hpp"

#include <cmath>

namespace whichwire::draw {

std::string percent(double probability) {
  if (probability > 0.99) return "over 99 %";
  if (probability < 0.01) return "under 1 %";
  return std::to_string(std::lround(probability * 100)) + " %";
}

}  // namespace whichwire::draw
