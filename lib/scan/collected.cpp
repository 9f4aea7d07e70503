#include "scan/collected.hpp"

#include <algorithm>

#include "scan/fold.hpp"
#include "scan/pasted_words.hpp"

namespace whichwire {

namespace {

/// A tester does not invent an answer, so of two statements the one that tells more of a living module holds.
int weight(Answer answer) {
  switch (answer) {
    case Answer::refused:
      return 5;
    case Answer::yes:
      return 4;
    case Answer::not_reachable:
      return 3;
    case Answer::not_fitted:
      return 2;
    case Answer::no:
      return 1;
    case Answer::not_polled:
      return 0;
  }
  return 0;
}

bool on_bus(const Bus& bus, std::size_t module) {
  return std::ranges::any_of(bus.segments, [&](const Segment& segment) {
    const End end{End::Kind::module, module};
    return segment.from == end || segment.to == end;
  });
}

}  // namespace

std::size_t Collected::entry_of(const Who& who) {
  if (of_.empty()) of_.assign(network_.modules.size(), nowhere);
  const std::string name = name_of(who, network_);
  if (who.kind == Who::Kind::module) {
    if (of_[who.module] != nowhere) return of_[who.module];
    of_[who.module] = scan_.modules.size();
  } else {
    for (std::size_t i = 0; i < scan_.modules.size(); ++i)
      if (folded_key(scan_.modules[i].module) == folded_key(name)) return i;
  }
  scan_.modules.push_back({name, Answer::not_polled, {}});
  said_.push_back(false);
  by_role_.push_back(false);
  return scan_.modules.size() - 1;
}

std::string Collected::answer(std::size_t entry, Answer answer, bool by_role) {
  Answer& now = scan_.modules[entry].answer;
  if (!said_[entry]) {
    said_[entry] = true;
    by_role_[entry] = by_role;
    now = answer;
    return {};
  }
  const bool surer = by_role_[entry] && !by_role;
  const bool alike = by_role_[entry] == by_role;
  if (surer) by_role_[entry] = false;
  if (now == answer) return {};
  const std::string before(said_of(now));
  if (surer || (alike && weight(answer) > weight(now))) now = answer;
  return "an earlier line says: " + before + ", taken: " + std::string(said_of(now));
}

Collected::Place Collected::code(std::size_t entry, CodeSeen seen) {
  ModuleSeen& module = scan_.modules[entry];
  if (!said_[entry]) module.answer = Answer::yes;  // a code could be read from it
  for (std::size_t i = 0; i < module.codes.size(); ++i) {
    CodeSeen& known = module.codes[i];
    const bool same = seen.written.empty()
                          ? known.written.empty() && known.misses == seen.misses && known.text == seen.text
                          : known.written == seen.written;
    const bool agree =
        known.state == seen.state || known.state == CodeState::unknown || seen.state == CodeState::unknown;
    if (!same || !agree) continue;
    if (known.state == CodeState::unknown) known.state = seen.state;
    if (!known.status) known.status = seen.status;
    if (known.text.empty()) known.text = seen.text;
    if (!known.volts) known.volts = seen.volts;
    return {entry, i};
  }
  module.codes.push_back(std::move(seen));
  return {entry, module.codes.size() - 1};
}

void Collected::rest(Answer answer, std::size_t bus) {
  for (std::size_t i = 0; i < network_.modules.size(); ++i) {
    if (network_.modules[i].optional || (bus != nowhere && !on_bus(network_.buses[bus], i))) continue;
    const std::size_t known = scan_.modules.size();
    const std::size_t entry = entry_of({Who::Kind::module, i, {}, {}});
    const bool untold = entry == known || (!said_[entry] && scan_.modules[entry].codes.empty());
    if (!untold) continue;
    said_[entry] = true;
    scan_.modules[entry].answer = answer;
  }
}

}  // namespace whichwire
