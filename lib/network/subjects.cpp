// The roles and buses that trouble codes can be about, so that a mistyped one in a network file is noticed.
// The lists are those of the code tables of lib/scan, which stands below this folder; tests/network/subjects_test.cpp
// holds them equal.
#include "network/draft.hpp"

namespace whichwire {

namespace data {
extern const std::string_view role_names;
extern const std::string_view bus_subject_names;
}  // namespace data

namespace {

/// The lines of a sorted list.
std::vector<std::string> lines_of_text(std::string_view text) {
  std::vector<std::string> lines;
  while (!text.empty()) {
    const std::size_t end = text.find('\n');
    if (end != 0) lines.emplace_back(text.substr(0, end));
    text = end == std::string_view::npos ? std::string_view() : text.substr(end + 1);
  }
  return lines;
}

}  // namespace

const std::vector<std::string>& role_names() {
  static const std::vector<std::string> names = lines_of_text(data::role_names);
  return names;
}

const std::vector<std::string>& bus_subject_names() {
  static const std::vector<std::string> names = lines_of_text(data::bus_subject_names);
  return names;
}

}  // namespace whichwire
