#include "scan/part_names.hpp"

#include <algorithm>
#include <array>
#include <optional>

#include "scan/line_parts.hpp"
#include "scan/said.hpp"

namespace whichwire {

namespace {

using Kind = LineElement::Kind;

/// Words that many names begin with: alone they tell nobody.
constexpr std::array<std::string_view, 25> qualifiers{
    "front", "forward", "rear",   "left",      "right", "centre",   "center",     "upper",     "lower",
    "side",  "driver",  "main",   "auxiliary", "power", "electric", "electronic", "automatic", "central",
    "high",  "low",     "sensor", "passenger", "light", "key",      "assist"};

bool qualifies(std::string_view word) {
  return word.size() < 3 || is_number(word) || std::ranges::find(qualifiers, word) != qualifiers.end();
}

/// Without the `s` of a plural, and without what ends a German name.
std::string singular(std::string word) {
  for (const std::string_view noun : {"steuergeraet", "elektronik"})
    if (word.size() > noun.size() && word.ends_with(noun)) word.resize(word.size() - noun.size());
  if (word.size() > 3 && word.ends_with('s') && !word.ends_with("ss")) word.pop_back();
  return word;
}

/// The words of a name in order of the alphabet, but for `module` and its like and the `s` of `driver's`.
std::vector<std::string> told_words(std::string_view name) {
  std::vector<std::string> words;
  for (const std::string& word : words_of(name))
    if (!is_module_noun(word) && word != "s" && word != "and") words.push_back(singular(word));
  std::ranges::sort(words);
  return words;
}

void add_once(std::vector<NameHit>& hits, std::size_t module) {
  if (std::ranges::find(hits, module, &NameHit::module) == hits.end()) hits.push_back({module, NameKind::part});
}

bool bare(const LineElement& e) { return e.says(Sense::bare_yes) || e.says(Sense::bare_no); }
bool answers(const LineElement& e) { return answer_said(e).has_value() && !e.says(Sense::current); }
bool coded(const LineElement& e) { return e.is(Kind::code) || e.is(Kind::own_code); }

/// What a line may say of a module whose name stands in a line of its own above.
bool tells(const LineElement& e) {
  return answers(e) || coded(e) || e.is(Kind::count) || e.is(Kind::status) || state_said(e, true).has_value();
}

/// It says something, and names nobody.
bool bare_telling(const std::vector<LineElement>& elements) {
  for (const LineElement& e : elements) {
    if (tells(e)) return true;
    if (!says_nothing(e) && !e.is(Kind::number)) return false;
  }
  return false;
}

class Marker {
 public:
  Marker(std::vector<SourceLine>& lines, const Network& network) : lines_(lines), network_(network) {}

  void mark() {
    for (at_ = 0; at_ < lines_.size(); ++at_) {
      if (lines_[at_].text.words.empty()) continue;
      const bool said = says_something();
      if (said) {
        mark_segments();
        listed_ = std::ranges::none_of(
            elements(), [](const LineElement& e) { return is_unknown_word(e) || coded(e) || e.is(Kind::module); });
      } else {
        mark_lone_name();
        listed_ = listed_ && elements().size() == 1 && elements()[0].is(Kind::module);
      }
    }
  }

 private:
  std::vector<LineElement>& elements() { return lines_[at_].elements; }
  const TextLine& line() const { return lines_[at_].text; }
  const Word& word(std::size_t i) { return line().words[elements()[i].first]; }

  std::vector<LineElement>::iterator place(std::size_t i) {
    return elements().begin() + static_cast<std::ptrdiff_t>(i);
  }

  bool says_something() {
    return std::ranges::any_of(elements(), [&](const LineElement& e) {
      return tells(e) || (bare(e) && line().words[e.first].ends_cell_before());
    });
  }

  /// A name that is all of its line, behind its number: of a list, or with something said below it.
  void mark_lone_name() {
    const std::size_t first = elements()[0].is(Kind::number) ? 1 : 0;
    const bool below_a_code = at_ > 0 && std::ranges::any_of(lines_[at_ - 1].elements, coded) && line().indented &&
                              line().indent >= lines_[at_ - 1].text.indent;  // its text
    const bool lone = elements().size() == segment_end(first) && !below_a_code;
    if (lone && (listed_ || told_below(lines_, at_))) mark_if_known(first, elements().size());
  }

  /// A word of a name, as far as anybody knows.
  bool of_name(std::size_t i, std::size_t first) {
    const LineElement& e = elements()[i];
    if (e.is(Kind::unknown)) return true;
    const bool inside = i > first;
    return (inside && (e.is(Kind::number) || e.says(Sense::and_))) || e.says(Sense::heading) ||
           e.says(Sense::battery) || (e.is(Kind::function) && !e.denied);
  }

