// The verdict: the largest class, its parts, and words no stronger than its probability.
#include <doctest/doctest.h>

#include <whichwire/check.hpp>

#include "checks/ranking.hpp"

using namespace moor;
using Ids = std::vector<std::string>;

namespace {

Verdict of(const Ranking& ranking) { return verdict_of(network(), ranking); }

std::string headline(double probability) { return of(ranked({explained(probability, {dead(ECM)})})).headline; }

}  // namespace

TEST_CASE("a class wins by the sum of its explanations, not by the first one") {
  const Verdict verdict = of(ranked({explained(0.4, {open_segment(DRV, 1)}), explained(0.3, {dead(ECM)}),
                                     explained(0.3, {open_part(PartKind::power_pin, ECM, 0)})}));
  CHECK(verdict.verdict_class == VerdictClass::module);
  CHECK(verdict.probability == doctest::Approx(0.6));
  CHECK(verdict.parts == Ids{"ECM"});
}

TEST_CASE("the parts are those of the class, most probable first, the unlikely left out") {
  const Verdict verdict = of(ranked({explained(0.2, {dead(TCM)}), explained(0.5, {dead(ECM)}),
                                     explained(0.001, {dead(ABS)}), explained(0.2, {open_segment(DRV, 1)})}));
  CHECK(verdict.parts == Ids{"ECM", "TCM"});
  CHECK(verdict.headline.find("ECM or TCM") != std::string::npos);
}

TEST_CASE("alike sets name their parts too, by their share") {
  const Verdict verdict = of(
      ranked({explained(0.9, {with_odds(open_segment(DRV, 1), 0.001)}, {{with_odds(open_segment(DRV, 2), 0.001)}})}));
  CHECK(verdict.parts == Ids{"DRV-2", "DRV-3"});
}

TEST_CASE("alike sets of different classes each count for their own") {
  const Verdict verdict = of(
      ranked({explained(1.0, {with_odds(open_segment(DRV, 1), 0.004)},
                        {{with_odds(dead(ECM), 0.003)}, {with_odds(open_part(PartKind::power_pin, ECM, 0), 0.003)}})}));
  CHECK(verdict.verdict_class == VerdictClass::module);
  CHECK(verdict.probability == doctest::Approx(0.6));
}

TEST_CASE("the headline is worded no stronger than its probability") {
  CHECK(headline(0.995).starts_with("Almost certainly "));
  CHECK(headline(0.95).starts_with("Very likely "));
  CHECK(headline(0.75).starts_with("Probably "));
  CHECK(headline(0.6).starts_with("More likely than not "));
  CHECK(headline(0.3).starts_with("Most likely of several: "));
}

TEST_CASE("a module is called silent only where the scan found it so") {
  Ranking ranking = ranked({explained(0.95, {dead(ECM)})});
  CHECK(of(ranking).headline.find("silent") == std::string::npos);
  Observation seen;
  seen.question = {Question::About::answers, ECM, nowhere};
  seen.abnormal = true;
  ranking.evidence.push_back(seen);
  CHECK(of(ranking).headline.find("one silent module: ECM") != std::string::npos);
}

TEST_CASE("no headline of any class tells to replace something, and each names its parts") {
  const Fault holds = module_fault(FaultKind::holds, ABS, DRV);
  const std::vector<std::pair<std::vector<Fault>, std::string>> sets = {
      {{dead(ECM)}, "ECM"},
      {{dead(GWM)}, "GWM"},
      {{open_segment(DRV, 1)}, "DRV-2"},
      {{holds}, "DRV"},
      {{open_part(PartKind::feed, F20)}, "F20"},
      {{open_segment(DIAG, 0)}, "diagnostic connector"},
      {{passing(dead(ECM))}, "ECM"},
      {{dead(ECM), dead(ABS)}, "ECM and ABS"},
      {{}, "no fault"}};
  for (const auto& [faults, named] : sets) {
    const Verdict verdict = of(ranked({explained(0.95, faults)}));
    CAPTURE(verdict.headline);
    CHECK(verdict.verdict_class == class_of(network(), faults));
    CHECK(verdict.headline.find(named) != std::string::npos);
    CHECK(verdict.headline.find("eplace") == std::string::npos);
  }
}

TEST_CASE("a ranking with nothing in it contradicts itself") {
  CHECK(of(ranked({})).verdict_class == VerdictClass::contradictory);
  CHECK(of(ranked({})).probability == doctest::Approx(0));
}

TEST_CASE("a wide interval counts by its lower end: what lies outside the list speaks for no class") {
  Explanation line = explained(0, {dead(ECM)});
  line.probability = {0.4, 0.9};
  const Verdict verdict = of(ranked({line}));
  CHECK(verdict.probability == doctest::Approx(0.4));
  CHECK(verdict.headline.starts_with("Most likely of several"));
}

TEST_CASE("where most was not weighed the verdict says first that it is not settled, and what may be the cause") {
  Explanation line = explained(0, {dead(ECM)});
  line.probability = {0.1, 0.9};
  Ranking ranking = ranked({line});
  ranking.unsettled = true;
  CHECK(of(ranking).headline.starts_with("Not settled, the search stopped with most still to be weighed; likeliest"));
  ranking.other_trim = true;
  CHECK(of(ranking).headline.starts_with("Not settled: the network may be that of another trim, look that up first;"));
  CHECK(of(ranking).headline.find("ECM") != std::string::npos);
}

TEST_CASE("a ring is called a ring, and neither a short nor a dead unit") {
  Network ring = network();
  ring.buses[BDY].protocol = Protocol::ring;
  Explanation line = explained(0.95, {open_segment(BDY, 1)});
  const Verdict verdict = verdict_of(ring, ranked({line}));
  CHECK(verdict.verdict_class == VerdictClass::bus);
  CHECK(verdict.headline.find("ring BDY as a whole") != std::string::npos);
  CHECK(verdict.headline.find("member without supply") != std::string::npos);
}

TEST_CASE("two classes that share the probability are both named, with the probability of either") {
  const Verdict verdict = of(ranked({explained(0.5, {dead(ECM)}), explained(0.45, {open_segment(DRV, 1)})}));
  CHECK(verdict.verdict_class == VerdictClass::module);
  CHECK(verdict.probability == doctest::Approx(0.5));
  CHECK(verdict.headline_probability == doctest::Approx(0.95));
  CHECK(verdict.headline.starts_with("Very likely one of two: one module: ECM - "));
  CHECK(verdict.headline.find("; or a break in the bus wiring: DRV-2") != std::string::npos);
}

TEST_CASE("a class that is likely by itself, or twice as likely as the next, is named alone") {
  CHECK(of(ranked({explained(0.7, {dead(ECM)}), explained(0.3, {open_segment(DRV, 1)})})).headline_probability ==
        doctest::Approx(0.7));
  CHECK(of(ranked({explained(0.5, {dead(ECM)}), explained(0.2, {open_segment(DRV, 1)})})).headline_probability ==
        doctest::Approx(0.5));
}

TEST_CASE("a gateway is not accused where all is about its own wires and port on one bus") {
  Fault port = dead(GWM);
  port.kind = FaultKind::port_dead;
  port.bus = BDY;
  Ranking ranking = ranked({explained(0.5, {open_segment(BDY, 0)}), explained(0.45, {port})});
  CHECK(of(ranking).headline.starts_with("Very likely the way of gateway GWM to bus BDY - "));
  ranking.explanations.push_back(explained(0.05, {dead(GWM)}));
  CHECK(of(ranking).headline.starts_with("Almost certainly the gateway GWM - "));
}
