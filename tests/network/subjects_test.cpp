// The reader's lists of roles and bus names are those of the code tables.
#include <doctest/doctest.h>

#include <whichwire/code.hpp>

#include "network/draft.hpp"

using namespace whichwire;

TEST_CASE("the roles that a network may name are exactly those that codes can be about") {
  CHECK(role_names().size() > 100);
  CHECK((role_names() == known_roles()));
}

TEST_CASE("the bus names that a network may give are exactly those that codes can be about") {
  CHECK(bus_subject_names().size() > 10);
  CHECK((bus_subject_names() == known_bus_subjects()));
}
