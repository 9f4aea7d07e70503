// Headings of tables and what they make of bare figures below them.
#include "scan/columns.hpp"

#include <doctest/doctest.h>

#include "scan/van.hpp"

using namespace whichwire;

TEST_CASE("figures under SPN, FMI and address are codes and modules") {
  CHECK(test::understood("FMI | SPN | SA\n9 | 2003 | 0\n") == "heading\nECM: answers; SPN 2003 FMI 9 (misses TCM)\n");
  CHECK(test::understood("SA  SPN  State\n3  639  active\n") ==
        "heading\nTCM: answers; SPN 639 current (bus trouble)\n");
}

TEST_CASE("yes and no mean what their column's heading says") {
  CHECK(test::understood("Module | Faults | Answer\nECM | no | yes\n") == "heading\nECM: answers\n");
  CHECK(test::understood("Module | Installed | Responds\nPAM | no | no\n") == "heading\nPAM: not fitted\n");
  CHECK(test::understood("Module | Faults\nECM | no\nTCM | yes\n") == "heading\nECM: answers\nTCM: answers\n");
}

TEST_CASE("without a heading one lone yes or no is an answer, and of two nobody can tell") {
  CHECK(test::understood("ECM | no\n") == "ECM: no answer\n");
  CHECK(test::understood("ECM no\n") == "ECM: no answer\n");
  CHECK(test::understood("ECM | yes | no\n") == "ECM: named; not read: `yes | no`\n");
}

TEST_CASE("failure types and status bytes stand in columns of their own") {
  CHECK(test::understood("Module\tCode\tFTB\tStatus\nTCM\tU0100\t87\t2F\nABS\tU0100\t82\t28\n") ==
        "heading\nTCM: answers; U0100-87 current (misses ECM)\nABS: answers; U0100-82 history (bad data from ECM)\n");
}

TEST_CASE("a line with a module or a code in it is no heading") {
  CHECK(test::understood("ECM | status | code\n").find("heading") == std::string::npos);
  CHECK(test::understood("Status | ok\nECM | ok\n").starts_with("heading\n") == false);
}
