// From a scan to observations: each answer, each code about a module or a bus, each code that a listener does not
// store, each function, as a question about the network with a likelihood for each level. Tested by
// tests/locate/evidence_*.cpp.
#include <algorithm>
#include <map>
#include <set>

#include "locate/likelihoods.hpp"
#include "scan/accused.hpp"

namespace whichwire {
namespace {

/// Below this many volts modules stop talking and codes pile up (common practice, no source). By nominal voltage.
constexpr double low_12_volts = 11.5, low_24_volts = 23.0, least_24_volts = 17.0;
constexpr double low_code_volts = 10.0;  // monitors are shut off below 9.5 to 10 V (published monitor conditions)

std::string_view word_with_state(CodeState state) {
  switch (state) {
    case CodeState::current:
      return " (current)";
    case CodeState::pending:
      return " (pending)";
    case CodeState::history:
      return " (history)";
    default:
      return "";
  }
}

void add_to(std::string& list, const std::string& name) { list += (list.empty() ? "" : ", ") + name; }

class EvidenceMaker {
 public:
  EvidenceMaker(const Effects& effects, const Scan& scan)
      : effects_(effects), network_(effects.network()), scan_(scan) {
    for (const auto& seen : scan.modules) codes_were_read_ = codes_were_read_ || !seen.codes.empty();
  }

  Evidence make() {
    for (const auto& seen : scan_.modules) {
      const auto module = index_of(network_.modules, seen.module);
      if (module == nowhere || !effects_.awake(module, scan_.key)) continue;
      add_answer(module, seen);
      if (seen.answer != Answer::yes && seen.answer != Answer::refused) continue;
      accused_now_.clear();
      for (const auto& code : seen.codes) add_code(module, code);
      if (seen.answer == Answer::yes && codes_were_read_) add_absent_codes(module);
    }
    for (const auto& [module, watchers] : missed_by_) {
      add({Question::About::fitted, module, nowhere}, "watched-for",
          id(module) + " is missed by " + watchers + ", which a vehicle built without it would not store");
    }
    for (const auto& seen : scan_.functions) add_function(seen);
    add_doubts();
    return std::move(evidence_);
  }

 private:
  const std::string& id(std::size_t module) const { return network_.modules[module].id; }

  bool low_battery() const {
    if (!scan_.battery_volts) return false;
    const double volts = *scan_.battery_volts;
    return volts < (volts < least_24_volts ? low_12_volts : low_24_volts);
  }

  void add(const Question& question, std::string_view seen, std::string text) {
    if (!effects_.answerable(question)) return;
    const auto& likelihood = log_likelihood_of(seen);
    const double best = *std::max_element(likelihood.begin(), likelihood.end());
    evidence_.observations.push_back({question, likelihood, std::move(text), best > likelihood.front()});
  }

  void add_answer(std::size_t module, const ModuleSeen& seen) {
    const Question question{Question::About::answers, module, nowhere};
    switch (seen.answer) {
      case Answer::yes:
        add(question, "answer-yes", id(module) + " answers");
        break;
      case Answer::refused:
        add(question, "answer-yes", id(module) + " refuses, so it is alive");
        break;
      case Answer::no:
      case Answer::not_fitted:
        if (network_.modules[module].locked) {
          evidence_.doubts.push_back(id(module) + " lies behind a locked gateway: not reached is not silent");
          break;
        }
        add(question, low_battery() ? "answer-no-low-battery" : "answer-no",
            id(module) + (seen.answer == Answer::no ? " does not answer" : " is shown as not fitted"));
        break;
      case Answer::not_reachable:
      case Answer::not_polled:
        break;
    }
  }

  bool listens(std::size_t reporter, std::size_t to) const {
    const auto& list = network_.modules[reporter].listens_to;
    return list && std::count(list->begin(), list->end(), to) != 0;
  }

  static bool is_history(const CodeSeen& code) { return code.state == CodeState::history; }

  /// The row of the likelihood table for a code of this sort in the state it was seen in.
  static std::string row_of(std::string_view sort, const CodeSeen& code) {
    const bool unknown = code.state == CodeState::unknown;
    return std::string(sort) + (is_history(code) ? "-history" : unknown ? "-unknown" : "-current");
  }

  void add_code(std::size_t reporter, const CodeSeen& code) {
    if (code.state == CodeState::not_tested) return;  // no verdict at all
    const auto accused = accused_of(reporter, code);
    const std::string name = code.written.empty() ? "that it" : code.written;
    const std::string stores = id(reporter) + " stores " + name + std::string(word_with_state(code.state));
    switch (accused.kind) {
      case CodeKind::lost_communication:
        if (const auto subject = single(reporter, accused, code)) add_lost(reporter, *subject, code, stores);
        break;
      case CodeKind::invalid_data:
        if (const auto subject = single(reporter, accused, code); subject && !is_history(code)) {
          add({Question::About::hears, reporter, *subject}, "invalid-data",
              stores + ": bad content from " + id(*subject) + ", so it talks");
        }
        break;
      case CodeKind::bus_fault:
      case CodeKind::bus_off:
        add_bus_code(reporter, accused, code, stores);
        break;
      default:
        break;
    }
  }

  Accused accused_of(std::size_t reporter, const CodeSeen& code) const {
    if (code.misses.empty()) return accused_by(network_, reporter, code);
    Accused accused;
    accused.kind = CodeKind::lost_communication;
    const auto module = index_of(network_.modules, code.misses);
    if (module != nowhere) accused.modules.push_back(module);
    for (std::size_t m = 0; module == nowhere && m < network_.modules.size(); ++m) {
      const auto& roles = network_.modules[m].roles;
      if (std::count(roles.begin(), roles.end(), code.misses) != 0) accused.modules.push_back(m);
    }
    return accused;
  }

