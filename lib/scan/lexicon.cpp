// The longest name or phrase at a place of a line; names win over phrases of the same length, but for short ids that
// are also everyday words. Tested in tests/scan/elements.cpp.
#include <algorithm>

#include "scan/elements.hpp"
#include "scan/fold.hpp"

namespace whichwire {

namespace {

/// Whether a phrase may run on over the gap before this word; over a colon only behind `module` and its like.
bool runs_on(const Word& word, bool behind_noun) {
  if (word.ends_cell_before()) return false;
  if (behind_noun && word.gap.find(':') != std::string::npos) return true;
  return word.gap.find_first_of(":;!?=") == std::string::npos && word.gap.find(". ") == std::string::npos;
}

bool about_key_or_battery(Sense sense) {
  return sense == Sense::key_run || sense == Sense::key_off || sense == Sense::key_accessory ||
         sense == Sense::key_start || sense == Sense::battery;
}

/// As in `Communication: failed`.
bool only_a_colon(const Word& word) { return word.gap == ":" || word.gap == ": " || word.gap == " : "; }

/// An id such as `IS` or `OK` counts as a module only where it is written like one.
bool written_as_id(const TextLine& line, std::size_t word) { return line.words[word].capitals && !line.shouting; }

}  // namespace

Lexicon::Lexicon(const Network& network) : network_(network), names_(network), functions_(network) {
  for (const Module& module : network.modules)
    for (const OwnCode& own : module.own_codes) own_codes_.try_emplace(folded_key(own.code), own.code);
  for (std::size_t i = 0; i < network.buses.size(); ++i) {
    buses_.try_emplace(folded_key(network.buses[i].id), i);
    buses_.try_emplace(folded_key(network.buses[i].name), i);
  }
  most_words_ = std::min<std::size_t>(16, std::max(most_words_, names_.most_words()));
}

void Lexicon::consider(Found& best, const TextLine& line, std::size_t first, std::size_t last, const std::string& key,
                       const std::string& words, const std::string& stems) const {
  LineElement element;
  element.first = first;
  element.last = last;
  const auto better = [&](LineElement::Kind kind) {
    best.letters = key.size();
    best.element = element;
    best.element.kind = kind;
  };
  const std::optional<Sense> sense = sense_of(key);
  element.hits = names_.find(key, words);
  if (!element.hits.empty() && !(sense && first == last && !written_as_id(line, first)))
    return better(LineElement::Kind::module);
  element.hits.clear();
  if (const auto own = own_codes_.find(key); own != own_codes_.end()) {
    element.text = own->second;
    return better(LineElement::Kind::own_code);
  }
  if (sense) {
    element.sense = *sense;
    return better(LineElement::Kind::sense);
  }
  if (const auto bus = buses_.find(key); bus != buses_.end()) {
    element.index = bus->second;
    return better(LineElement::Kind::bus);
  }
  if (const std::size_t function = functions_.find(stems); function != nowhere) {
    element.index = function;
    better(LineElement::Kind::function);
  }
}

Lexicon::Found Lexicon::longest(const TextLine& line, std::size_t first) const {
  Found best;
  std::string key;
  std::string stems;
  std::vector<std::string> words;
  const std::size_t end = std::min(line.words.size(), first + most_words_);
  bool in_cell = true;
  bool in_clause = true;  // nothing but colons in between
  bool nouns = true;      // nothing but `module` and its like so far
  for (std::size_t last = first; last < end; ++last) {
    const Word& word = line.words[last];
    if (last > first && !runs_on(word, nouns)) in_cell = false;
    if (!in_cell && !only_a_colon(word) && !runs_on(word, nouns)) in_clause = false;
    nouns = nouns && is_module_noun(word.text);
    if (!in_cell && last > first + 2) break;
    key += word.text;
    if (!is_filler(word.text)) {
      words.push_back(word.text);
      stems += stem_of(word.text);
    }
    Found longer;
    const bool any_order = in_cell && words.size() > 1 && !is_filler(word.text) && !is_filler(line.words[first].text);
    consider(longer, line, first, last, key, any_order ? sorted_words(words) : std::string(),
             is_filler(word.text) || is_filler(line.words[first].text) ? std::string() : stems);
    const bool sense = longer.element.kind == LineElement::Kind::sense;
    const bool allowed = in_cell || (sense && (in_clause || about_key_or_battery(longer.element.sense)));
    if (longer.letters > 0 && allowed) best = longer;
  }
  return best;
}

}  // namespace whichwire
