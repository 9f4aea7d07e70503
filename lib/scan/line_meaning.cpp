#include "scan/line_meaning.hpp"

#include <algorithm>
#include <array>

#include "network/utf8.hpp"
#include "scan/accused.hpp"
#include "scan/stranger.hpp"

namespace whichwire {

namespace {

using Kind = Element::Kind;

std::optional<CodeState> state_said(const Element& element, bool of_code) {
  if (!element.is(Kind::sense)) return std::nullopt;
  switch (element.sense) {
    case Sense::current:
      return CodeState::current;
    case Sense::pending:
      return CodeState::pending;
    case Sense::history:
      return CodeState::history;
    case Sense::unknown_state:
      return CodeState::unknown;
    case Sense::not_tested:
      return CodeState::not_tested;
    case Sense::present:
      return of_code ? std::optional(CodeState::current) : std::nullopt;
    case Sense::not_present:
      return of_code ? std::optional(CodeState::history) : std::nullopt;
    default:
      return std::nullopt;
  }
}

std::optional<Answer> answer_said(const Element& element) {
  if (element.is(Kind::count)) return Answer::yes;
  if (!element.is(Kind::sense)) return std::nullopt;
  switch (element.sense) {
    case Sense::yes:
    case Sense::weak_yes:
    case Sense::no_codes:
    case Sense::present:
    case Sense::current:
      return Answer::yes;
    case Sense::no:
    case Sense::missing:
    case Sense::time_out:
    case Sense::messages_missing:
      return Answer::no;
    case Sense::refused:
      return Answer::refused;
    case Sense::not_fitted:
    case Sense::not_present:
      return Answer::not_fitted;
    case Sense::not_reachable:
      return Answer::not_reachable;
    case Sense::not_polled:
    case Sense::not_tested:
      return Answer::not_polled;
    default:
      return std::nullopt;
  }
}

bool weak(const Element& element) {
  return element.says(Sense::weak_yes) || element.says(Sense::current) || element.says(Sense::present);
}

/// How certain the sooner of two states is to be meant when both are said of one code.
int weight(CodeState state) {
  switch (state) {
    case CodeState::current:
      return 4;
    case CodeState::pending:
      return 3;
    case CodeState::history:
      return 2;
    case CodeState::not_tested:
      return 1;
    case CodeState::unknown:
      return 0;
  }
  return 0;
}

class Reader {
 public:
  Reader(const TextLine& line, const Parts& parts, const Network& network)
      : line_(line), e_(parts.elements), part_(parts.parts), network_(network), used_(e_.size(), false) {}

  LineMeaning read() {
    if (!line_.words.empty()) meaning_.words = line_.slice(0, line_.words.size() - 1);
    find_subjects();
    find_codes();
    if (subjects_.empty() && !own_facts()) find_stranger();
    assign_answers();
    assign_codes();
    assign_states();
    assign_bytes_and_volts();
    assign_missed();
    assign_texts();
    many_and_functions();
    lone_words();
    leftovers();
    meaning_.telling = telling();
    return std::move(meaning_);
  }

 private:
  struct Subject {
    std::size_t element;  ///< where it stands
    std::size_t report;
  };
  struct CodePlace {
    std::size_t element;
    std::size_t report = nowhere, code = nowhere;
    CodeSeen seen;
    bool stated = false;
  };

  const Word& word(std::size_t i) const { return line_.words[e_[i].first]; }
  std::string raw(std::size_t i) const { return std::string(line_.slice(e_[i].first, e_[i].last)); }
  bool is_code(std::size_t i) const { return e_[i].is(Kind::code) || e_[i].is(Kind::own_code); }
  bool code_before(std::size_t i) const { return !codes_.empty() && codes_.front().element < i; }

  void find_subjects() {
    for (std::size_t i = 0; i < e_.size(); ++i) {
      if (!e_[i].is(Kind::module)) continue;
      used_[i] = part_[named_first(i)] == Part::subject;
      if (part_[i] != Part::subject) continue;
      Report report;
      Who& who = report.who;
      who.name = raw(i);
      for (const NameHit& hit : e_[i].hits) who.may.push_back(hit.module);
      who.kind = who.may.empty() ? Who::Kind::stranger : who.may.size() == 1 ? Who::Kind::module : Who::Kind::ambiguous;
      if (who.kind == Who::Kind::module) who.module = who.may[0];
      subjects_.push_back({i, meaning_.reports.size()});
      meaning_.reports.push_back(std::move(report));
    }
  }