  /// The one module that a code means. Two roles may live in one module; one role in two is a doubt.
  std::optional<std::size_t> single(std::size_t reporter, const Accused& accused, const CodeSeen& code) {
    auto modules = accused.modules;
    std::erase(modules, reporter);
    if (modules.size() == 1) return modules.front();
    if (modules.size() > 1) {
      evidence_.doubts.push_back(code.written + " at " + id(reporter) + " may mean " + id(modules[0]) + " or " +
                                 id(modules[1]) + " and was not used");
    }
    return std::nullopt;
  }

  bool battery_event(const CodeSeen& code) const { return low_battery() || code.volts.value_or(12) < low_code_volts; }

  void add_lost(std::size_t reporter, std::size_t subject, const CodeSeen& code, const std::string& stores) {
    const Question question{Question::About::hears, reporter, subject};
    if (!accused_now_.insert(subject).second) return;  // a second code about the same module says nothing new
    const std::string text = stores + ": misses " + id(subject);
    if (battery_event(code)) {
      add(question, "event-code", text + ", at low supply");
    } else if (code.code && meaning_of(*code.code).about_configuration) {
      add(question, "configuration", text + ", which points at its configuration");
    } else {
      add(question, row_of(listens(reporter, subject) ? "lost" : "unlisted", code), text);
      if (network_.modules[subject].optional) add_to(missed_by_[subject], id(reporter));
    }
  }

  /// The bus of the reporter that the code names, or its only one.
  std::size_t bus_meant(std::size_t reporter, const CodeSeen& code) const {
    const auto subject = code.code ? meaning_of(*code.code).subject : std::string();
    std::vector<std::size_t> own, named;
    for (std::size_t b = 0; b < network_.buses.size(); ++b) {
      if (!effects_.answerable({Question::About::bus, reporter, b})) continue;
      own.push_back(b);
      const auto& called = network_.buses[b].called;
      if (std::count(called.begin(), called.end(), subject) != 0) named.push_back(b);
    }
    if (named.size() == 1) return named.front();
    return own.size() == 1 ? own.front() : nowhere;
  }

  void add_bus_code(std::size_t reporter, const Accused& accused, const CodeSeen& code, const std::string& stores) {
    const auto bus = accused.bus != nowhere ? accused.bus : bus_meant(reporter, code);
    if (bus == nowhere) {
      evidence_.doubts.push_back(code.written + " at " + id(reporter) +
                                 " does not tell which bus it means and was not used");
      return;
    }
    add({Question::About::bus, reporter, bus}, row_of("bus", code),
        stores + ": " + network_.buses[bus].id + " disturbed where it is");
  }

  void add_absent_codes(std::size_t reporter) {
    const auto& list = network_.modules[reporter].listens_to;
    if (!list) return;  // not known whom it would miss
    for (const auto subject : *list) {
      if (accused_now_.count(subject) != 0 || !effects_.awake(subject, scan_.key)) continue;
      add({Question::About::hears, reporter, subject}, "lost-none",
          id(reporter) + " stores no code about " + id(subject));
    }
  }

  void add_function(const FunctionSeen& seen) {
    const auto function = index_of(network_.functions, seen.function);
    if (function == nowhere) return;
    const auto& what = network_.functions[function];
    const std::string name = what.name.empty() ? what.id : what.name;
    add({Question::About::function, function, nowhere}, seen.works ? "function-works" : "function-fails",
        name + (seen.works ? ": works" : ": does not work"));
  }

  /// Modules that the network does not have answer, and such as it always has are not there.
  void doubt_trim() {
    std::string more, fewer;
    for (const auto& seen : scan_.modules) {
      const auto module = index_of(network_.modules, seen.module);
      const bool stranger = module == nowhere && (seen.answer == Answer::yes || seen.answer == Answer::refused);
      const bool lacking = module != nowhere && seen.answer == Answer::not_fitted && !network_.modules[module].optional;
      if (stranger) add_to(more, seen.module);
      if (lacking) add_to(fewer, id(module));
    }
    if (more.empty() || fewer.empty()) return;
    evidence_.other_trim = true;
    evidence_.doubts.push_back("see first whether this network is that of the vehicle's trim: it does not have " +
                               more + ", which answers, and always has " + fewer + ", shown as not fitted");
  }

  void add_doubts() {
    if (!scan_.key_stated)
      evidence_.doubts.insert(evidence_.doubts.begin(), "the scan does not state the key; taken as run");
    if (low_battery()) {
      evidence_.doubts.insert(evidence_.doubts.begin(),
                              "the battery is low: charge it and scan again before anything is condemned");
    }
    doubt_trim();
    if (!codes_were_read_)
      evidence_.doubts.emplace_back("the scan shows no codes at all, so no code was taken as missing");
    std::string asleep;
    for (const auto& seen : scan_.modules) {
      const auto module = index_of(network_.modules, seen.module);
      if (module == nowhere || effects_.awake(module, scan_.key)) continue;
      add_to(asleep, id(module));
    }
    if (!asleep.empty()) evidence_.doubts.push_back("not live with the key so, and left out: " + asleep);
  }

  const Effects& effects_;
  const Network& network_;
  const Scan& scan_;
  bool codes_were_read_ = false;
  std::set<std::size_t> accused_now_;
  std::map<std::size_t, std::string> missed_by_;  ///< by optional module
  Evidence evidence_;
};

}  // namespace

Evidence evidence_of(const Effects& effects, const Scan& scan) { return EvidenceMaker(effects, scan).make(); }

}  // namespace whichwire
