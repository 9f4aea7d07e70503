#include "scan/elements.hpp"

#include <algorithm>
#include <array>

#include "scan/code_tables.hpp"
#include "scan/hex.hpp"
#include "scan/read_code.hpp"

namespace whichwire {

namespace {

using Kind = LineElement::Kind;

bool matches(std::string_view text, std::string_view pattern) {
  if (text.size() != pattern.size()) return false;
  for (std::size_t i = 0; i < text.size(); ++i) {
    const bool figure = text[i] >= '0' && text[i] <= '9';
    if (pattern[i] == '0' ? !figure : text[i] != pattern[i]) return false;
  }
  return true;
}

bool is_stamp(std::string_view word) {
  constexpr std::array<std::string_view, 11> patterns{"0000-00-00", "00.00.0000", "00/00/0000", "0000/00/00",
                                                      "00.00.00",   "00-00-0000", "00:00",      "00:00:00",
                                                      "0:00",       "0.0.0000",   "00/00/00"};
  if (word.size() > 10 && matches(word.substr(0, 10), "0000-00-00") && word[10] == 't') return true;
  return std::ranges::any_of(patterns, [&](std::string_view pattern) { return matches(word, pattern); });
}

/// Names of months, English and German, whole or cut to three letters.
bool is_month(std::string_view word) {
  constexpr std::array<std::string_view, 17> months{
      "january", "february", "march",    "april",  "may",     "june",  "july",    "august",  "september",
      "october", "november", "december", "januar", "februar", "maerz", "oktober", "dezember"};
  return word.size() >= 3 && std::ranges::any_of(months, [&](std::string_view month) {
           return word == month || (word.size() == 3 && month.starts_with(word));
         });
}

/// Two hexadecimal digits, or -1.
int hex_byte(std::string_view word) {
  if (word.starts_with("0x")) word = word.substr(2);
  if (word.size() != 2 || hex_digit(word[0]) < 0 || hex_digit(word[1]) < 0) return -1;
  return hex_digit(word[0]) * 16 + hex_digit(word[1]);
}

class Finder {
 public:
  Finder(const TextLine& line, const Lexicon& lexicon) : line_(line), lexicon_(lexicon) {}

  std::vector<LineElement> find() {
    while (at_ < words().size()) {
      if (code() || count() || status() || volts() || stamp() || address() || denied() || named()) continue;
      LineElement& element = push(is_number(words()[at_].text) ? Kind::number : Kind::unknown, 1);
      element.text = words()[element.first].text;
    }
    return std::move(found_);
  }

 private:
  const std::vector<Word>& words() const { return line_.words; }
  const Word* word(std::size_t at) const { return at < words().size() ? &words()[at] : nullptr; }
  bool has_code() const {
    return std::ranges::any_of(found_, [](const LineElement& e) { return e.is(Kind::code) || e.is(Kind::own_code); });
  }

  LineElement& push(Kind kind, std::size_t length) {
    LineElement element;
    element.kind = kind;
    element.first = at_;
    element.last = at_ + length - 1;
    at_ += length;
    found_.push_back(std::move(element));
    return found_.back();
  }

  std::optional<CodeRead> code_at(std::size_t at) const {
    const std::string& text = words()[at].text;
    const bool may_be = (std::string_view("pcbu").find(text[0]) != std::string_view::npos && text.size() >= 5) ||
                        text.starts_with("spn") || text.starts_with("0x");
    return may_be ? read_code(std::string_view(line_.plain).substr(words()[at].plain)) : std::nullopt;
  }

  /// `U0100-87`, `SPN 639 FMI 9`, `U 0100`; two digits behind a blank are a failure type where there is one of that
  /// value.
  bool code() {
    auto read = code_at(at_);
    std::size_t length = 1;
    if (read) {
      const std::size_t end = words()[at_].plain + read->length;
      while (at_ + length < words().size() && words()[at_ + length].plain < end) ++length;
    } else if (words()[at_].text == "u" && word(at_ + 1) != nullptr && words()[at_ + 1].gap == " ") {
      const auto code = parse_code("u" + words()[at_ + 1].text);
      if (!code) return false;
      read = CodeRead{*code, 0};
      length = 2;
    } else {
      return false;
    }
    if (read->code.letter != 'S' && !read->code.detail) length += spaced_type(at_ + length, read->code);
    push(Kind::code, length).code = read->code;
    return true;
  }

  std::size_t spaced_type(std::size_t at, Code& code) const {
    const Word* next = word(at);
    if (next == nullptr || (next->gap != " " && next->gap != "/")) return 0;
    const int byte = hex_byte(next->text);
    const Word* after = word(at + 1);
    const bool ends = after == nullptr || after->ends_cell_before() || hex_byte(after->text) >= 0 ||
                      after->gap.find_first_not_of(' ') != std::string::npos ||
                      lexicon_.longest(line_, at + 1).letters > 0;
    if (byte < 0 || !ends || !known_failure_type(static_cast<std::uint8_t>(byte))) return 0;
    code.detail = static_cast<std::uint8_t>(byte);
    return 1;
  }

  /// `[2F]` or `(2F)` right behind a code, `status 2F`, or two more digits behind a code with its failure type.
  bool status() {
    if (found_.empty()) return false;
    const LineElement& before = found_.back();
    const Word& here = words()[at_];
    const int byte = hex_byte(here.text);
    if (byte < 0) return false;
    const bool after_code = before.is(Kind::code) && before.code.letter != 'S';
    const char next_mark = at_ + 1 < words().size() ? (words()[at_ + 1].gap + " ")[0] : (line_.tail + " ")[0];
    const bool bracketed = (here.after('[') && next_mark == ']') || (here.after('(') && next_mark == ')');
    const bool behind_type =
        before.is(Kind::code) && before.code.detail && (here.gap == " " || here.gap == "-" || here.gap == ":");
    const bool named = before.says(Sense::status_byte) && here.gap.find('\t') == std::string::npos;
    if (!(after_code && (bracketed || behind_type)) && !named) return false;
    if (named) found_.pop_back();
    push(Kind::status, 1).value = byte;
    return true;
  }

