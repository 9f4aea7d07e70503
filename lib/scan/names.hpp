// Every name that a scan may call a module by: id, name, alias, role, trade names of the role, and near variants of
// these (`unit` for `module`, words in another order). Case, spacing and punctuation do not matter.
// Tested in tests/scan/names.cpp.
#pragma once

#include <span>
#include <string>
#include <string_view>
#include <unordered_map>
#include <vector>
#include <whichwire/network.hpp>

namespace whichwire {

/// How a name leads to a module; the earlier, the surer.
enum class NameKind : std::uint8_t { id, name, role, variant, part };

struct NameHit {
  std::size_t module = nowhere;
  NameKind kind = NameKind::id;
};

class NameIndex {
 public:
  explicit NameIndex(const Network& network);

  /// The modules that a phrase may mean, all of the surest kind: none, one, or several when it is ambiguous.
  /// `key` is the phrase by `folded_key`; `words_sorted` its words by `sorted_words`, empty to skip word order.
  std::vector<NameHit> find(const std::string& key, const std::string& words_sorted) const;

  /// The modules that a name as written may mean.
  std::vector<NameHit> find(std::string_view name) const;

  /// Whether a longer name begins with this key; the modules that do.
  std::vector<std::size_t> begun_by(std::string_view key) const;

  /// No name has more words.
  std::size_t most_words() const { return most_words_; }

 private:
  using Hits = std::unordered_map<std::string, std::vector<NameHit>>;
  void add(std::string_view phrase, std::size_t module, NameKind kind);
  void add_variants(std::string_view phrase, std::size_t module);
  void add_role(const std::string& role, std::size_t module);

  Hits by_key_, by_words_;
  std::size_t most_words_ = 1;
};

/// The words of a phrase, folded; `of`, `the` and their like left out.
std::vector<std::string> words_of(std::string_view phrase);

/// Words in alphabetical order with a blank between: equal for phrases that differ only in word order.
std::string sorted_words(std::vector<std::string> words);

/// The name and aliases of a module (true), its roles and their trade names (false), as they are written.
std::vector<std::pair<std::string, bool>> names_of(const Module& module);

/// Words that mean nothing inside a name.
bool is_filler(std::string_view folded_word);

/// `module`, `control`, `unit` and their like: what many names end with.
bool is_module_noun(std::string_view folded_word);

}  // namespace whichwire
