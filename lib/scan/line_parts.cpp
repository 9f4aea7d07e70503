#include "scan/line_parts.hpp"

#include <algorithm>

#include "scan/accused.hpp"
#include "scan/locked_gateway.hpp"
#include "scan/text_line.hpp"

namespace whichwire {

namespace {

using Kind = LineElement::Kind;

bool an_answer(Sense sense) {
  switch (sense) {
    case Sense::yes:
    case Sense::weak_yes:
    case Sense::no_codes:
    case Sense::no:
    case Sense::time_out:
    case Sense::refused:
    case Sense::locked:
    case Sense::not_fitted:
    case Sense::not_present:
    case Sense::not_reachable:
    case Sense::behind_gateway:
    case Sense::not_polled:
    case Sense::present:
      return true;
    default:
      return false;
  }
}

class Sorter {
 public:
  Sorter(const TextLine& line, std::vector<LineElement> elements, const Network& network, bool speaking)
      : line_(line),
        e_(std::move(elements)),
        part_(e_.size(), LinePart::none),
        network_(network),
        speaking_(speaking) {}

  Parts sort() {
    merge_names();
    mark_senders();
    mark_missed_before();
    mark_reporters();
    mark_the_rest();
    return {std::move(e_), std::move(part_)};
  }

 private:
  const Word& first_word(std::size_t i) const { return line_.words[e_[i].first]; }
  bool module(std::size_t i) const { return e_[i].is(Kind::module) && part_[i] != LinePart::same; }
  bool free_module(std::size_t i) const { return e_[i].is(Kind::module) && part_[i] == LinePart::none; }
  bool code(std::size_t i) const { return e_[i].is(Kind::code) || e_[i].is(Kind::own_code); }

  bool code_before(std::size_t i) const {
    for (std::size_t k = 0; k < i; ++k)
      if (code(k)) return true;
    return false;
  }
  bool module_before(std::size_t i) const {
    for (std::size_t k = 0; k < i; ++k)
      if (free_module(k) || part_[k] == LinePart::subject) return true;
    return false;
  }

  /// `ECM (engine computer)` is one module; the second name may settle which one the first meant.
  void merge_names() {
    std::size_t last = nowhere;
    for (std::size_t i = 0; i < e_.size(); ++i) {
      if (!e_[i].is(Kind::module)) {
        if (!says_nothing(e_[i])) last = nowhere;
        continue;
      }
      std::vector<NameHit> both;
      if (last != nowhere && !e_[i].hits.empty()) {
        for (const NameHit& hit : e_[last].hits) {
          const auto other = std::ranges::find(e_[i].hits, hit.module, &NameHit::module);
          if (other != e_[i].hits.end()) both.push_back({hit.module, std::min(hit.kind, other->kind)});
        }
      }
      if (both.empty() && last != nowhere && e_[i].address && !e_[i].hits.empty()) {
        for (const NameHit& hit : e_[last].hits) both.push_back(hit);  // name and address are of two modules
        both.insert(both.end(), e_[i].hits.begin(), e_[i].hits.end());
      }
      if (both.empty()) {
        last = i;
      } else {
        e_[last].hits = both;
        e_[last].rival = false;
        e_[i].hits = both;
        part_[i] = LinePart::same;
      }
    }
  }

  /// The modules named right behind element `i`, as in `no messages from ECM and TCM`.
  std::vector<std::size_t> named_behind(std::size_t i) const {
    std::vector<std::size_t> found;
    for (std::size_t k = i + 1; k < e_.size(); ++k) {
      if (part_[k] == LinePart::same) continue;
      if (!found.empty() && first_word(k).ends_cell_before()) break;
      if (free_module(k)) {
        if (!found.empty() && answered_behind(k)) break;
        found.push_back(k);
      } else if (!says_nothing(e_[k])) {
        break;
      }
    }
    return found;
  }

  bool answered_behind(std::size_t i) const {
    for (std::size_t k = i + 1; k < e_.size(); ++k) {
      if (part_[k] == LinePart::same || e_[k].says(Sense::noise)) continue;
      return e_[k].is(Kind::sense) && an_answer(e_[k].sense);
    }
    return false;
  }

  /// The last module before has its answer already, as in `BCM ok, but no answer from PDM`.
  bool answered_before(std::size_t i) const {
    for (std::size_t k = i; k > 0 && !e_[k - 1].is(Kind::module); --k)
      if (e_[k - 1].is(Kind::sense) && an_answer(e_[k - 1].sense)) return true;
    return false;
  }

  bool said_missing_behind(std::size_t i) const {
    for (std::size_t k = i + 1; k < e_.size() && !e_[k].is(Kind::module); ++k)
      if (e_[k].says(Sense::missing) || e_[k].says(Sense::messages_missing) || e_[k].says(Sense::time_out)) return true;
    return false;
  }

  void mark_senders() {
    for (std::size_t i = 0; i < e_.size(); ++i) {
      if (!e_[i].is(Kind::sense)) continue;
      const Sense sense = e_[i].sense;
      if (sense == Sense::no_answer_from && !code_before(i) && (!module_before(i) || answered_before(i))) {
        continue;  // nobody before it, or one who has been told of: the tester speaks
      }
      if (sense != Sense::misses && sense != Sense::no_answer_from && sense != Sense::messages_from &&
          sense != Sense::bad_data)
        continue;
      const std::vector<std::size_t> senders = named_behind(i);
      const bool denied = i > 0 && e_[i - 1].says(Sense::bare_no);
      const bool missed =
          sense == Sense::misses || sense == Sense::no_answer_from ||
          (sense == Sense::messages_from && !senders.empty() && (denied || said_missing_behind(senders.back())));
      for (const std::size_t k : senders) part_[k] = missed ? LinePart::missed : LinePart::sender;
    }
  }