  std::size_t segment_end(std::size_t first) {
    std::size_t end = first;
    while (end < elements().size() && (end == first || !parted_before(word(end))) && of_name(end, first)) ++end;
    return end;
  }

  /// What stands behind a name in its place: a mark, the end, or what is said of it.
  bool ends_there(std::size_t first, std::size_t end) {
    if (end == elements().size()) return true;
    const bool parted = parted_before(word(end)) || word(end).after('/');
    const bool also_else = std::any_of(place(first), place(end), [](const LineElement& e) {
      return e.is(Kind::function) || e.says(Sense::battery);  // that works, that has 12 V
    });
    if (also_else) return parted && answers(elements()[end]) && !said_weakly(elements()[end]);
    return parted || answers(elements()[end]) || elements()[end].is(Kind::count) || elements()[end].is(Kind::stamp) ||
           coded(elements()[end]);
  }

  bool mark_if_known(std::size_t first, std::size_t end) {
    const auto from = place(first);
    const auto to = place(end);
    const bool worded = std::any_of(from, to, [](const LineElement& e) {
      return is_unknown_word(e) || e.is(Kind::function) || e.says(Sense::battery);
    });
    if (!worded || end - first > 5) return false;
    if (!names_) names_.emplace(network_);
    std::vector<NameHit> hits = names_->find(line().slice(from->first, (to - 1)->last));
    if (hits.empty()) return false;
    from->last = (to - 1)->last;
    from->kind = Kind::module;
    from->hits = std::move(hits);
    elements().erase(from + 1, to);
    return true;
  }

  /// Names at the head of a line and, as long as all before were known, in a list that goes on from there.
  void mark_segments() {
    bool behind_code = false;
    for (std::size_t i = 0; i < elements().size();) {
      const bool begins = i == 0 || parted_before(word(i)) || word(i).after('/') ||
                          elements()[i - 1].is(Kind::number) || answers(elements()[i - 1]) ||
                          elements()[i - 1].says(Sense::and_);
      behind_code = behind_code || coded(elements()[i]);
      const std::size_t end = segment_end(i);
      if (end == i) {
        ++i;
        continue;
      }
      const bool said_of_it = end < elements().size() && (answers(elements()[end]) || coded(elements()[end]));
      const bool cell =
          i > 0 && word(i).ends_cell_before() && (end == elements().size() || word(end).ends_cell_before());
      const bool placed = begins && ends_there(i, end) && (!behind_code || said_of_it || (cell && nobody_named()));
      if (placed && mark_if_known(i, end)) {
        ++i;
      } else if (std::any_of(place(i), place(end), is_unknown_word) && !behind_code) {
        return;
      } else {
        i = end;
      }
    }
  }

  bool nobody_named() {
    return std::ranges::none_of(elements(), [](const LineElement& e) { return e.is(Kind::module); });
  }

  std::vector<SourceLine>& lines_;
  const Network& network_;
  std::optional<PartNames> names_;
  std::size_t at_ = 0;
  bool listed_ = false;  ///< below a heading that says how those answer who stand there one a line
};

}  // namespace

bool told_below(const std::vector<SourceLine>& lines, std::size_t at) {
  constexpr std::size_t most_lines = 4;
  std::size_t seen = 0;
  for (std::size_t i = at + 1; i < lines.size() && seen < most_lines; ++i) {
    if (lines[i].elements.empty()) continue;
    if (bare_telling(lines[i].elements)) return true;
    if (!lines[i].text.indented || lines[at].text.indented) return false;
    ++seen;
  }
  return false;
}

PartNames::PartNames(const Network& network) {
  for (std::size_t i = 0; i < network.modules.size(); ++i)
    for (const auto& [name, own] : names_of(network.modules[i])) add(name, i, own);
}

void PartNames::add(std::string_view name, std::size_t module, bool own) {
  std::vector<std::string> words = told_words(name);
  for (std::size_t i = 0; i < words.size(); ++i)
    if (i == 0 || words[i] != words[i - 1]) by_word_[words[i]].push_back(names_.size());
  names_.push_back({std::move(words), module, own});
}

std::vector<NameHit> PartNames::find(std::string_view name) const {
  std::vector<NameHit> whole;
  std::vector<NameHit> part;
  const std::vector<std::string> words = told_words(name);
  const auto telling = std::ranges::find_if_not(words, qualifies);
  const auto known = telling == words.end() ? by_word_.end() : by_word_.find(*telling);
  if (known == by_word_.end()) return whole;
  for (const std::size_t i : known->second) {
    if (names_[i].own && names_[i].words == words) add_once(whole, names_[i].module);
    if (std::ranges::includes(names_[i].words, words)) add_once(part, names_[i].module);
  }
  return whole.size() == 1 ? whole : part;
}

void mark_part_names(std::vector<SourceLine>& lines, const Network& network) { Marker(lines, network).mark(); }

}  // namespace whichwire
