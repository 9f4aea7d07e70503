#include "table.hpp"

#include <cstdio>

namespace whichwire::bench {

namespace {

int missed = 0;
bool begun = false;

}  // namespace

void print(const Row& row) {
  if (!begun)
    std::printf("%-46s %11s %-5s %-18s %11s %9s  %s\n", "name", "value", "unit", "against", "its value", "ratio", "");
  begun = true;
  std::printf("%-46s %11.4g %-5s ", row.name.c_str(), row.value, row.unit.c_str());
  if (row.against.empty()) {
    std::printf("\n");
  } else {
    const double ratio = row.value / row.reference;
    const bool ok = ratio <= row.at_most;
    missed += ok ? 0 : 1;
    std::printf("%-18s %11.4g %9.4g  %s\n", row.against.c_str(), row.reference, ratio, ok ? "ok" : "misses");
  }
  std::fflush(stdout);
}

void print(const std::string& remark) {
  std::printf("    %s\n", remark.c_str());
  std::fflush(stdout);
}

int misses() { return missed; }

}  // namespace whichwire::bench
