// Every speed and size that the project promises, measured in one run. See README.md beside this.
#include <cstring>

#include "parts.hpp"
#include "table.hpp"

using namespace whichwire;

int main(int count, char** words) {
  const auto wanted = [&](const char* part) {
    for (int i = 1; i < count; ++i) {
      if (std::strcmp(words[i], part) == 0) return true;
    }
    return count == 1;
  };
  if (wanted("nets")) bench::measure_nets();
  if (wanted("vehicle")) bench::measure_large_vehicle();
  if (wanted("program")) bench::measure_program();
  if (wanted("drawing")) bench::measure_drawing();
  if (wanted("comparing")) bench::measure_comparing();
  if (wanted("fleet")) bench::measure_fleet();
  if (wanted("soak")) bench::measure_soak();
  return bench::misses() == 0 ? 0 : 1;
}
