// The benchmark's table: a row a figure, beside it what it is held against.
#pragma once

#include <string>

namespace whichwire::bench {

struct Row {
  std::string name, unit;
  double value = 0;
  std::string against;   ///< a limit, or the peer's name; empty: no limit
  double reference = 0;  ///< the limit, or the peer's value
  double at_most = 1;    ///< the ratio value / reference that is still ok
};

/// Prints the heading once, then the row; remembers misses.
void print(const Row& row);

/// A remark below a row.
void print(const std::string& remark);

/// How many rows have missed.
int misses();

}  // namespace whichwire::bench