  /// The element that names the same module first.
  std::size_t named_first(std::size_t i) const {
    while (part_[i] == Part::same) {
      do --i;
      while (!e_[i].is(Kind::module));
    }
    return i;
  }

  void find_codes() {
    for (std::size_t i = 0; i < e_.size(); ++i) {
      if (!is_code(i)) continue;
      used_[i] = true;
      CodePlace place{i, nowhere, nowhere, {}, false};
      if (e_[i].is(Kind::code)) place.seen.code = e_[i].code;
      place.seen.written = e_[i].is(Kind::code) ? text_of(e_[i].code) : e_[i].text;
      codes_.push_back(std::move(place));
    }
  }

  void find_stranger() {
    bool answered = false;
    for (std::size_t i = 0; i < e_.size(); ++i) answered = answered || (answer_said(e_[i]) && !weak(e_[i]));
    const auto stranger = stranger_in(line_, e_, !codes_.empty(), answered);
    if (!stranger) return;
    Report report;
    report.who.kind = Who::Kind::stranger;
    report.who.name = std::string(line_.slice(e_[stranger->first].first, e_[stranger->last].last));
    for (std::size_t i = stranger->first; i <= stranger->last; ++i) used_[i] = true;
    subjects_.push_back({stranger->first, meaning_.reports.size()});
    meaning_.reports.push_back(std::move(report));
  }

  /// The report of whoever was spoken of before this line.
  std::size_t speaking() {
    for (std::size_t i = 0; i < meaning_.reports.size(); ++i)
      if (meaning_.reports[i].who.kind == Who::Kind::speaking) return i;
    meaning_.reports.push_back({});
    return meaning_.reports.size() - 1;
  }

  std::size_t subject_before(std::size_t i) const {
    std::size_t found = nowhere;
    for (const Subject& subject : subjects_)
      if (subject.element < i) found = subject.report;
    return found;
  }
  std::size_t subject_after(std::size_t i) const {
    for (const Subject& subject : subjects_)
      if (subject.element > i) return subject.report;
    return nowhere;
  }

  /// Whether a code of this line belongs to the subject standing at element `i`, by the order of the line.
  bool has_codes(const Subject& subject) const {
    if (codes_.empty()) return false;
    if (codes_lead())
      return std::ranges::any_of(codes_, [&](const CodePlace& c) { return holder(c.element) == subject.report; });
    return std::ranges::any_of(codes_, [&](const CodePlace& c) { return subject_before(c.element) == subject.report; });
  }
  bool codes_lead() const {
    return !subjects_.empty() && !codes_.empty() && codes_.front().element < subjects_.front().element;
  }
  /// The report that a code at element `i` belongs to; nowhere: whoever was spoken of before.
  std::size_t holder(std::size_t i) const {
    if (!codes_lead()) return subject_before(i);
    const std::size_t after = subject_after(i);
    return after != nowhere ? after : subject_before(i);
  }

  /// A silent module has no codes, so such words beside a code are words of its text; and an answer does not stand
  /// among the words of a text.
  bool part_of_a_text(std::size_t i) const {
    if (!code_before(i)) return false;
    const std::size_t whose = holder_of_answer(i);
    const auto subject = std::ranges::find(subjects_, whose, &Subject::report);
    const bool coded = whose == nowhere || (subject != subjects_.end() && has_codes(*subject));
    const auto answer = answer_said(e_[i]);
    if (answer == Answer::yes && !e_[i].is(Kind::count))
      return !parted_before(word(i)) && !is_code(i - 1) && part_[i - 1] != Part::subject;
    return coded && answer != Answer::refused;
  }
  std::size_t holder_of_answer(std::size_t i) const { return subject_before(i); }

  void set_answer(std::size_t report, const Element& element, Answer answer) {
    std::optional<Answer>& said = meaning_.reports[report].answer;
    if (said == Answer::not_fitted && answer == Answer::no) return;  // both say silence; the first says why
    if (!said || !weak(element)) said = answer;
  }

