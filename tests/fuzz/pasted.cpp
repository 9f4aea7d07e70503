// No line is dropped: every line is there, understood or shown as not placed. What was taken from a text can be written
// as JSON and read again, and says the same.
#include <algorithm>
#include <whichwire/scan.hpp>

#include "fuzz.hpp"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  using namespace whichwire;
  const std::string_view text = fuzz::text_of_bytes(data, size);
  for (const Network* network : {&fuzz::compact_car(), &fuzz::van()}) {
    const ScanResult result = read_pasted_scan(text, "fuzz.txt", *network);
    fuzz::insist_on(result.scan.has_value(), result.mistakes);
    for (std::size_t i = 0; i < result.lines.size(); ++i) {
      fuzz::insist(result.lines[i].line == i + 1);
      fuzz::insist_printable(result.lines[i].text);
      fuzz::insist_printable(result.lines[i].understood);
    }
    const bool utf16 = text.starts_with("\xFF\xFE") || text.starts_with("\xFE\xFF");
    const auto feeds = std::count(text.begin(), text.end(), '\n');
    fuzz::insist(utf16 || result.lines.size() >= static_cast<std::size_t>(feeds));
    if (!result.scan) continue;
    const ScanResult again = read_scan(json_of(*result.scan), "fuzz.txt", network);
    fuzz::insist(again.scan.has_value());
    fuzz::insist(*again.scan == *result.scan);
  }
  return 0;
}
