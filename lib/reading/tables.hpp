// The tables of the readings: how far a meter is trusted, and the words. Tests: tests/reading/read_reading.cpp.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace whichwire {

struct ReadingWord {
  std::string word, sort;
  double value = 0;
};

const std::vector<ReadingWord>& reading_words();

/// std::logic_error when the table of the meter has no such row.
double meter_value(std::string_view what);

}  // namespace whichwire
