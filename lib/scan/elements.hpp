// What stands in a line of pasted text: modules, words that say something, codes, numbers; in their order.
// Tested in tests/scan/elements.cpp.
#pragma once

#include <unordered_map>
#include <whichwire/code.hpp>
#include <whichwire/network.hpp>

#include "scan/function_words.hpp"
#include "scan/names.hpp"
#include "scan/phrases.hpp"
#include "scan/text_line.hpp"

namespace whichwire {

struct LineElement {
  enum class Kind : std::uint8_t {
    module,    ///< `hits`: which it may be
    sense,     ///< a word or phrase of scan-words.csv
    code,      ///< `code`
    own_code,  ///< a maker's own in no standard form, known to the network: `text`
    status,    ///< a status byte: `value`
    volts,     ///< `value`
    count,     ///< how many codes: `value`
    stamp,     ///< a date or time
    number,    ///< any other number
    bus,       ///< `index`
    function,  ///< `index`
    unknown,   ///< a word that says nothing to us
  };
  Kind kind = Kind::unknown;
  std::size_t first = 0, last = 0;  ///< words of the line
  std::vector<NameHit> hits;
  Sense sense = Sense::noise;
  Code code;
  double value = 0;
  std::size_t index = nowhere;
  std::string text;
  std::optional<int> address;  ///< of a module that is named by its address alone
  bool denied = false;         ///< of a function: `doesn't crank`
  bool rival = false;          ///< of a module: called by a role's short name, while the text names it by its id too

  bool is(Kind wanted) const { return kind == wanted; }
  bool says(Sense wanted) const { return kind == Kind::sense && sense == wanted; }
};

/// Everything of a network that a scan may name.
class Lexicon {
 public:
  explicit Lexicon(const Network& network);

  const Network& network() const { return network_; }
  const NameIndex& names() const { return names_; }
  const FunctionIndex& functions() const { return functions_; }

  struct Found {
    LineElement element;
    std::size_t letters = 0;  ///< of the phrase; 0: nothing found
  };
  /// The longest name or phrase that begins with word `first`.
  Found longest(const TextLine& line, std::size_t first) const;

 private:
  void consider(Found& best, const TextLine& line, std::size_t first, std::size_t last, const std::string& key,
                const std::string& words, const std::string& stems) const;

  const Network& network_;
  NameIndex names_;
  std::unordered_map<std::string, std::string> own_codes_;  ///< key to spelling
  std::unordered_map<std::string, std::size_t> buses_;
  FunctionIndex functions_;
  std::size_t most_words_ = most_phrase_words;
};

std::vector<LineElement> elements_of(const TextLine& line, const Lexicon& lexicon);

/// A voltage or other number with a point or a comma.
std::optional<double> decimal(std::string_view word);

}  // namespace whichwire
