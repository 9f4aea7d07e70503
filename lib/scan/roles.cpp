#include "scan/roles.hpp"

#include <algorithm>
#include <array>
#include <whichwire/code.hpp>

#include "scan/code_tables.hpp"
#include "scan/generic_codes.hpp"

namespace whichwire {

namespace {

constexpr std::array<std::pair<std::string_view, std::string_view>, 14> abbreviations{{{"abs", "ABS"},
                                                                                       {"ac", "AC"},
                                                                                       {"dc", "DC"},
                                                                                       {"egr", "EGR"},
                                                                                       {"evap", "EVAP"},
                                                                                       {"gps", "GPS"},
                                                                                       {"hvac", "HVAC"},
                                                                                       {"nh3", "NH3"},
                                                                                       {"nox", "NOx"},
                                                                                       {"pto", "PTO"},
                                                                                       {"can", "CAN"},
                                                                                       {"j1939", "J1939"},
                                                                                       {"j1708", "J1708"},
                                                                                       {"j1850", "J1850"}}};

std::string plain_word(std::string_view word) {
  const auto found = std::ranges::find(abbreviations, word, &std::pair<std::string_view, std::string_view>::first);
  if (found != abbreviations.end()) return std::string(found->second);
  std::string text(word);
  if (text.size() == 1 && text[0] >= 'a' && text[0] <= 'z') text[0] = static_cast<char>(text[0] - 'a' + 'A');
  return text;
}

std::string plain_words(std::string_view id) {
  std::string text;
  while (!id.empty()) {
    const std::size_t dash = id.find('-');
    if (!text.empty()) text += ' ';
    text += plain_word(id.substr(0, dash));
    id = dash == std::string_view::npos ? std::string_view{} : id.substr(dash + 1);
  }
  return text;
}

bool names_a_bus(std::string_view kind) { return kind == "bus-fault"; }
bool names_a_role(std::string_view kind) {
  return kind == "lost-communication" || kind == "invalid-data" || kind == "software-incompatibility";
}
bool first_of_its_kind(std::string_view qualifier) { return qualifier.empty() || qualifier == "a" || qualifier == "1"; }

std::vector<std::string> sorted_once(std::vector<std::string> all) {
  std::ranges::sort(all);
  all.erase(std::unique(all.begin(), all.end()), all.end());
  return all;
}

constexpr std::string_view receiver = "received-by:";

}  // namespace

std::string plain_role(std::string_view role, std::string_view qualifier) {
  std::string text = plain_words(role);
  if (qualifier.empty() || qualifier.starts_with(receiver)) return text;
  return text + (qualifier.size() == 1 ? " " : ", ") + plain_words(qualifier);
}

const std::vector<std::string>& known_roles() {
  static const std::vector<std::string> roles = [] {
    std::vector<std::string> all;
    for (const GenericCode& row : generic_codes()) {
      if (!names_a_role(row.kind) || row.subject == "self" || row.subject == "unspecified") continue;
      all.emplace_back(row.subject);
      if (!row.qualifier.empty() && !row.qualifier.starts_with(receiver))
        all.push_back(std::string(row.subject) + "-" + std::string(row.qualifier));
    }
    for (const SourceAddress& row : source_addresses()) all.emplace_back(row.role);
    return sorted_once(std::move(all));
  }();
  return roles;
}

const std::vector<std::string>& known_bus_subjects() {
  static const std::vector<std::string> subjects = [] {
    std::vector<std::string> all;
    for (const GenericCode& row : generic_codes())
      if (names_a_bus(row.kind)) all.emplace_back(row.subject);
    for (const NetworkSpn& row : network_spns())
      if (row.kind == "link" && !row.subject.empty()) all.emplace_back(row.subject);
    return sorted_once(std::move(all));
  }();
  return subjects;
}

std::string role_at_address(int address) {
  const auto& all = source_addresses();
  const auto found = std::ranges::lower_bound(all, address, {}, &SourceAddress::address);
  return found != all.end() && found->address == address ? std::string(found->role) : std::string();
}

RoleMatch match(const CodeMeaning& meaning, std::string_view role) {
  constexpr std::string_view address = "address:";
  const std::string& subject = meaning.subject;
  if (subject.empty() || role.empty()) return RoleMatch::none;
  if (subject.starts_with(address)) {
    const std::string at = role_at_address(std::stoi(subject.substr(address.size())));
    return at == role ? RoleMatch::loose : RoleMatch::none;
  }
  const std::string_view qualifier = meaning.qualifier.starts_with(receiver) ? "" : std::string_view(meaning.qualifier);
  // Later editions of the table put "A" on some rows of a role and not on others; only body control has both.
  const bool letters_differ = subject == "body-control";
  if (role == subject) {
    const bool same = letters_differ ? qualifier.empty() : first_of_its_kind(qualifier);
    return same ? RoleMatch::exact : RoleMatch::loose;
  }
  if (!role.starts_with(subject) || role.size() < subject.size() + 2 || role[subject.size()] != '-')
    return RoleMatch::none;
  const std::string_view own = role.substr(subject.size() + 1);
  if (own == qualifier) return RoleMatch::exact;
  if (letters_differ || !first_of_its_kind(own) || !first_of_its_kind(qualifier)) return RoleMatch::none;
  return RoleMatch::exact;
}

}  // namespace whichwire