  void assign_answers() {
    std::vector<std::size_t> events;
    for (std::size_t i = 0; i < e_.size(); ++i) {
      const auto answer = answer_said(e_[i]);
      const bool of_code = code_before(i) && state_said(e_[i], true).has_value();
      const bool state_only = state_said(e_[i], true) && (!codes_.empty() || subjects_.empty());
      const bool spoken_of_missed =
          e_[i].says(Sense::missing) || e_[i].says(Sense::messages_missing) || e_[i].says(Sense::time_out);
      const bool spent = spoken_of_missed && missed_named();
      if (!answer || of_code || state_only || spent || part_of_a_text(i)) continue;
      if (e_[i].says(Sense::messages_missing)) continue;
      events.push_back(i);
    }
    if (events.empty()) return;
    const bool lead = !subjects_.empty() && events.front() < subjects_.front().element;
    if (subjects_.empty()) {
      meaning_.answer = answer_said(e_[events.back()]);
      meaning_.answer_firm = !weak(e_[events.back()]);
      meaning_.answer_by_codes = e_[events.back()].is(Kind::count) || e_[events.back()].says(Sense::no_codes);
      for (const std::size_t i : events) used_[i] = true;
      return;
    }
    lead ? answers_first(events) : answers_last(events);
  }

  bool missed_named() const {
    return std::ranges::find(part_, Part::missed) != part_.end() ||
           std::ranges::find(part_, Part::sender) != part_.end();
  }

  /// `Not fitted: TCM, HVAC`.
  void answers_first(const std::vector<std::size_t>& events) {
    for (const Subject& subject : subjects_) {
      for (const std::size_t i : events) {
        if (i > subject.element) break;
        meaning_.reports[subject.report].answer = answer_said(e_[i]);
        used_[i] = true;
      }
    }
    for (const std::size_t i : events)
      if (!used_[i] && i > subjects_.back().element) answer_nearest(i);
  }

  void answer_nearest(std::size_t i) {
    set_answer(subject_before(i), e_[i], *answer_said(e_[i]));
    used_[i] = true;
  }

  /// `ECM, TCM: no response`, `ECM ok, TCM silent`.
  void answers_last(const std::vector<std::size_t>& events) {
    std::size_t from = 0;
    for (const std::size_t i : events) {
      used_[i] = true;
      bool fresh = false;
      for (const Subject& subject : subjects_) {
        if (subject.element < from || subject.element > i || closed_by_codes(subject, i)) continue;
        set_answer(subject.report, e_[i], *answer_said(e_[i]));
        fresh = true;
      }
      if (!fresh) answer_nearest(i);
      from = i;
    }
  }

  /// Codes and a further subject stand between the subject and the answer, so the answer is the further one's.
  bool closed_by_codes(const Subject& subject, std::size_t answer) const {
    return std::ranges::any_of(subjects_, [&](const Subject& other) {
      if (other.element <= subject.element || other.element > answer) return false;
      return std::ranges::any_of(
          codes_, [&](const CodePlace& c) { return c.element > subject.element && c.element < other.element; });
    });
  }

  void assign_codes() {
    for (CodePlace& place : codes_) {
      place.report = holder(place.element);
      if (place.report == nowhere) place.report = speaking();
      Report& report = meaning_.reports[place.report];
      if (!report.answer && report.who.kind != Who::Kind::speaking) report.answer = Answer::yes;
      place.code = report.codes.size();
      report.codes.push_back(place.seen);
    }
  }

  CodeSeen& seen(const CodePlace& place) { return meaning_.reports[place.report].codes[place.code]; }

  CodePlace* code_near(std::size_t i) {
    CodePlace* near = nullptr;
    for (CodePlace& place : codes_)
      if (place.element < i || near == nullptr) near = &place;
    return near;
  }

  void assign_states() {
    if (codes_.empty()) return;
    std::vector<std::size_t> states;
    for (std::size_t i = 0; i < e_.size(); ++i)
      if (!used_[i] && state_said(e_[i], code_before(i))) states.push_back(i);
    if (states.empty()) return;
    const bool lead = states.front() < codes_.front().element;
    std::size_t from = 0;
    for (std::size_t k = 0; k < states.size(); ++k) {
      const std::size_t i = states[k];
      used_[i] = true;
      const CodeState state = *state_said(e_[i], code_before(i));
      const std::size_t until = k + 1 < states.size() ? states[k + 1] : e_.size();
      bool fresh = false;
      for (CodePlace& place : codes_) {
        const bool meant =
            lead ? place.element > i && place.element < until : place.element >= from && place.element < i;
        if (!meant) continue;
        put_state(place, state);
        fresh = true;
      }
      if (!fresh && !lead) put_state(*code_near(i), state);
      from = i;
    }
  }

  void put_state(CodePlace& place, CodeState state) {
    CodeState& now = seen(place).state;
    if (!place.stated || weight(state) > weight(now)) now = state;
    place.stated = true;
  }

