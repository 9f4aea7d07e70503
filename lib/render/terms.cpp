// See terms.hpp. Tests: tests/cli/guide.cpp.
#include "render/terms.hpp"

#include <algorithm>
#include <stdexcept>

#include "faults/csv.hpp"

namespace whichwire {

namespace data {
extern const std::string_view terms_csv;
}

namespace render {

namespace {

std::vector<std::string> parted(const std::string& text) {
  std::vector<std::string> all;
  for (std::size_t begin = 0, end = 0; begin <= text.size(); begin = end + 1) {
    end = std::min(text.find('|', begin), text.size());
    all.push_back(text.substr(begin, end - begin));
  }
  return all;
}

std::vector<Term> read_terms() {
  const CsvSheet sheet = read_csv(data::terms_csv, "terms.csv");
  if (!sheet.mistakes.empty()) throw std::logic_error(text_of(sheet.mistakes.front()));
  std::vector<Term> all;
  for (std::size_t i = 1; i < sheet.rows.size(); ++i)
    all.push_back({parted(sheet.rows[i].at(0).text), sheet.rows[i].at(1).text});
  return all;
}

bool is_letter(char c) { return (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9'); }

/// As a word of its own, one or many: `fuse`, `fuses`.
bool uses(const std::string& text, const std::string& word) {
  for (std::size_t at = text.find(word); at != std::string::npos; at = text.find(word, at + 1)) {
    std::size_t end = at + word.size();
    if (end < text.size() && text[end] == 's') ++end;
    if ((at == 0 || !is_letter(text[at - 1])) && (end == text.size() || !is_letter(text[end]))) return true;
  }
  return false;
}

std::string lowered(std::string_view text) {
  std::string all(text);
  std::ranges::transform(all, all.begin(), [](char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c + 32) : c; });
  return all;
}

}  // namespace

std::vector<Term> terms_in(std::string_view text) {
  static const std::vector<Term> terms = read_terms();
  const std::string low = lowered(text);
  std::vector<Term> all;
  std::ranges::copy_if(terms, std::back_inserter(all), [&](const Term& term) {
    return std::ranges::any_of(term.words, [&](const std::string& word) { return uses(low, lowered(word)); });
  });
  return all;
}

}  // namespace render

}  // namespace whichwire