  /// `ECM messages missing`, or `TCM: ECM missing`.
  void mark_missed_before() {
    for (std::size_t i = 1; i < e_.size(); ++i) {
      const bool of_messages = e_[i].says(Sense::messages_missing);
      if (!of_messages && !e_[i].says(Sense::missing) && !e_[i].says(Sense::time_out)) continue;
      std::size_t k = i;
      while (k > 0 && (says_nothing(e_[k - 1]) || part_[k - 1] == LinePart::same)) --k;
      if (k == 0 || !free_module(k - 1)) continue;
      const std::size_t named = k - 1;
      const bool reporter = code_before(named) || (of_messages ? module_before(named) || speaking_ : led_in(named));
      if (reporter || of_messages) part_[named] = LinePart::missed;
    }
  }

  /// A module with a colon stands right before.
  bool led_in(std::size_t i) const { return i > 0 && free_module(i - 1) && first_word(i).after(':'); }

  /// `stored in TCM`, `reported by: TCM`.
  void mark_reporters() {
    for (std::size_t i = 0; i + 1 < e_.size(); ++i) {
      if (!e_[i].says(Sense::stored_in)) continue;
      std::size_t k = i + 1;
      while (k < e_.size() && says_nothing(e_[k])) ++k;
      if (k < e_.size() && free_module(k)) part_[k] = LinePart::subject;
    }
  }

  /// `; HU has U0198`: it begins a clause in which a code follows.
  bool leads_a_code(std::size_t i) const {
    const auto ends = [&](std::size_t k) { return first_word(k).gap.find_first_of(",;\t") != std::string::npos; };
    for (std::size_t k = i + 1; ends(i) && k < e_.size() && !ends(k); ++k)
      if (code(k)) return true;
    return false;
  }

  /// A code that stands before accuses this module, so it is named in the code's description.
  bool accused_before(std::size_t i) const {
    if (leads_a_code(i)) return false;
    for (std::size_t k = 0; k < i; ++k) {
      if (!e_[k].is(Kind::code)) continue;
      CodeSeen seen;
      seen.code = e_[k].code;
      const Accused accused = accused_by(network_, nowhere, seen);
      for (const NameHit& hit : e_[i].hits)
        if (std::ranges::find(accused.modules, hit.module) != accused.modules.end()) return true;
    }
    return false;
  }

  /// Words that nothing is known about stand right beside it, with no mark between.
  bool among_unknown(std::size_t i) const {
    for (std::size_t k = i; k > 0 && !parted_before(first_word(k)); --k) {
      if (is_unknown_word(e_[k - 1])) return true;
      if (!says_nothing(e_[k - 1])) break;
    }
    for (std::size_t k = i + 1; k < e_.size() && !parted_before(first_word(k)); ++k) {
      if (is_unknown_word(e_[k])) return true;
      if (!says_nothing(e_[k]) && part_[k] != LinePart::same) break;
    }
    return false;
  }

  /// A name in words right behind a code, in the same column, while a module is being spoken of: the code's text.
  bool runs_on_from_a_code(std::size_t i) const {
    const bool by_id = e_[i].hits.empty() || e_[i].hits[0].kind == NameKind::id;
    if (by_id || (!speaking_ && !module_before(i))) return false;
    for (std::size_t k = i; k > 0; --k) {
      if (first_word(k).ends_cell_before()) return false;
      if (code(k - 1)) return true;
    }
    return false;
  }

  bool line_says_something() const {
    return std::ranges::any_of(e_, [](const LineElement& e) {
      return e.is(Kind::code) || e.is(Kind::own_code) || e.is(Kind::count) || e.says(Sense::misses) ||
             (e.is(Kind::sense) && an_answer(e.sense));
    });
  }

  void mark_the_rest() {
    const bool telling = line_says_something();
    for (std::size_t i = 0; i < e_.size(); ++i) {
      if (!free_module(i)) continue;
      const bool loosely_named = !e_[i].hits.empty() && e_[i].hits[0].kind >= NameKind::role;
      const bool after_code = code_before(i);
      const bool prose = among_unknown(i) && (after_code || loosely_named || !telling);
      const bool accused = after_code && (accused_before(i) || runs_on_from_a_code(i));
      part_[i] = prose || accused ? LinePart::description : LinePart::subject;
    }
  }

  const TextLine& line_;
  std::vector<LineElement> e_;
  std::vector<LinePart> part_;
  const Network& network_;
  bool speaking_;
};

}  // namespace

bool parted_before(const Word& word) {
  return word.ends_cell_before() || word.gap.find_first_of(",:()[]>=!?*") != std::string::npos ||
         word.gap.find(" - ") != std::string::npos || word.gap.find(". ") != std::string::npos ||
         word.gap.find("..") != std::string::npos;
}

bool says_nothing(const LineElement& element) {
  if (!element.is(LineElement::Kind::sense)) return false;
  switch (element.sense) {
    case Sense::noise:
    case Sense::heading:
    case Sense::and_:
    case Sense::of:
    case Sense::codes:
    case Sense::status_byte:
    case Sense::address:
      return true;
    default:
      return false;
  }
}

bool is_unknown_word(const LineElement& element) {
  return element.is(LineElement::Kind::unknown) && std::ranges::any_of(element.text, [](char c) {
           return (c >= 'a' && c <= 'z') || static_cast<unsigned char>(c) >= 0x80;
         });
}

Parts parts_of(const TextLine& line, std::vector<LineElement> elements, const Network& network, bool speaking) {
  fold_locked_gateways(line, network, elements);
  return Sorter(line, std::move(elements), network, speaking).sort();
}

}  // namespace whichwire
