// Reads a pasted all-module summary of any layout. The text is cut into lines and each line into what it says
// (elements, parts, meaning); a `Paste` keeps in mind what goes on from line to line. Tested by every layout of
// tests/scan/layouts, in tests/scan/pasted_scan.cpp and tests/fuzz.
#include <algorithm>
#include <whichwire/scan.hpp>

#include "scan/decode.hpp"
#include "scan/part_names.hpp"
#include "scan/paste.hpp"

namespace whichwire {

namespace {

constexpr std::size_t most_bytes = std::size_t{1} << 20U;
constexpr std::size_t most_line_bytes = 2000;  // a longer line is no line of a summary; it is listed as not placed

std::vector<SourceLine> lines_of(std::string_view text, const Lexicon& lexicon) {
  std::vector<SourceLine> lines;
  while (!text.empty()) {
    const std::size_t end = text.find_first_of("\r\n");
    const std::string_view raw = text.substr(0, end);
    const bool pair = end != std::string_view::npos && text.substr(end, 2) == "\r\n";
    text = end == std::string_view::npos ? std::string_view{} : text.substr(end + (pair ? 2 : 1));
    SourceLine line;
    line.too_long = raw.size() > most_line_bytes;
    line.text = text_line(line.too_long ? std::string_view{} : raw);
    line.text.raw = raw;
    line.elements = elements_of(line.text, lexicon);
    lines.push_back(std::move(line));
  }
  return lines;
}

/// A module that answers to its id in one line is not also `SAS` in another only because a module of that name would
/// have one of its roles: that is a module which this network does not have.
void mark_rivals(std::vector<SourceLine>& lines, const Network& network) {
  constexpr std::size_t longest_short_name = 5;
  std::vector<bool> by_id(network.modules.size(), false);
  const auto each = [&](const auto& act) {
    for (SourceLine& line : lines)
      for (LineElement& element : line.elements)
        if (element.is(LineElement::Kind::module) && element.hits.size() == 1) act(line, element, element.hits[0]);
  };
  each([&](const SourceLine&, const LineElement& element, const NameHit& hit) {
    if (hit.kind == NameKind::id && !element.address) by_id[hit.module] = true;
  });
  each([&](const SourceLine& line, LineElement& element, const NameHit& hit) {
    const Word& word = line.text.words[element.first];
    const bool short_name =
        element.first == element.last && word.capitals && word.text.size() <= longest_short_name && !element.address;
    element.rival = hit.kind == NameKind::role && short_name && by_id[hit.module];
  });
}

bool listed(const Scan& scan, const std::string& id) {
  return std::ranges::find(scan.modules, id, &ModuleSeen::module) != scan.modules.end();
}

/// One whose id stands there only in passing, and of which nothing was read, is no rival. Whether there were such.
bool unmark_rivals(std::vector<SourceLine>& lines, const Network& network, const Scan& read) {
  bool any = false;
  for (SourceLine& line : lines) {
    for (LineElement& element : line.elements) {
      if (!element.rival || listed(read, network.modules[element.hits[0].module].id)) continue;
      element.rival = false;
      any = true;
    }
  }
  return any;
}

/// In the order in which the codes stand.
void read_lines(std::optional<Paste>& paste, const std::vector<SourceLine>& lines, const Network& network) {
  paste.emplace(lines, network, false);
  paste->read();
  if (paste->orphans() == 0 || paste->names_lead()) return;
  Paste other(lines, network, true);
  other.read();
  if (other.orphans() == 0) paste.emplace(std::move(other));
}

Mistake whole(const std::string& name, std::string message) {
  Mistake mistake;
  mistake.file = name;
  mistake.message = std::move(message);
  return mistake;
}

}  // namespace

ScanResult read_pasted_scan(std::string_view text, const std::string& name, const Network& network) {
  ScanResult result;
  if (text.size() > most_bytes) {
    result.mistakes.push_back(whole(name, "this text has " + std::to_string(text.size()) + " bytes; at most " +
                                              std::to_string(most_bytes) + " are read"));
    return result;
  }
  const std::string readable = decoded(text);
  const Lexicon lexicon(network);
  std::vector<SourceLine> lines = lines_of(readable, lexicon);
  mark_part_names(lines, network);
  mark_rivals(lines, network);
  std::optional<Paste> paste;
  read_lines(paste, lines, network);
  if (unmark_rivals(lines, network, paste->scan())) read_lines(paste, lines, network);
  result.lines = std::move(paste->lines());
  if (paste->found_nothing()) {
    result.mistakes.push_back(whole(name, "no line of this text says anything about a module of the network"));
    return result;
  }
  result.scan = std::move(paste->scan());
  result.scan->name = name;
  return result;
}

}  // namespace whichwire
