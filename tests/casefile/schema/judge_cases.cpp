// Judges many entries for equal.py, one JSON text a line: `shape` says whether the text has the shape of an entry,
// which a JSON Schema can see too; `whole` whether the reader accepts it, behind a start where it is none itself.
#include <iostream>
#include <string>
#include <whichwire/casefile.hpp>

#include "casefile/entry_shape.hpp"

namespace {

bool has_shape(const std::string& text) {
  whichwire::json::Complaints complaints;
  whichwire::json::Complaints inside;
  const auto tree = whichwire::json::parse(text, 0, complaints);
  return tree && whichwire::check_entry_shape(*tree, complaints, inside) && complaints.empty() && inside.empty();
}

}  // namespace

int main(int, char** arguments) {
  std::ios::sync_with_stdio(false);
  const std::string start = arguments[1];
  for (std::string text; std::getline(std::cin, text);) {
    const bool starts = text.find("\"start\"") != std::string::npos && text.find("\"network\"") != std::string::npos;
    const whichwire::CaseResult whole = whichwire::read_case(starts ? text + "\n" : start + "\n" + text + "\n", "case");
    if (whole.job.has_value() != whole.mistakes.empty()) return 1;
    std::cout << (has_shape(text) ? "shape " : "- ") << (whole.job ? "whole" : "-") << "\n";
  }
  return 0;
}