  std::optional<std::uint32_t> small_number(std::size_t at) const {
    const Word* here = word(at);
    return here != nullptr && here->text.size() <= 3 ? parse_decimal(here->text) : std::nullopt;
  }

  /// `codes` at this word; or `stored`, `stored codes`: how many words it takes, 0 for none of them.
  std::size_t noun_of_codes(std::size_t at) const {
    if (at >= words().size() || words()[at].ends_cell_before()) return 0;
    const Lexicon::Found noun = lexicon_.longest(line_, at);
    if (noun.letters == 0) return 0;
    const std::size_t length = noun.element.last + 1 - at;
    if (noun.element.says(Sense::codes)) return length;
    const bool state =
        noun.element.says(Sense::history) || noun.element.says(Sense::current) || noun.element.says(Sense::pending);
    const bool code_follows = at + length < words().size() && code_at(at + length);
    return state && !code_follows ? length + noun_of_codes(at + length) : 0;
  }

  /// `3 codes`, `2 stored`, `Faults: 0`, `Codes: none`.
  bool count() {
    const auto number = small_number(at_);
    if (const std::size_t length = number ? noun_of_codes(at_ + 1) : 0; length > 0) {
      push(Kind::count, length + 1).value = *number;
      return true;
    }
    if (found_.empty() || !found_.back().says(Sense::codes) || has_code() || words()[at_].ends_cell_before())
      return false;
    const std::string& text = words()[at_].text;
    const bool none = text == "none" || text == "keine" || text == "nil";
    if (!none && (!number || (at_ + 1 < words().size() && code_at(at_ + 1)))) return false;
    const std::size_t first = found_.back().first;
    found_.pop_back();
    LineElement& element = push(Kind::count, 1);
    element.first = first;
    element.value = none ? 0 : *number;
    return true;
  }

  /// `12,4 V`, `12V`, `12.4 volts`.
  bool volts() {
    std::string_view text = words()[at_].text;
    const Word* next = word(at_ + 1);
    std::size_t length = 1;
    if (next != nullptr && (next->text == "v" || next->text == "volt" || next->text == "volts") &&
        (next->tight() || next->gap == " ")) {
      length = 2;
    } else if (text.ends_with('v')) {
      text.remove_suffix(1);
    } else {
      return false;
    }
    const auto value = decimal(text);
    if (!value || *value > 60) return false;
    push(Kind::volts, length).value = *value;
    return true;
  }

  /// `2026-03-02`, `09:14`, `3 March 2026`.
  bool stamp() {
    const bool in_words = at_ + 2 < words().size() && small_number(at_) && is_month(words()[at_ + 1].text) &&
                          words()[at_ + 2].text.size() == 4 && parse_decimal(words()[at_ + 2].text);
    if (!in_words && !is_stamp(words()[at_].text)) return false;
    push(Kind::stamp, in_words ? 3 : 1);
    return true;
  }

  /// `address 11`, `SA 0x0B`: the module at that address.
  bool address() {
    if (found_.empty() || !found_.back().says(Sense::address)) return false;
    const std::string& text = words()[at_].text;
    const auto value = text.starts_with("0x") ? parse_hex(std::string_view(text).substr(2)) : parse_decimal(text);
    if (!value || *value > 255) return false;
    const std::size_t first = found_.back().first;
    found_.pop_back();
    LineElement& element = push(Kind::module, 1);
    element.first = first;
    element.address = static_cast<int>(*value);
    const auto& modules = lexicon_.network().modules;
    for (std::size_t i = 0; i < modules.size(); ++i)
      if (modules[i].address == element.address) element.hits.push_back({i, NameKind::id});
    return true;
  }

  /// `the radio won't play`, unless a longer name or phrase begins here.
  bool denied() {
    const FunctionIndex::Denied found = lexicon_.functions().denied(words(), at_);
    if (found.words == 0) return false;
    if (const Lexicon::Found other = lexicon_.longest(line_, at_);
        other.letters > 0 && other.element.last + 1 - at_ >= found.words)
      return false;
    LineElement& element = push(Kind::function, found.words);
    element.index = found.function;
    element.denied = true;
    return true;
  }

  bool named() {
    const Lexicon::Found found = lexicon_.longest(line_, at_);
    if (found.letters == 0) return false;
    at_ = found.element.last + 1;
    found_.push_back(found.element);
    return true;
  }

  const TextLine& line_;
  const Lexicon& lexicon_;
  std::vector<LineElement> found_;
  std::size_t at_ = 0;
};

}  // namespace

std::optional<double> decimal(std::string_view word) {
  const std::size_t point = word.find_first_of(".,");
  const auto whole = parse_decimal(word.substr(0, point));
  if (!whole) return std::nullopt;
  if (point == std::string_view::npos) return *whole;
  const std::string_view digits = word.substr(point + 1);
  const auto part = parse_decimal(digits);
  if (!part) return std::nullopt;
  double scale = 1;
  for (std::size_t i = 0; i < digits.size(); ++i) scale *= 10;
  return *whole + *part / scale;
}

std::vector<LineElement> elements_of(const TextLine& line, const Lexicon& lexicon) {
  return Finder(line, lexicon).find();
}

}  // namespace whichwire
