// A line while its meaning is worked out: what is known of it so far, and which of its words have been used. The steps
// below run in the order in which they stand; each uses what the earlier ones left.
#pragma once

#include "scan/line_meaning.hpp"

namespace whichwire {

struct LineWork {
  struct Subject {
    std::size_t element = 0;  ///< where it stands
    std::size_t report = 0;
  };
  struct CodePlace {
    std::size_t element = 0;  ///< where it stands
    std::size_t report = nowhere, code = nowhere;
    CodeSeen seen;  ///< until it is placed
    bool stated = false;
  };

  LineWork(const TextLine& text, const Parts& parts, const Network& vehicle);

  const TextLine& line;
  const std::vector<LineElement>& elements;
  const std::vector<LinePart>& parts;
  const Network& network;
  std::vector<bool> used;  ///< beside the elements
  std::vector<Subject> subjects;
  std::vector<CodePlace> codes;
  LineMeaning meaning;

  const Word& word(std::size_t i) const { return line.words[elements[i].first]; }
  std::string_view raw(std::size_t i) const { return line.slice(elements[i].first, elements[i].last); }
  bool is_code(std::size_t i) const {
    return elements[i].is(LineElement::Kind::code) || elements[i].is(LineElement::Kind::own_code);
  }
  bool code_before(std::size_t i) const { return !codes.empty() && codes.front().element < i; }

  /// Report of the last subject before, or the first after, element `i`; `nowhere` where there is none.
  std::size_t subject_before(std::size_t i) const;
  std::size_t subject_after(std::size_t i) const;

  /// The codes of this line stand before the modules that they belong to.
  bool codes_lead() const {
    return !subjects.empty() && !codes.empty() && codes.front().element < subjects.front().element;
  }
  /// Report that a code at element `i` belongs to; `nowhere`: whoever was spoken of before the line.
  std::size_t holder(std::size_t i) const;

  CodeSeen& seen(const CodePlace& place) { return meaning.reports[place.report].codes[place.code]; }
  /// The code that a word at element `i` goes with: the last before it, else the first.
  CodePlace* code_near(std::size_t i);
};

/// A clause ends before element `i`.
bool ends_clause(const LineWork& work, std::size_t i);

void find_subjects(LineWork& work);
void find_codes(LineWork& work);
/// Battery, key, unit and time: told of nobody.
void find_facts(LineWork& work);
void find_stranger(LineWork& work);
/// `HU has U0198; front seat U0208`: names of nobody known, in a line that also names modules.
void find_further_strangers(LineWork& work);
void assign_answers(LineWork& work);
void assign_codes(LineWork& work);
void assign_states(LineWork& work);
void assign_bytes_and_volts(LineWork& work);
/// Sentences such as `no messages from ECM`.
void assign_sentences(LineWork& work);
void assign_texts(LineWork& work);
/// `all others answer`; a bus as a heading.
void find_groups(LineWork& work);
/// Functions that work or fail; `heading`: what is said of those that stand there with no more than their name.
void find_functions(LineWork& work, std::optional<bool> heading);
/// A line that says one thing of nobody: a state for what follows, or a heading.
void find_headings(LineWork& work);
void collect_leftovers(LineWork& work);

}  // namespace whichwire
