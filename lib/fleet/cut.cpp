#include "fleet/cut.hpp"

#include <algorithm>

namespace whichwire {
namespace {

constexpr std::size_t longest_name = 200;  // characters, as the scan's shape has it
constexpr char text_mark = '\x01', volts_mark = '\x02';

bool blank(char c) { return c == ' ' || c == '\t' || c == '\r' || c == '\n'; }
bool digit(char c) { return c >= '0' && c <= '9'; }

/// Printable ASCII without quotes and escapes, not only blanks: valid whatever it is.
bool plain(std::string_view text) {
  const auto harmless = [](char c) { return c >= ' ' && c <= '~' && c != '"' && c != '\\'; };
  return text.size() <= longest_name && std::ranges::all_of(text, harmless) &&
         std::ranges::any_of(text, [](char c) { return c != ' '; });
}

/// How much of a plain decimal number below 60 goes up to its tenths; 0: it is none.
std::size_t up_to_tenths(std::string_view number) {
  const std::size_t point = number.find('.');
  const std::string_view whole = number.substr(0, point);
  const bool whole_fine = (whole.size() == 1 && digit(whole[0])) ||
                          (whole.size() == 2 && whole[0] >= '1' && whole[0] <= '5' && digit(whole[1]));
  if (!whole_fine) return 0;
  if (point == std::string_view::npos) return number.size();
  const std::string_view digits = number.substr(point + 1);
  if (digits.empty() || digits.size() > 12 || !std::ranges::all_of(digits, digit)) return 0;
  return point + 2;
}

class Cutter {
 public:
  explicit Cutter(std::string_view text) : text_(text) { made_.rest.reserve(text.size()); }

  std::optional<CutText> cut() {
    skip_blanks();
    if (!at('{')) return std::nullopt;
    do {
      ++place_;
      if (!member()) return std::nullopt;
    } while (at(','));
    if (!at('}')) return std::nullopt;
    made_.rest.append(text_.substr(kept_));
    return std::move(made_);
  }

 private:
  bool at(char c) const { return place_ < text_.size() && text_[place_] == c; }

  void skip_blanks() {
    while (place_ < text_.size() && blank(text_[place_])) ++place_;
  }

  /// Behind the quote that ends the text which begins here.
  bool skip_text() {
    for (++place_; place_ < text_.size(); ++place_) {
      if (text_[place_] == '\\') {
        ++place_;
      } else if (text_[place_] == '"') {
        ++place_;
        return true;
      } else if (static_cast<unsigned char>(text_[place_]) < ' ') {
        return false;  // among them the marks
      }
    }
    return false;
  }

  /// Behind a value: at the comma or bracket that follows it. A slash may begin a comment.
  bool skip_value() {
    for (std::size_t depth = 0; place_ < text_.size();) {
      const char c = text_[place_];
      if (c == '"') {
        if (!skip_text()) return false;
        continue;
      }
      const bool closes = c == '}' || c == ']';
      if (depth == 0 && (c == ',' || closes)) return true;
      if (c == '/' || (static_cast<unsigned char>(c) < ' ' && !blank(c))) return false;
      if (c == '{' || c == '[') ++depth;
      if (closes) --depth;
      ++place_;
    }
    return false;
  }

  void replace(std::size_t from, std::size_t to, char mark) {
    made_.rest.append(text_.substr(kept_, from - kept_)).push_back(mark);
    kept_ = to;
  }

  bool member() {
    skip_blanks();
    if (!at('"')) return false;
    const std::size_t key_at = place_ + 1;
    if (!skip_text()) return false;
    const std::string_view key = text_.substr(key_at, place_ - 1 - key_at);
    skip_blanks();
    if (!at(':')) return false;
    ++place_;
    skip_blanks();
    const std::size_t from = place_;
    if (!skip_value()) return false;
    std::string_view value = text_.substr(from, place_ - from);
    while (!value.empty() && blank(value.back())) value.remove_suffix(1);
    if (key == "unit" || key == "taken" || key == "scan") return cut_text(key, value, from);
    return key != "battery_volts" || cut_volts(value, from);
  }

  bool cut_text(std::string_view key, std::string_view value, std::size_t from) {
    if (value.size() < 3 || value.front() != '"' || value.back() != '"') return false;
    const std::string_view inside = value.substr(1, value.size() - 2);
    if (!plain(inside)) return false;
    if (key == "unit") made_.unit = inside;
    if (key == "scan") made_.scan = inside;
    replace(from, from + value.size(), text_mark);
    return true;
  }

  bool cut_volts(std::string_view value, std::size_t from) {
    const std::size_t kept = up_to_tenths(value);
    if (kept == 0) return false;
    if (kept < value.size()) replace(from + kept, from + value.size(), volts_mark);
    return true;
  }

  std::string_view text_;
  std::size_t place_ = 0, kept_ = 0;  ///< what is before `kept_` went to the rest, or was cut
  CutText made_;
};

}  // namespace

std::optional<CutText> cut(std::string_view text) { return Cutter(text).cut(); }

}  // namespace whichwire
