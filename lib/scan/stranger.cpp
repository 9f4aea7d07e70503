#include "scan/stranger.hpp"

#include "scan/said.hpp"

namespace whichwire {

namespace {

constexpr std::size_t longest_name = 5;  // words; longer ones are sentences

bool noun_of_a_module(const Word& word) {
  return is_module_noun(word.text) || word.text.ends_with("steuergeraet") || word.text.ends_with("modul");
}

/// The words at the head of a line, behind its number, as far as they may be a name; nullopt where all are known, or
/// nothing stands behind them. Before a code the name of a function is no statement about it.
std::optional<Stranger> head_of(const TextLine& line, const std::vector<LineElement>& elements, bool coded) {
  std::size_t first = 0;
  const auto leads = [](const LineElement& e) {  // `3)`, `[ok]`
    return e.is(LineElement::Kind::number) || (e.is(LineElement::Kind::sense) && answer_said(e));
  };
  while (first < elements.size() && leads(elements[first])) ++first;
  std::size_t last = first;
  bool unknown = false;
  const auto of_name = [&](std::size_t i) {
    if (i > first && parted_before(line.words[elements[i].first])) return false;
    return elements[i].is(LineElement::Kind::unknown) || elements[i].is(LineElement::Kind::number) ||
           (coded && elements[i].is(LineElement::Kind::function)) || elements[i].says(Sense::battery) ||
           elements[i].says(Sense::heading) || (i > first && elements[i].says(Sense::and_)) ||
           elements[i].is(LineElement::Kind::module) || (i > first && elements[i].says(Sense::unit));
  };
  while (last < elements.size() && of_name(last)) {
    unknown = unknown || is_unknown_word(elements[last]) || elements[last].is(LineElement::Kind::function);
    ++last;
  }
  if (!unknown || last == elements.size()) return std::nullopt;
  return Stranger{first, last - 1};
}

}  // namespace

std::optional<Stranger> stranger_in(const TextLine& line, const std::vector<LineElement>& elements, SaidBeside said) {
  const auto name = said.code || said.answer ? head_of(line, elements, said.code) : std::nullopt;
  if (!name) return std::nullopt;
  const std::size_t first = elements[name->first].first;
  const std::size_t last = elements[name->last].last;
  const std::size_t words = last - first + 1;
  const bool apart = parted_before(line.words[last + 1]) || elements[name->last + 1].is(LineElement::Kind::stamp);
  bool noun = false;
  for (std::size_t i = first; i <= last; ++i) noun = noun || noun_of_a_module(line.words[i]);
  const Word& only = line.words[first];
  const bool short_id =
      words == 1 && only.capitals && only.text.size() <= 6 && only.text.size() >= 2 && (!line.shouting || apart);
  const bool row = said.code && (said.answer || said.weak_answer);  // its code is nobody else's
  const bool fits =
      words <= longest_name && (short_id || row || (noun && (apart || said.answer)) || (apart && said.answer));
  return fits ? name : std::nullopt;
}

std::optional<Stranger> head_before_code(const TextLine& line, const std::vector<LineElement>& elements) {
  const auto head = head_of(line, elements, true);
  if (!head) return std::nullopt;
  const LineElement& next = elements[head->last + 1];
  const bool code = next.is(LineElement::Kind::code) || next.is(LineElement::Kind::own_code);
  return code && parted_before(line.words[next.first]) ? head : std::nullopt;
}

}  // namespace whichwire
