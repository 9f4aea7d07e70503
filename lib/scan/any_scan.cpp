// JSON or pasted text, by how it begins. Tested in tests/scan/any_scan.cpp.
#include <whichwire/scan.hpp>

namespace whichwire {

namespace {

/// Behind white space, a byte order mark and comments.
std::string_view beginning(std::string_view text) {
  if (text.starts_with("\xEF\xBB\xBF")) text.remove_prefix(3);
  while (true) {
    const std::size_t from = text.find_first_not_of(" \t\r\n");
    text = from == std::string_view::npos ? std::string_view{} : text.substr(from);
    const std::string_view ends = text.starts_with("//") ? "\n" : text.starts_with("/*") ? "*/" : "";
    if (ends.empty()) return text;
    const std::size_t end = text.find(ends, 2);
    if (end == std::string_view::npos) return {};
    text = text.substr(end + ends.size());
  }
}

}  // namespace

ScanResult read_any_scan(std::string_view text, const std::string& name, const Network& network) {
  return beginning(text).starts_with('{') ? read_scan(text, name, &network) : read_pasted_scan(text, name, network);
}

}  // namespace whichwire
