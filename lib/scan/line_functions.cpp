// Functions of a vehicle that a line says work or fail, alone or in a list. What is said of one holds within its
// clause; a word before a colon holds for the whole list; `wipers and headlamps work` is said of both. Tested in
// tests/scan/functions.cpp.
#include <algorithm>

#include "scan/line_work.hpp"

namespace whichwire {

namespace {

using Kind = LineElement::Kind;

bool divides(const LineWork& work, std::size_t i) {
  const Word& word = work.word(i);
  return word.gap.find_first_of(",;\t") != std::string::npos || word.gap.find(". ") != std::string::npos ||
         word.text == "but" || word.text == "aber";
}

bool bare(const LineElement& e) { return e.says(Sense::bare_yes) || e.says(Sense::bare_no); }

/// Behind a `no` its own noun may follow: `crank, no start`.
bool with_a_noun(const LineWork& work, std::size_t i) {
  const std::size_t next = i + 1;
  return next < work.elements.size() && !parted_before(work.word(next)) && is_unknown_word(work.elements[next]);
}

std::optional<bool> said_by(const LineWork& work, std::size_t i) {
  const LineElement& e = work.elements[i];
  if (bare(e) && with_a_noun(work, i)) return std::nullopt;
  if (e.says(Sense::fails) || e.says(Sense::no) || e.says(Sense::bare_no)) return false;
  if (e.says(Sense::works) || e.says(Sense::weak_yes) || e.says(Sense::bare_yes) || e.says(Sense::yes)) return true;
  return std::nullopt;
}

class Clause {
 public:
  Clause(LineWork& work, std::size_t function, std::size_t end) : work_(work), function_(function), end_(end) {}

  /// What stands behind the function in its clause, else right before it.
  std::optional<bool> said() {
    if (work_.elements[function_].denied) return false;
    for (std::size_t i = function_ + 1; i < end_; ++i) {
      const bool next_column = i == function_ + 1 && work_.word(i).text != "but" && !with_a_noun(work_, i);
      if (divides(work_, i) && !next_column) break;
      if (const std::size_t words = denial_at(work_.line.words, work_.elements[i].first); words > 0) {
        for (std::size_t k = i; k < end_ && work_.elements[k].first < work_.elements[i].first + words; ++k)
          work_.used[k] = true;
        return take(i, false, true);
      }
      if (const auto says = said_by(work_, i)) return take(i, *says, !*says);
    }
    if (function_ == 0 || parted_before(work_.word(function_))) return std::nullopt;
    const auto before = said_by(work_, function_ - 1);
    return before ? take(function_ - 1, *before, false) : std::nullopt;
  }

 private:
  /// `runs_on`: the verb that is denied belongs to it, up to the end of the clause.
  std::optional<bool> take(std::size_t i, bool says, bool runs_on) {
    work_.used[i] = true;
    for (std::size_t k = i + 1; runs_on && k < end_ && !divides(work_, k) && !parted_before(work_.word(k)); ++k)
      if (work_.elements[k].is(Kind::unknown) || work_.elements[k].is(Kind::sense)) work_.used[k] = true;
    return says;
  }

  LineWork& work_;
  std::size_t function_, end_;
};

/// `Not working: wipers, headlamps`.
std::optional<bool> led_by(LineWork& work, std::size_t first) {
  if (!work.word(first).after(':') && !work.word(first).after('=')) return std::nullopt;
  std::optional<bool> says;
  for (std::size_t i = 0; i < first; ++i) {
    const auto here = said_by(work, i);
    if (!here) continue;
    says = here;
    work.used[i] = true;
  }
  return says;
}

bool linked(const LineWork& work, std::size_t from, std::size_t to) {
  for (std::size_t i = from + 1; i < to; ++i)
    if (!work.elements[i].says(Sense::and_) && !work.elements[i].says(Sense::noise)) return false;
  return work.word(to).text != "but" && work.word(to).gap.find_first_of(";\t.") == std::string::npos;
}

/// Words for working or failing and nothing else.
std::optional<bool> lone_word(LineWork& work) {
  std::optional<bool> says;
  for (std::size_t i = 0; i < work.elements.size(); ++i) {
    const LineElement& e = work.elements[i];
    const bool one = e.says(Sense::works) || e.says(Sense::fails);
    if (one && !says)
      says = e.says(Sense::works);
    else if (!says_nothing(e))
      return std::nullopt;
  }
  return says;
}

}  // namespace

void find_functions(LineWork& work, std::optional<bool> heading) {
  if (!work.subjects.empty() || !work.codes.empty()) return;
  std::vector<std::size_t> places;
  for (std::size_t i = 0; i < work.elements.size(); ++i)
    if (work.elements[i].is(Kind::function)) places.push_back(i);
  if (places.empty()) {
    work.meaning.functions_work = lone_word(work);
    return;
  }
  const std::optional<bool> lead = led_by(work, places.front());
  std::vector<std::optional<bool>> said;
  for (std::size_t k = 0; k < places.size(); ++k) {
    const std::size_t end = k + 1 < places.size() ? places[k + 1] : work.elements.size();
    said.push_back(lead ? lead : Clause(work, places[k], end).said());
  }
  for (std::size_t k = places.size() - 1; k-- > 0;)
    if (!said[k] && linked(work, places[k], places[k + 1])) said[k] = said[k + 1];
  const bool bare = std::ranges::none_of(said, [](const auto& one) { return one.has_value(); });
  for (std::size_t k = 0; k < places.size(); ++k) {
    if (bare) said[k] = heading;
    if (!said[k]) continue;
    work.used[places[k]] = true;
    work.meaning.functions.push_back({work.network.functions[work.elements[places[k]].index].id, *said[k]});
  }
  if (!work.meaning.functions.empty()) work.meaning.answer.reset();
}

}  // namespace whichwire