  void assign_bytes_and_volts() {
    for (std::size_t i = 0; i < e_.size(); ++i) {
      if (e_[i].is(Kind::status)) {
        used_[i] = true;
        const auto byte = static_cast<std::uint8_t>(e_[i].value);
        if (codes_.empty()) {
          meaning_.status = byte;
          continue;
        }
        CodePlace& place = *code_near(i);
        seen(place).status = byte;
        if (!place.stated) seen(place).state = state_of_status(byte);
      } else if (e_[i].is(Kind::volts)) {
        volts(i);
      }
    }
  }

  bool battery_named() const {
    return std::ranges::any_of(e_, [](const Element& e) { return e.says(Sense::battery); });
  }

  /// A supply in a snapshot stands in a column or brackets of its own or behind a word for it; `5 V` inside a text is a
  /// part's name.
  void volts(std::size_t i) {
    const bool named = i > 0 && (e_[i - 1].says(Sense::battery) || e_[i - 1].says(Sense::volts_at) ||
                                 e_[i - 1].says(Sense::stored_in));
    const bool apart = i == 0 || parted_before(word(i)) || word(i).after('@');
    if (!codes_.empty() && (named || apart)) {
      used_[i] = true;
      seen(*code_near(i)).volts = e_[i].value;
    } else if (codes_.empty()) {
      used_[i] = true;
      if (battery_named())
        meaning_.battery = e_[i].value;
      else
        meaning_.volts = e_[i].value;
    }
  }

  void assign_missed() {
    for (std::size_t i = 0; i < e_.size(); ++i) {
      const bool missed = part_[i] == Part::missed;
      if ((!missed && part_[i] != Part::sender) || e_[i].hits.size() != 1) continue;
      const std::size_t module = e_[i].hits[0].module;
      if (codes_.empty())
        sentence(i, missed ? module : nowhere);
      else if (missed)
        missed_by_code(*code_near(i), module);
    }
  }

  /// The code's own meaning comes first; where it has none the sentence beside it tells who is missed.
  void missed_by_code(const CodePlace& place, std::size_t module) {
    CodeSeen& code = seen(place);
    const Accused accused = accused_by(network_, meaning_.reports[place.report].who.module, code);
    if (accused.kind == CodeKind::other) code.misses = network_.modules[module].id;
  }

  /// A sentence without a code, about the module at element `i`.
  void sentence(std::size_t i, std::size_t missed) {
    for (std::size_t k = 0; k < e_.size(); ++k)
      if (part_[k] != Part::subject) used_[k] = true;
    std::size_t reporter = subject_before(i);
    if (reporter == nowhere) reporter = subject_after(i);
    if (reporter == nowhere) {
      meaning_.missed.push_back(missed);
      return;
    }
    CodeSeen said;
    if (missed != nowhere) said.misses = network_.modules[missed].id;
    said.text = std::string(meaning_.words);
    Report& report = meaning_.reports[reporter];
    report.codes.push_back(std::move(said));
    if (!report.answer) report.answer = Answer::yes;
  }

  /// Whether the element may be a word of a code's text.
  bool text_like(std::size_t i) const {
    if (used_[i]) return false;
    switch (e_[i].kind) {
      case Kind::unknown:
      case Kind::number:
      case Kind::bus:
      case Kind::function:
      case Kind::volts:
      case Kind::module:
        return true;
      case Kind::sense:
        return true;
      default:
        return false;
    }
  }
  bool worth_keeping(std::size_t i) const {
    return is_unknown_word(e_[i]) || e_[i].is(Kind::module) ||
           (e_[i].is(Kind::sense) && !says_nothing(e_[i]) && !e_[i].says(Sense::stored_in));
  }

  void assign_texts() {
    for (std::size_t k = 0; k < codes_.size(); ++k) {
      const std::size_t end = k + 1 < codes_.size() ? codes_[k + 1].element : e_.size();
      take_text(codes_[k], codes_[k].element + 1, end);
    }
    if (codes_.empty() || !seen(codes_.front()).text.empty()) return;
    const std::size_t first = codes_.front().element;
    std::size_t from = 0;
    for (const Subject& subject : subjects_)
      if (subject.element < first) from = std::max(from, subject.element + 1);
    take_text(codes_.front(), from, first);
  }

