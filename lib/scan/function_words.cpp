#include "scan/function_words.hpp"

#include <algorithm>
#include <array>

#include "scan/names.hpp"

namespace whichwire {

namespace {

constexpr std::size_t most_clause_words = 12;

bool among(const auto& all, std::string_view word) { return std::ranges::find(all, word) != all.end(); }

/// Words of a denied verb that are no part of what is denied.
bool helps(std::string_view word) {
  constexpr std::array<std::string_view, 18> helpers{"do",  "does", "did",  "is", "are", "was", "were", "will", "can",
                                                     "any", "more", "able", "to", "at",  "all", "be",   "a",    "even"};
  return among(helpers, word) || is_filler(word);
}

bool ends_clause(const Word& word) {
  return word.ends_cell_before() || word.gap.find_first_of(",:()=!?") != std::string::npos ||
         word.gap.find(". ") != std::string::npos || word.gap.find(" - ") != std::string::npos;
}

}  // namespace

std::string stem_of(std::string_view folded_word) {
  std::string_view stem = folded_word;
  const auto cut = [&](std::string_view ending, std::size_t left) {
    const bool ends = stem.size() >= left + ending.size() && stem.ends_with(ending);
    if (ends) stem.remove_suffix(ending.size());
    return ends;
  };
  if (!stem.ends_with("ss") && !cut("ing", 3) && !cut("s", 3)) cut("ed", 3);
  cut("e", 3);
  if (stem.size() > 3 && stem.back() == stem[stem.size() - 2]) stem.remove_suffix(1);
  return std::string(stem);
}

std::size_t denial_at(const std::vector<Word>& words, std::size_t at) {
  constexpr std::array<std::string_view, 20> single{"not",   "never", "nicht", "cannot", "dont",    "doesnt", "wont",
                                                    "isnt",  "arent", "cant",  "didnt",  "wasnt",   "werent", "couldnt",
                                                    "keine", "kein",  "inop",  "kaputt", "stopped", "stops"};
  constexpr std::array<std::string_view, 10> before_t{"don", "doesn", "won",  "isn",   "aren",
                                                      "can", "didn",  "wasn", "weren", "couldn"};
  const std::string& text = words[at].text;
  if (among(single, text)) return 1;
  const Word* const next = at + 1 < words.size() ? &words[at + 1] : nullptr;
  if (next == nullptr) return 0;
  const bool apostrophe = next->gap.size() == 1 && next->gap != "\t";
  if (among(before_t, text) && next->text == "t" && apostrophe) return 2;
  return text == "no" && next->text == "longer" ? 2 : 0;
}

FunctionIndex::FunctionIndex(const Network& network) {
  const auto add = [&](std::string_view phrase, std::size_t function) {
    std::string stems;
    for (const std::string& word : words_of(phrase)) stems += stem_of(word);
    if (!stems.empty()) by_stems_.try_emplace(std::move(stems), function);
  };
  for (std::size_t i = 0; i < network.functions.size(); ++i) add(network.functions[i].id, i);
  for (std::size_t i = 0; i < network.functions.size(); ++i) add(network.functions[i].name, i);
}

std::size_t FunctionIndex::find(const std::string& stems) const {
  const auto found = by_stems_.find(stems);
  return found == by_stems_.end() ? nowhere : found->second;
}

FunctionIndex::Denied FunctionIndex::denied(const std::vector<Word>& words, std::size_t first) const {
  Denied best;
  std::string stems;
  bool denied = false;
  const std::size_t end = std::min(words.size(), first + most_clause_words);
  for (std::size_t at = first; at < end && (at == first || !ends_clause(words[at]));) {
    if (const std::size_t length = denial_at(words, at); length > 0) {
      denied = true;
      at += length;
      continue;
    }
    if (!helps(words[at].text)) stems += stem_of(words[at].text);
    ++at;
    if (const std::size_t function = denied ? find(stems) : nowhere; function != nowhere && !helps(words[at - 1].text))
      best = {function, at - first};
  }
  return best;
}

}  // namespace whichwire
