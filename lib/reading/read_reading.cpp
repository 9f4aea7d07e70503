// Reads what a person types for a reading: a number with its unit, or words. The text is cut into numbers and words;
// each word has a sort by the table; the sorts together must make one reading and nothing may be left over. A number
// has one decimal point or comma; with both, or with two, it is refused rather than guessed. Tests:
// tests/reading/read_reading.cpp.
#include <algorithm>
#include <charconv>
#include <cmath>
#include <limits>
#include <whichwire/reading.hpp>

#include "reading/tables.hpp"

namespace whichwire {
namespace {

using Kind = Reading::Kind;
constexpr std::size_t longest = 200;

bool digit(char c) { return c >= '0' && c <= '9'; }
bool blank(char c) { return c == ' ' || c == '\t' || c == '\r' || c == '\n'; }

/// Lower case of the letters A to Z; the ohm sign U+2126 becomes the Greek letter; a minus sign U+2212 a hyphen.
std::string folded(std::string_view text) {
  std::string all;
  for (std::size_t i = 0; i < text.size(); ++i) {
    const std::string_view rest = text.substr(i);
    if (rest.starts_with("\xE2\x84\xA6")) {
      all += "\xCE\xA9";
      i += 2;
    } else if (rest.starts_with("\xE2\x88\x92")) {
      all += '-';
      i += 2;
    } else if (rest.starts_with("\xC2\xA0")) {
      all += ' ';
      i += 1;
    } else {
      all += text[i] >= 'A' && text[i] <= 'Z' ? static_cast<char>(text[i] - 'A' + 'a') : text[i];
    }
  }
  return all;
}

const ReadingWord* word_named(std::string_view word) {
  const auto& words = reading_words();
  const auto found = std::find_if(words.begin(), words.end(), [&](const ReadingWord& w) { return w.word == word; });
  return found == words.end() ? nullptr : &*found;
}

/// What was found in the text.
struct Parts {
  std::optional<double> number;
  bool several_numbers = false;
  std::vector<const ReadingWord*> words;
  std::string unknown, bad_number;

