// Role ids: which there are, in plain words, and which a code means.
#include "scan/roles.hpp"

#include <doctest/doctest.h>

#include <algorithm>
#include <whichwire/code.hpp>

using namespace whichwire;

namespace {
RoleMatch matched(std::string_view code, std::string_view role) { return match(meaning_of(*parse_code(code)), role); }
bool has(const std::vector<std::string>& all, std::string_view one) { return std::ranges::find(all, one) != all.end(); }
}  // namespace

TEST_CASE("roles are known plain, with their letter, and from J1939") {
  const auto& roles = known_roles();
  CHECK(std::ranges::is_sorted(roles));
  CHECK(has(roles, "engine-control"));
  CHECK(has(roles, "door-control"));
  CHECK(has(roles, "door-control-b"));
  CHECK(has(roles, "retarder-engine"));
  CHECK_FALSE(has(roles, "bus-a"));
  CHECK_FALSE(has(roles, "self-supply"));
  CHECK_FALSE(has(roles, "unspecified"));
  CHECK_FALSE(has(roles, "engine-control-received-by:nox-sensor-a"));
}

TEST_CASE("bus subjects are known from both tables") {
  const auto& subjects = known_bus_subjects();
  CHECK(has(subjects, "can-high-speed"));
  CHECK(has(subjects, "bus-h"));
  CHECK(has(subjects, "j1939-1"));
  CHECK_FALSE(has(subjects, "engine-control"));
}

TEST_CASE("a role in plain words keeps abbreviations in capitals") {
  CHECK(plain_role("engine-control") == "engine control");
  CHECK(plain_role("abs") == "ABS");
  CHECK(plain_role("nox-sensor", "b") == "NOx sensor B");
  CHECK(plain_role("side-restraints", "left") == "side restraints, left");
  CHECK(plain_role("lighting", "rear-a") == "lighting, rear A");
  CHECK(plain_role("engine-control", "received-by:nox-sensor-a") == "engine control");
}

TEST_CASE("letter A and no letter are the same module, but for body control") {
  CHECK(matched("U0100", "engine-control") == RoleMatch::exact);
  CHECK(matched("U0121", "abs") == RoleMatch::exact);
  CHECK(matched("U0106", "glow-plug") == RoleMatch::exact);
  CHECK(matched("U0100", "engine-control-a") == RoleMatch::exact);
  CHECK(matched("U0140", "body-control") == RoleMatch::exact);
  CHECK(matched("U0141", "body-control") == RoleMatch::loose);
  CHECK(matched("U0141", "body-control-a") == RoleMatch::exact);
  CHECK(matched("U0140", "body-control-a") == RoleMatch::none);
}

TEST_CASE("a letter that the network does not tell apart matches loosely") {
  CHECK(matched("U0200", "door-control") == RoleMatch::loose);
  CHECK(matched("U0200", "door-control-b") == RoleMatch::exact);
  CHECK(matched("U0200", "door-control-c") == RoleMatch::none);
  CHECK(matched("U0200", "seat-control") == RoleMatch::none);
  CHECK(matched("U0155", "") == RoleMatch::none);
}

TEST_CASE("a J1939 address matches the usual role at it, loosely") {
  CHECK(role_at_address(0) == "engine-control");
  CHECK(role_at_address(11) == "brake-system");
  CHECK(role_at_address(100).empty());
  CHECK(role_at_address(-1).empty());
  CHECK(role_at_address(300).empty());
  CHECK(matched("SPN 2011 FMI 9", "brake-system") == RoleMatch::loose);
  CHECK(matched("SPN 2011 FMI 9", "engine-control") == RoleMatch::none);
  CHECK(matched("SPN 2100 FMI 9", "engine-control") == RoleMatch::none);
}
