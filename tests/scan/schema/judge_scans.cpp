// Judges many scans for equal.py, one JSON text a line: `shape` says whether the text has the shape of a scan, which a
// JSON Schema can see too; `whole` whether the reader accepts it, codes, modules listed twice and all.
#include <iostream>
#include <string>
#include <whichwire/scan.hpp>

#include "scan/scan_shape.hpp"

namespace {

bool has_shape(const std::string& text) {
  whichwire::json::Complaints complaints;
  const auto tree = whichwire::json::parse(text, 0, complaints);
  if (tree) whichwire::check_scan_shape(*tree, complaints);
  return tree && complaints.empty();
}

}  // namespace

int main() {
  std::ios::sync_with_stdio(false);
  for (std::string text; std::getline(std::cin, text);) {
    const whichwire::ScanResult whole = whichwire::read_scan(text, "scan", nullptr);
    if (whole.scan.has_value() != whole.mistakes.empty()) return 1;
    std::cout << (has_shape(text) ? "shape " : "- ") << (whole.scan ? "whole" : "-") << "\n";
  }
  return 0;
}