  const ReadingWord* of(std::string_view sort) const {
    const auto found = std::find_if(words.begin(), words.end(), [&](const ReadingWord* w) { return w->sort == sort; });
    return found == words.end() ? nullptr : *found;
  }
};

/// Takes a number off the front; `4k7` and `59r8` have their unit for a decimal point.
bool take_number(std::string_view& rest, Parts& parts) {
  std::size_t at = rest.starts_with('-') || rest.starts_with('+') ? 1 : 0;
  if (at >= rest.size() ||
      !(digit(rest[at]) || ((rest[at] == '.' || rest[at] == ',') && at + 1 < rest.size() && digit(rest[at + 1])))) {
    return false;
  }
  std::string plain = rest.front() == '-' ? "-" : "";
  std::size_t marks = 0;
  double factor = 1;
  const char* unit = nullptr;
  for (; at < rest.size(); ++at) {
    const char c = rest[at];
    const bool infix = (c == 'k' || c == 'r') && at + 1 < rest.size() && digit(rest[at + 1]);
    if (digit(c)) {
      plain += c;
    } else if ((c == '.' || c == ',') && at + 1 < rest.size() && digit(rest[at + 1])) {
      plain += '.';
      ++marks;
    } else if (infix && unit == nullptr) {
      plain += '.';
      ++marks;
      unit = c == 'k' ? "k" : "r";
      factor = c == 'k' ? 1000 : 1;
    } else {
      break;
    }
  }
  double value = 0;
  const auto [stop, error] = std::from_chars(plain.data(), plain.data() + plain.size(), value);
  if (marks > 1 || error != std::errc() || stop != plain.data() + plain.size()) parts.bad_number = rest.substr(0, at);
  parts.several_numbers |= parts.number.has_value();
  parts.number = value * factor;
  if (unit != nullptr) parts.words.push_back(word_named("r"));
  rest.remove_prefix(at);
  return true;
}

Parts parts_of(std::string_view rest) {
  Parts parts;
  while (!rest.empty()) {
    if (blank(rest.front()) || rest.front() == ':' || rest.front() == '=') {
      rest.remove_prefix(1);
      continue;
    }
    const auto end = static_cast<std::size_t>(std::find_if(rest.begin(), rest.end(), blank) - rest.begin());
    std::string_view word = rest.substr(0, end);
    while (word.size() > 1 && (word.back() == '.' || word.back() == ',' || word.back() == '!')) word.remove_suffix(1);
    if (const ReadingWord* known = word_named(word)) {
      parts.words.push_back(known);
      rest.remove_prefix(end);
      continue;
    }
    if (take_number(rest, parts)) continue;
    if (parts.unknown.empty()) parts.unknown = word;
    rest.remove_prefix(end);
  }
  return parts;
}

constexpr const char* forms =
    "type a value with its unit or what you saw, as 59.8 ohm, 1.2 kohm, OL, 12.3 V, 0.31 V drop, lamp dim, "
    "seen corrosion, wiggle changed it";

ReadingResult refused(const std::string& why) { return {std::nullopt, why + "; " + forms}; }

ReadingResult unknown_word(const std::string& word) {
  std::vector<std::string> known;
  for (const ReadingWord& each : reading_words()) {
    if (each.sort != "fill") known.push_back(each.word);
  }
  const std::string near = nearest(word, known);
  return refused("'" + printable(word) + "' is not understood" +
                 (near.empty() ? "" : ", did you mean '" + near + "'?"));
}

ReadingResult number_reading(const Parts& parts, Reading made) {
  const std::vector<std::pair<std::string_view, Kind>> units{
      {"ohms", Kind::ohms}, {"volts", Kind::volts}, {"volts-ac", Kind::volts_ac}, {"amps", Kind::amps}};
  double factor = 1;
  int found = 0;
  for (const auto& [sort, kind] : units) {
    const ReadingWord* unit = parts.of(sort);
    if (unit == nullptr) continue;
    ++found;
    made.kind = kind;
    factor = unit->value;
  }
  if (found > 1) return refused("there are two units");
  made.value = *parts.number * factor;
  if (parts.of("drop") != nullptr) {
    if (made.kind != Kind::number && made.kind != Kind::volts) return refused("a drop is in volts");
    made.kind = Kind::drop;
  }
  if (parts.of("ac") != nullptr) {
    if (made.kind != Kind::number && made.kind != Kind::volts) return refused("a ripple is in volts");
    made.kind = Kind::volts_ac;
  }
  if (made.kind == Kind::ohms && made.value < 0) {
    return refused("ohms below 0 show that there is voltage on the wire: disconnect the battery and read again");
  }
  return {made, ""};
}

ReadingResult word_reading(const Parts& parts, Reading made) {
  const bool no = parts.of("not") != nullptr;
  if (parts.of("wiggle") != nullptr || parts.of("changed") != nullptr) {
    const ReadingWord* changed = parts.of("changed");
    const ReadingWord* const seen = parts.of("seen");
    const bool nothing = no || (seen != nullptr && static_cast<Reading::Seen>(seen->value) == Reading::Seen::nothing);
    if (changed == nullptr && !nothing) return refused("did it change while it was moved?");
    made.kind = Kind::wiggle;
    made.yes = changed != nullptr && (changed->value > 0) != nothing;
    return {made, ""};
  }
  if (const ReadingWord* lamp = parts.of("lamp")) {
    made.kind = Kind::lamp;
    made.lamp = no ? Reading::Lamp::dark : static_cast<Reading::Lamp>(static_cast<int>(lamp->value));
    if (no && made.lamp == Reading::Lamp::dark && lamp->value < 2) return refused("was the lamp bright, dim or dark?");
    return {made, ""};
  }
  if (parts.of("lamp-word") != nullptr) return refused("was the lamp bright, dim or dark?");
  if (parts.of("light") != nullptr) {
    made.kind = Kind::light;
    made.yes = !no;
    return {made, ""};
  }
  if (const ReadingWord* seen = parts.of("seen")) {
    made.kind = Kind::seen;
    made.seen = no ? Reading::Seen::nothing : static_cast<Reading::Seen>(static_cast<int>(seen->value));
    return {made, ""};
  }
  if (parts.of("seen-word") != nullptr) return refused("what was seen?");
  return refused("this is no reading");
}

}  // namespace

ReadingResult read_reading(std::string_view text) {
  if (text.size() > longest) return refused("a reading has at most " + std::to_string(longest) + " characters");
  const Parts parts = parts_of(folded(text));
  if (!parts.bad_number.empty()) {
    return refused("'" + printable(parts.bad_number) + "' is not one number: use one decimal point or comma");
  }
  if (!parts.unknown.empty()) return unknown_word(parts.unknown);
  if (parts.several_numbers) return refused("there are two numbers");
  Reading made;
  made.text = printable(text);
  if (parts.number) return number_reading(parts, made);
  if (parts.of("ol") != nullptr && parts.of("wiggle") == nullptr) {
    made.kind = Kind::ohms;
    made.value = std::numeric_limits<double>::infinity();
    return {made, ""};
  }
  return word_reading(parts, made);
}

}  // namespace whichwire
