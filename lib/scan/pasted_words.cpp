#include "scan/pasted_words.hpp"

#include <sstream>

#include "network/utf8.hpp"
#include "scan/accused.hpp"
#include "scan/roles.hpp"

namespace whichwire {

namespace {

std::string listed(const std::vector<std::size_t>& modules, const Network& network) {
  std::string text;
  for (std::size_t i = 0; i < modules.size(); ++i) {
    if (i > 0) text += i + 1 == modules.size() ? " or " : ", ";
    text += network.modules[modules[i]].id;
  }
  return text;
}

std::string plain(double number) {
  std::ostringstream out;
  out << number;
  return out.str();
}

/// Whom the code means, in the modules of the network or by its role.
std::string whom(const CodeSeen& seen, std::size_t reporter, const Network& network, CodeKind& kind) {
  const Accused accused = accused_by(network, reporter, seen);
  kind = accused.kind;
  if (accused.bus != nowhere) return network.buses[accused.bus].id;
  if (!accused.modules.empty()) return listed(accused.modules, network);
  if (!seen.code) return {};
  const CodeMeaning meaning = meaning_of(*seen.code);
  return meaning.subject.empty() ? std::string() : plain_role(meaning.subject, meaning.qualifier);
}

std::string meant(const CodeSeen& seen, std::size_t reporter, const Network& network) {
  CodeKind kind = CodeKind::other;
  const std::string who = whom(seen, reporter, network, kind);
  if (!seen.misses.empty()) return "misses " + seen.misses;
  switch (kind) {
    case CodeKind::lost_communication:
      return who.empty() ? "misses a module" : "misses " + who;
    case CodeKind::invalid_data:
      return who.empty() ? "bad data" : "bad data from " + who;
    case CodeKind::software_incompatible:
      return who.empty() ? "software" : "software of " + who;
    case CodeKind::bus_fault:
      return "bus trouble";
    case CodeKind::bus_off:
      return "left the bus";
    case CodeKind::self:
      return "about itself";
    case CodeKind::other:
      return {};
  }
  return {};
}

}  // namespace

std::string_view said_of(Answer answer) {
  switch (answer) {
    case Answer::yes:
      return "answers";
    case Answer::no:
      return "no answer";
    case Answer::refused:
      return "refuses";
    case Answer::not_fitted:
      return "not fitted";
    case Answer::not_reachable:
      return "not reachable";
    case Answer::not_polled:
      return "not polled";
  }
  return {};
}

std::string kept(std::string_view text, std::size_t most) {
  constexpr std::string_view blanks = " \t\r\n";
  const std::size_t from = text.find_first_not_of(blanks);
  if (from == std::string_view::npos) return {};
  text = text.substr(from, text.find_last_not_of(blanks) - from + 1);
  std::string out;
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t length = utf8::at(text, at).length;
    if (out.size() + length > most) return out + "…";
    out += text[at] == '\t' ? std::string(" ") : printable(text.substr(at, length));
    at += length;
  }
  return out;
}

std::string name_of(const Who& who, const Network& network) {
  if (who.kind == Who::Kind::module) return network.modules[who.module].id;
  return kept(who.name, 100);
}

std::string words_for(const CodeSeen& seen, std::size_t reporter, const Network& network) {
  std::string text = seen.written;
  if (text.empty()) text = seen.misses.empty() ? "a sentence" : "misses " + seen.misses;
  if (seen.state != CodeState::unknown) text += " " + std::string(word_for(seen.state));
  if (seen.volts) text += " at " + plain(*seen.volts) + " V";
  const std::string more = seen.written.empty() ? std::string() : meant(seen, reporter, network);
  return more.empty() ? text : text + " (" + more + ")";
}

void append_words(std::string& text, std::string_view more) {
  if (more.empty()) return;
  if (!text.empty()) text += "; ";
  text += more;
}

std::string words_for(const Report& report, const Who& who, const Network& network) {
  std::string said;
  if (report.answer) append_words(said, said_of(*report.answer));
  const std::size_t reporter = who.kind == Who::Kind::module ? who.module : nowhere;
  for (const CodeSeen& code : report.codes) append_words(said, words_for(code, reporter, network));
  if (said.empty()) said = "named";
  std::string text = name_of(who, network);
  if (who.in_part && who.kind == Who::Kind::module) {
    text = "`" + kept(who.name, 100) + "` taken as " + text;
  } else if (who.kind == Who::Kind::stranger) {
    std::vector<std::string> known;
    for (const Module& module : network.modules) known.push_back(module.id);
    const std::string near = nearest(text, known);
    text = "`" + text + "`, not in this network" + (near.empty() ? "" : " (did you mean " + near + "?)");
  } else if (who.kind == Who::Kind::ambiguous) {
    return "`" + text + "` may be " + listed(who.may, network) + ", so this is not taken: " + said;
  }
  return text + ": " + said;
}

std::string words_for_facts(const LineMeaning& meaning, const Network& network) {
  std::string text;
  if (!meaning.unit.empty()) append_words(text, "unit " + kept(meaning.unit, 100));
  if (!meaning.taken.empty()) append_words(text, "taken " + kept(meaning.taken, 60));
  if (meaning.battery) append_words(text, "battery " + plain(*meaning.battery) + " V");
  if (meaning.key) append_words(text, "key " + std::string(word_for(*meaning.key)));
  if (meaning.own_battery) append_words(text, "the tester has a battery of its own");
  for (const FunctionSeen& one : meaning.functions)
    append_words(text, "function " + one.function + (one.works ? " works" : " fails"));
  if (meaning.many) {
    const bool all = meaning.many->bus == nowhere;
    append_words(text, "all other modules" + (all ? std::string() : " on " + network.buses[meaning.many->bus].id) +
                           ": " + std::string(said_of(meaning.many->answer)));
  }
  return text;
}

}  // namespace whichwire
