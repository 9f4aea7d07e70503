// Judges many networks for equal.py, one JSON text a line: `shape` says whether the text has the shape of a network,
// which a JSON Schema can see too; `whole` whether the reader accepts it, ids, wiring and all.
#include <iostream>
#include <string>
#include <whichwire/network.hpp>

#include "network/network_shape.hpp"

namespace {

bool has_shape(const std::string& text) {
  whichwire::json::Complaints complaints;
  const auto tree = whichwire::json::parse(text, 0, complaints);
  return tree && whichwire::check_network_shape(*tree, complaints) && complaints.empty();
}

}  // namespace

/// The argument is the name that the texts go by: bases are looked up beside it.
int main(int count, char** arguments) {
  if (count != 2) return 2;
  std::ios::sync_with_stdio(false);
  for (std::string text; std::getline(std::cin, text);) {
    const whichwire::NetworkResult whole = whichwire::read_network(text, arguments[1]);
    if (whole.network.has_value() != whole.mistakes.empty()) return 1;
    std::cout << (has_shape(text) ? "shape " : "- ") << (whole.network ? "whole" : "-") << "\n";
  }
  return 0;
}
