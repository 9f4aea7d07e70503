#include "scan/names.hpp"

#include <algorithm>
#include <array>
#include <whichwire/code.hpp>

#include "scan/fold.hpp"
#include "scan/table.hpp"

namespace whichwire {

namespace data {
extern const std::string_view role_names_table;
}

namespace {

constexpr std::array<std::string_view, 12> fillers{"of",  "the", "for",  "and", "der", "die",
                                                   "das", "des", "fuer", "und", "den", "dem"};

/// Words that end a name and may stand for each other there.
constexpr std::array<std::string_view, 9> tails{"controlmodule", "controlunit", "controller", "computer",    "module",
                                                "unit",          "ecu",         "control",    "steuergeraet"};
constexpr std::array<std::string_view, 8> tail_words{"control",  "controller", "module",      "unit",
                                                     "computer", "ecu",        "electronics", "steuergeraet"};

void add_once(std::vector<NameHit>& hits, NameHit hit) {
  const auto known = std::ranges::find(hits, hit.module, &NameHit::module);
  if (known == hits.end()) {
    hits.push_back(hit);
  } else {
    known->kind = std::min(known->kind, hit.kind);
  }
}

std::vector<NameHit> surest(const std::vector<NameHit>& hits) {
  const NameKind best = std::ranges::min(hits, {}, &NameHit::kind).kind;
  std::vector<NameHit> sure;
  for (const NameHit& hit : hits)
    if (hit.kind == best) sure.push_back(hit);
  return sure;
}

/// The trade names of a role.
std::vector<std::string_view> trade_names(std::string_view role) {
  static const auto rows = rows_of<2>(data::role_names_table);
  std::vector<std::string_view> all;
  for (auto [id, names] : rows) {
    if (id != role) continue;
    while (!names.empty()) {
      const std::size_t end = names.find(';');
      all.push_back(names.substr(0, end));
      names = end == std::string_view::npos ? std::string_view{} : names.substr(end + 1);
    }
  }
  return all;
}

std::string joined(const std::vector<std::string>& words) {
  std::string text;
  for (const std::string& word : words) text += word;
  return text;
}

}  // namespace

bool is_filler(std::string_view folded_word) { return std::ranges::find(fillers, folded_word) != fillers.end(); }

bool is_module_noun(std::string_view folded_word) {
  return std::ranges::find(tail_words, folded_word) != tail_words.end();
}

std::vector<std::string> words_of(std::string_view phrase) {
  std::vector<std::string> words;
  std::string word;
  const auto finish = [&] {
    if (!word.empty() && !is_filler(word)) words.push_back(word);
    word.clear();
  };
  for (std::size_t at = 0; at < phrase.size();) {
    const FoldedCharacter character = folded_at(phrase, at);
    if (character.sign == Sign::letter)
      word += character.as;
    else if (character.sign != Sign::nothing)
      finish();
    at += character.length;
  }
  finish();
  return words;
}

std::string sorted_words(std::vector<std::string> words) {
  std::ranges::sort(words);
  std::string text;
  for (const std::string& word : words) text += (text.empty() ? "" : " ") + word;
  return text;
}

std::vector<std::pair<std::string, bool>> names_of(const Module& module) {
  std::vector<std::pair<std::string, bool>> names{{module.name, true}};
  for (const std::string& alias : module.aliases) names.emplace_back(alias, true);
  for (const std::string& role : module.roles) {
    names.emplace_back(role, false);
    for (const std::string_view name : trade_names(role)) names.emplace_back(name, false);
  }
  return names;
}

NameIndex::NameIndex(const Network& network) {
  for (std::size_t i = 0; i < network.modules.size(); ++i) {
    const Module& module = network.modules[i];
    add(module.id, i, NameKind::id);
    add(module.name, i, NameKind::name);
    for (const std::string& alias : module.aliases) add(alias, i, NameKind::name);
    for (const std::string& role : module.roles) add_role(role, i);
    add_variants(module.name, i);
    for (const std::string& alias : module.aliases) add_variants(alias, i);
  }
}

void NameIndex::add(std::string_view phrase, std::size_t module, NameKind kind) {
  const std::string key = folded_key(phrase);
  if (key.empty()) return;
  add_once(by_key_[key], {module, kind});
  std::vector<std::string> words = words_of(phrase);
  most_words_ = std::max(most_words_, words.size() + 1);
  if (words.size() > 1) add_once(by_words_[sorted_words(std::move(words))], {module, kind});
}

void NameIndex::add_variants(std::string_view phrase, std::size_t module) {
  std::vector<std::string> words = words_of(phrase);
  bool cut = false;
  while (words.size() > 1 && is_module_noun(words.back())) {
    words.pop_back();
    cut = true;
  }
  if (!cut) return;
  const std::string stem = joined(words);
  for (const std::string_view tail : tails) add_once(by_key_[stem + std::string(tail)], {module, NameKind::variant});
}

void NameIndex::add_role(const std::string& role, std::size_t module) {
  add(role, module, NameKind::role);
  for (const std::string_view name : trade_names(role)) add(name, module, NameKind::role);
  add_variants(role + " module", module);
}

std::vector<NameHit> NameIndex::find(const std::string& key, const std::string& words_sorted) const {
  std::vector<NameHit> hits;
  const auto exact = by_key_.find(key);
  if (exact != by_key_.end()) return surest(exact->second);
  const auto any_order = words_sorted.empty() ? by_words_.end() : by_words_.find(words_sorted);
  return any_order != by_words_.end() ? surest(any_order->second) : hits;
}

std::vector<NameHit> NameIndex::find(std::string_view name) const {
  return find(folded_key(name), sorted_words(words_of(name)));
}

std::vector<std::size_t> NameIndex::begun_by(std::string_view key) const {
  std::vector<std::size_t> modules;
  for (const auto& [whole, hits] : by_key_) {
    if (!whole.starts_with(key)) continue;
    for (const NameHit& hit : hits)
      if (std::ranges::find(modules, hit.module) == modules.end()) modules.push_back(hit.module);
  }
  std::ranges::sort(modules);
  return modules;
}

}  // namespace whichwire
