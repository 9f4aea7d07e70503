#include "scan/stranger.hpp"

namespace whichwire {

namespace {

constexpr std::size_t longest_name = 5;  // words; longer ones are sentences

bool noun_of_a_module(const Word& word) {
  return is_module_noun(word.text) || word.text.ends_with("steuergeraet") || word.text.ends_with("modul");
}

}  // namespace

std::optional<Stranger> stranger_in(const TextLine& line, const std::vector<LineElement>& elements, bool coded,
                                    bool answered) {
  if (!coded && !answered) return std::nullopt;
  std::size_t first = 0;
  while (first < elements.size() && elements[first].is(LineElement::Kind::number)) ++first;
  std::size_t last = first;
  bool unknown = false;
  const auto of_name = [&](std::size_t i) {
    if (i > first && parted_before(line.words[elements[i].first])) return false;
    return elements[i].is(LineElement::Kind::unknown) || elements[i].is(LineElement::Kind::number) ||
           elements[i].says(Sense::heading) || (i > first && elements[i].says(Sense::and_)) ||
           elements[i].is(LineElement::Kind::module) || (i > first && elements[i].says(Sense::unit));
  };
  while (last < elements.size() && of_name(last)) unknown = is_unknown_word(elements[last++]) || unknown;
  if (!unknown || last == elements.size()) return std::nullopt;
  const Stranger name{first, last - 1};
  const std::size_t words = elements[name.last].last - elements[first].first + 1;
  const Word& next = line.words[elements[last].first];
  const bool apart = parted_before(next);
  bool noun = false;
  for (std::size_t i = elements[first].first; i <= elements[name.last].last; ++i)
    noun = noun || noun_of_a_module(line.words[i]);
  const Word& only = line.words[elements[first].first];
  const bool short_id =
      words == 1 && only.capitals && only.text.size() <= 6 && only.text.size() >= 2 && (!line.shouting || apart);
  const bool fits = words <= longest_name && (short_id || (noun && (apart || answered)) || (apart && answered));
  return fits ? std::optional(name) : std::nullopt;
}

}  // namespace whichwire