  /// The words between two elements that belong to no other report, as the code's text.
  void take_text(CodePlace& place, std::size_t from, std::size_t end) {
    std::string text;
    for (std::size_t i = from; i < end;) {
      std::size_t last = i;
      bool keep = false;
      while (last < end && text_like(last)) keep = worth_keeping(last++) || keep;
      if (keep) {
        while (last > i + 1 && e_[last - 1].is(Kind::sense) && says_nothing(e_[last - 1]) &&
               word(last - 1).ends_cell_before())
          --last;
        if (!text.empty()) text += ' ';
        text += line_.closed_slice(e_[i].first, e_[last - 1].last);
        for (std::size_t n = i; n < last; ++n) used_[n] = true;
      }
      i = std::max(last, i + 1);
    }
    seen(place).text = text;
  }

  void many_and_functions() {
    const auto at =
        std::ranges::find_if(e_, [](const Element& e) { return e.says(Sense::all_others) || e.says(Sense::all_of); });
    const auto bus = std::ranges::find(e_, Kind::bus, &Element::kind);
    if (at != e_.end() && meaning_.answer && subjects_.empty() && codes_.empty()) {
      meaning_.many = LineMeaning::Many{*meaning_.answer, bus == e_.end() ? nowhere : bus->index};
      meaning_.answer.reset();
      use(at);
    }
    if (bus != e_.end()) meaning_.bus = bus->index;
    for (std::size_t i = 0; i < e_.size() && codes_.empty(); ++i) used_[i] = used_[i] || e_[i].is(Kind::bus);
    const auto function = std::ranges::find(e_, Kind::function, &Element::kind);
    if (function == e_.end() || !subjects_.empty() || !codes_.empty()) return;
    for (auto it = e_.begin(); it != e_.end(); ++it) {
      const bool works =
          it->says(Sense::works) || it->says(Sense::weak_yes) || it->says(Sense::bare_yes) || it->says(Sense::yes);
      const bool fails = it->says(Sense::fails) || it->says(Sense::no) || it->says(Sense::bare_no);
      if (!works && !fails) continue;
      meaning_.function = FunctionSeen{network_.functions[function->index].id, works};
      meaning_.answer.reset();
      use(function);
      use(it);
    }
  }

  void use(std::vector<Element>::const_iterator it) { used_[static_cast<std::size_t>(it - e_.begin())] = true; }

  /// Battery, key, unit and time: told by the line itself, of nobody.
  bool own_facts() {
    for (std::size_t i = 0; i < e_.size(); ++i) {
      if (!e_[i].is(Kind::sense) || !codes_.empty()) continue;
      switch (e_[i].sense) {
        case Sense::key_run:
          key(i, KeyState::run);
          break;
        case Sense::key_off:
          key(i, KeyState::off);
          break;
        case Sense::key_accessory:
          key(i, KeyState::accessory);
          break;
        case Sense::key_start:
          key(i, KeyState::start);
          break;
        case Sense::own_battery:
          meaning_.own_battery = used_[i] = true;
          break;
        case Sense::battery:
          battery(i);
          break;
        case Sense::page:
          page(i);
          break;
        default:
          break;
      }
    }
    stamps();
    unit();
    return meaning_.key || meaning_.battery || meaning_.own_battery || !meaning_.unit.empty() ||
           !meaning_.taken.empty();
  }

  void key(std::size_t i, KeyState state) {
    meaning_.key = state;
    used_[i] = true;
  }

  void battery(std::size_t i) {
    used_[i] = true;
    for (std::size_t k = i + 1; k < e_.size(); ++k) {
      if (!e_[k].is(Kind::number) && !e_[k].is(Kind::volts)) continue;
      const auto value = e_[k].is(Kind::volts) ? std::optional(e_[k].value) : decimal(word(k).text);
      if (!value || *value > 60 || (e_[k].is(Kind::number) && *value < 5)) continue;
      meaning_.battery = value;
      used_[k] = true;
      return;
    }
    for (std::size_t k = 0; k < i; ++k)
      if (e_[k].is(Kind::volts)) meaning_.battery = e_[k].value;
  }

  void page(std::size_t i) {
    meaning_.page = used_[i] = true;
    for (std::size_t k = i + 1; k < e_.size() && (e_[k].is(Kind::number) || e_[k].says(Sense::of)); ++k)
      used_[k] = true;
  }

