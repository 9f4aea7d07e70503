#include "scan/accused.hpp"

#include "scan/fold.hpp"
#include "scan/hex.hpp"

namespace whichwire {

namespace {

bool same_code(const OwnCode& own, const CodeSeen& seen) {
  const auto stated = parse_code(own.code);
  if (!stated || !seen.code) return !seen.written.empty() && folded_key(own.code) == folded_key(seen.written);
  const bool same_number = stated->letter == seen.code->letter && stated->number == seen.code->number;
  return same_number && (!stated->detail || stated->detail == seen.code->detail);
}

CodeKind kind_of(OwnCode::Says says) {
  if (says == OwnCode::Says::lost) return CodeKind::lost_communication;
  return says == OwnCode::Says::invalid ? CodeKind::invalid_data : CodeKind::bus_fault;
}

std::vector<std::size_t> at_address(const Network& network, std::string_view subject) {
  constexpr std::string_view prefix = "address:";
  std::vector<std::size_t> modules;
  if (!subject.starts_with(prefix)) return modules;
  const auto address = parse_decimal(subject.substr(prefix.size()));
  for (std::size_t i = 0; address && i < network.modules.size(); ++i)
    if (network.modules[i].address == static_cast<int>(*address)) modules.push_back(i);
  return modules;
}

std::vector<std::size_t> with_role(const Network& network, const CodeMeaning& meaning) {
  std::vector<std::size_t> exact;
  std::vector<std::size_t> loose;
  for (std::size_t i = 0; i < network.modules.size(); ++i) {
    RoleMatch best = RoleMatch::none;
    for (const std::string& role : network.modules[i].roles) best = std::max(best, match(meaning, role));
    if (best == RoleMatch::exact) exact.push_back(i);
    if (best == RoleMatch::loose) loose.push_back(i);
  }
  return exact.empty() ? loose : exact;
}

bool accuses_a_module(CodeKind kind) {
  return kind == CodeKind::lost_communication || kind == CodeKind::invalid_data ||
         kind == CodeKind::software_incompatible;
}

}  // namespace

const OwnCode* own_code_of(const Module& reporter, const CodeSeen& seen) {
  for (const OwnCode& own : reporter.own_codes)
    if (same_code(own, seen)) return &own;
  return nullptr;
}

Accused accused_by(const Network& network, std::size_t reporter, const CodeSeen& seen) {
  Accused accused;
  const OwnCode* own = reporter == nowhere ? nullptr : own_code_of(network.modules[reporter], seen);
  if (own != nullptr) {
    accused.kind = kind_of(own->says);
    if (own->says == OwnCode::Says::bus_fault)
      accused.bus = own->subject;
    else
      accused.modules = {own->subject};
    return accused;
  }
  if (!seen.code) return accused;
  const CodeMeaning meaning = meaning_of(*seen.code);
  accused.kind = meaning.kind;
  if (!accuses_a_module(meaning.kind)) return accused;
  accused.modules = at_address(network, meaning.subject);
  if (accused.modules.empty()) accused.modules = with_role(network, meaning);
  return accused;
}

}  // namespace whichwire
