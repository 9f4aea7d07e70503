// Which of many checks are listed, with checks and sets of faults made by hand.
#include "checks/choice.hpp"

#include <doctest/doctest.h>

#include <algorithm>

#include "checks/ranking.hpp"

using namespace moor;

namespace {

CheckKind sure() {
  CheckKind kind;
  kind.fine = kind.seen = 1;
  return kind;
}

/// A check that sees the modules of `seen`.
Candidate check_of(const CheckKind& kind, const std::string& id, double minutes, std::vector<std::size_t> seen) {
  Candidate made;
  made.kind = &kind;
  made.check.id = id;
  made.check.part = id;
  made.check.minutes = minutes;
  made.check.expect.resize(2);
  made.place = id;
  made.sees = first_seen([seen = std::move(seen)](const Fault& fault) {
    return Sight{std::find(seen.begin(), seen.end(), fault.owner) != seen.end() ? 1U : 0U, 1, 0, 0};
  });
  return made;
}

Hypotheses four() {
  std::vector<Explanation> lines;
  for (const std::size_t module : {ECM, TCM, ABS, BCM}) lines.push_back(explained(0.25, {dead(module)}));
  return hypotheses_of(network(), ranked(lines));
}

std::vector<std::string> chosen(std::vector<Candidate> candidates, std::size_t most) {
  const Hypotheses sets = four();
  std::vector<std::string> ids;
  for (const Check& check : choose(options_of(std::move(candidates), sets), sets, most).checks) ids.push_back(check.id);
  return ids;
}

using Ids = std::vector<std::string>;

}  // namespace

TEST_CASE("the second check listed is the one that adds most, not the first one again in another place") {
  const CheckKind kind = sure();
  CHECK(chosen({check_of(kind, "halves", 5, {ECM, TCM}), check_of(kind, "halves again", 6, {ECM, TCM}),
                check_of(kind, "and again", 6, {ABS, BCM}), check_of(kind, "the other way", 9, {ECM, ABS})},
               2) == Ids{"halves", "the other way"});
}

TEST_CASE("of two checks worth the same a minute the shorter one comes first, then the one first in the alphabet") {
  const CheckKind kind = sure();
  CHECK(chosen({check_of(kind, "b", 5, {ECM, TCM}), check_of(kind, "a", 5, {ECM, ABS})}, 2) == Ids{"a", "b"});
  CHECK(chosen({check_of(kind, "long", 10, {ECM, TCM}), check_of(kind, "short", 5, {ECM, ABS})}, 2) ==
        Ids{"short", "long"});
}

TEST_CASE("at one place only the better check is listed") {
  const CheckKind kind = sure();
  Candidate look = check_of(kind, "look", 3, {ECM, TCM});
  Candidate measure = check_of(kind, "measure", 9, {ECM, ABS});
  look.place = measure.place = "ECM";
  CHECK(chosen({look, measure}, 8) == Ids{"look"});
}

TEST_CASE("a refused check takes no place in the list") {
  const CheckKind kind = sure();
  Candidate forbidden = check_of(kind, "forbidden", 1, {ECM, TCM});
  forbidden.hazards = {"restraint"};
  const Hypotheses sets = four();
  const CheckPlan plan = choose(options_of({forbidden, check_of(kind, "allowed", 9, {ECM, TCM})}, sets), sets, 1);
  REQUIRE(plan.checks.size() == 1);
  CHECK(plan.checks[0].id == "allowed");
  REQUIRE(plan.refused.size() == 1);
  CHECK(plan.refused[0].what == "forbidden");
}