  void stamps() {
    std::size_t first = nowhere;
    std::size_t last = nowhere;
    bool printed = false;
    for (std::size_t i = 0; i < e_.size(); ++i) {
      printed = printed || e_[i].says(Sense::printed);
      if (!e_[i].is(Kind::stamp)) continue;
      used_[i] = true;
      if (first == nowhere) first = i;
      last = i;
    }
    if (first == nowhere) return;
    meaning_.stamp = true;
    if (printed || !codes_.empty() || !subjects_.empty() || meaning_.page) return;
    for (std::size_t i = first; i <= last; ++i)
      if (e_[i].is(Kind::stamp)) meaning_.taken += (meaning_.taken.empty() ? "" : " ") + raw(i);
  }

  /// `Unit: V-117`: the rest of the column is the name, whatever it looks like.
  void unit() {
    for (std::size_t i = 0; i + 1 < e_.size(); ++i) {
      if (!e_[i].says(Sense::unit) || (i > 0 && !parted_before(word(i)))) continue;
      const Word& next = word(i + 1);
      if (!next.after(':') && !next.after('=') && !next.after('\t')) continue;
      std::size_t last = i + 1;
      while (last + 1 < e_.size() && !parted_before(word(last + 1))) ++last;
      if (e_[i + 1].is(Kind::sense) && !says_nothing(e_[i + 1])) continue;
      meaning_.unit = std::string(line_.slice(e_[i + 1].first, e_[last].last));
      for (std::size_t k = i; k <= last; ++k) used_[k] = true;
      return;
    }
  }

  /// A line that says one thing of nobody: an answer or a state for what stands around it, or a heading.
  void lone_words() {
    bool unknown = false;
    bool heading = false;
    for (std::size_t i = 0; i < e_.size(); ++i) {
      unknown = unknown || (!used_[i] && (is_unknown_word(e_[i]) || e_[i].is(Kind::module)));
      heading = heading || (says_nothing(e_[i]) && !e_[i].says(Sense::noise)) || names_kind_of_column(e_[i]);
    }
    if (subjects_.empty() && codes_.empty() && !unknown) {
      for (std::size_t i = 0; i < e_.size(); ++i) {
        const auto state = state_said(e_[i], true);
        if (!state || e_[i].says(Sense::present) || e_[i].says(Sense::not_present)) continue;
        meaning_.state = state;
        used_[i] = true;
      }
    }
    meaning_.heading = !unknown && (heading || meaning_.bus != nowhere);
    if (meaning_.heading && subjects_.empty() && codes_.empty())
      for (std::size_t i = 0; i < e_.size(); ++i) used_[i] = used_[i] || e_[i].is(Kind::sense);
  }

  static bool names_kind_of_column(const Element& e) {
    return e.says(Sense::spn) || e.says(Sense::fmi) || e.says(Sense::failure_type) || e.says(Sense::taken) ||
           e.says(Sense::unit) || e.says(Sense::printed);
  }

  void leftovers() {
    std::size_t from = 0;
    while (from < e_.size()) {
      const auto left = [&](std::size_t i) {
        const bool enumerator = i == 0 && e_[i].is(Kind::number);
        return !used_[i] && !enumerator && !(e_[i].is(Kind::sense) && (says_nothing(e_[i]) || harmless(e_[i])));
      };
      if (!left(from)) {
        ++from;
        continue;
      }
      std::size_t last = from;
      while (last + 1 < e_.size() && left(last + 1)) ++last;
      if (!meaning_.leftover.empty()) meaning_.leftover += " … ";
      meaning_.leftover += std::string(line_.slice(e_[from].first, e_[last].last));
      from = last + 1;
    }
  }

  static bool harmless(const Element& e) {
    return e.says(Sense::stored_in) || e.says(Sense::fitted) || e.says(Sense::volts_at) || e.says(Sense::taken) ||
           e.says(Sense::printed) || e.says(Sense::unit);
  }

  bool telling() const {
    return !meaning_.reports.empty() || meaning_.answer || meaning_.state || meaning_.status || meaning_.volts ||
           !meaning_.missed.empty() || meaning_.battery || meaning_.key || meaning_.own_battery ||
           !meaning_.unit.empty() || !meaning_.taken.empty() || meaning_.function || meaning_.many;
  }

  const TextLine& line_;
  const std::vector<Element>& e_;
  const std::vector<Part>& part_;
  const Network& network_;
  std::vector<bool> used_;
  std::vector<Subject> subjects_;
  std::vector<CodePlace> codes_;
  LineMeaning meaning_;
};

}  // namespace

LineMeaning meaning_of_line(const TextLine& line, const Parts& parts, const Network& network) {
  return Reader(line, parts, network).read();
}

}  // namespace whichwire
