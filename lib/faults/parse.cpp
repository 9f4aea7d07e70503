// Reads a fault in the words of the command line by comparing with the words of every fault that the network can have,
// so what can be printed can be read. Upper and lower case do not matter where only one fault fits; `to` and `both`
// may be said and may be left out. Tested in tests/faults/words.cpp.
#include <algorithm>
#include <cctype>

#include "faults/words.hpp"

namespace whichwire {

namespace {

std::vector<std::string> split(std::string_view words) {
  std::vector<std::string> result(1);
  for (const char c : words) {
    const bool space = c == ' ' || c == '\t' || c == '\n' || c == '\r';
    if (!space) result.back() += c;
    if (space && !result.back().empty()) result.emplace_back();
  }
  if (result.back().empty()) result.pop_back();
  return result;
}

/// One spelling for everything that means the same: single blanks, and behind the part no words that add nothing.
std::string plain(std::string_view words) {
  std::string result;
  std::size_t position = 0;
  for (const std::string& word : split(words)) {
    const bool filler = ++position > 2 && (word == "to" || word == "both");
    if (!filler) result += (result.empty() ? "" : " ") + word;
  }
  return result;
}

std::string lower(std::string text) {
  for (char& c : text) c = static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
  return text;
}

struct Candidate {
  Fault fault;
  FaultWords words;
  bool said_by(const std::string& text, bool any_case) const {
    for (const bool in_full : {false, true}) {
      const std::string own = plain(text_of(words, in_full));
      if (any_case ? lower(own) == lower(text) : own == text) return true;
    }
    return false;
  }
};

std::string did_you_mean(const std::string& word, const std::vector<std::string>& known) {
  const std::string near = nearest(word, known);
  return near.empty() ? "" : ", did you mean '" + near + "'?";
}

void add_once(std::vector<std::string>& list, const std::string& text) {
  if (std::find(list.begin(), list.end(), text) == list.end()) list.push_back(text);
}

std::string listed(const std::vector<std::string>& texts, std::size_t most) {
  std::string result;
  for (std::size_t i = 0; i < texts.size() && i < most; ++i) result += (i == 0 ? "'" : ", '") + texts[i] + "'";
  return texts.size() > most ? result + " …" : result;
}

/// What is wrong, from the first word on: the kind, then the part, then the rest.
std::string explain(const std::vector<std::string>& said, const std::vector<Candidate>& candidates) {
  std::vector<std::string> kinds, parts, texts;
  for (const Candidate& candidate : candidates) {
    add_once(kinds, std::string(candidate.words.kind));
    if (candidate.words.kind != said[0]) continue;
    add_once(parts, candidate.words.part);
    const bool part_said = std::find(said.begin() + 1, said.end(), candidate.words.part) != said.end();
    if (part_said && !candidate.words.comes_and_goes) add_once(texts, printable(text_of(candidate.words, false)));
  }
  if (parts.empty()) {
    const std::string hint = did_you_mean(said[0], kinds);
    return "this network has no fault '" + printable(said[0]) + "'" +
           (hint.empty() ? "; it has " + listed(kinds, 20) : hint);
  }
  if (!texts.empty()) return "of this part there are " + listed(texts, 8);
  if (said.size() < 2) return "'" + said[0] + "' of what? Name the part, as in '" + said[0] + " " + parts[0] + "'";
  return "there is no '" + printable(said[1]) + "' that can be '" + said[0] + "'" + did_you_mean(said[1], parts);
}

}  // namespace

FaultResult parse_fault(const Network& network, std::string_view words, const Rates& rates) {
  const std::string text = plain(words);
  const std::vector<std::string> said = split(text);
  if (said.empty()) return {std::nullopt, "a fault is missing, as in 'open DRV-2 high' or 'dead ECM'"};

  const std::vector<Fault> faults = faults_of(network, rates);
  std::vector<Candidate> candidates;  // of the kind said only, since words for all would take their time
  for (const Fault& fault : faults) {
    if (lower(said[0]) == word_for(fault.kind)) candidates.push_back({fault, words_of(network, fault)});
  }
  for (const bool any_case : {false, true}) {
    std::vector<std::string> meant;
    std::optional<Fault> found;
    for (const Candidate& candidate : candidates) {
      if (!candidate.said_by(text, any_case)) continue;
      if (!found) found = candidate.fault;
      meant.push_back(printable(text_of(candidate.words, true)));
    }
    if (meant.size() == 1) return {found, ""};
    if (meant.size() > 1) return {std::nullopt, "this can mean " + listed(meant, 8)};
  }
  candidates.clear();
  for (const Fault& fault : faults) candidates.push_back({fault, words_of(network, fault)});
  return {std::nullopt, explain(said, candidates)};
}

}  // namespace whichwire
