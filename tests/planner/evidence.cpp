// Answers as evidence: what counts, what is doubtful and asked again, what is not understood; and the results that a
// decision may have.
#include "effort.hpp"
#include "planner/numbers.hpp"
#include "planner/simulated_vehicle.hpp"
#include "shipped.hpp"
#include "workshop.hpp"

namespace whichwire::test {

TEST_CASE("an answer that nothing predicts is doubtful, is asked again, and counts only when it comes again") {
  Workshop job({"open ECM/A-27"});
  const double before = job.probability("ECM/A-27");
  job.type("ohms:DRV@ECM", "3300 ohm");  // no fault of this bus makes such a value
  const Assessment first = job.assess();
  INFO(told(first));
  CHECK(first.readings.at(0).doubtful);
  CHECK_FALSE(first.readings.at(0).counted);
  CHECK(first.next.why == NextCheck::Why::again);
  REQUIRE(first.next.check.has_value());
  CHECK(first.next.check->id == "ohms:DRV@ECM");
  CHECK(job.probability("ECM/A-27") == doctest::Approx(before));

  Workshop other = Workshop({"open ECM/A-27"});
  other.type("ohms:DRV@ECM", "3300 ohm");
  other.type("ohms:DRV@ECM", "120 ohm");  // the first was a slip of the probe
  CHECK_FALSE(other.assess().readings.at(0).counted);
  CHECK(other.assess().readings.at(1).counted);
  CHECK(other.assess().readings.at(1).good);

  job.type("ohms:DRV@ECM", "3350 ohm");  // so it is there, and speaks for what is not listed
  const Assessment second = job.assess();
  INFO(told(second));
  CHECK(second.readings.at(0).counted);
  CHECK(second.readings.at(1).counted);
  CHECK(second.outside > first.outside);
}

// The rule of Bayes: evidence that is independent is multiplied, whichever came last.
TEST_CASE("an answer that differs from the one before does not take its place: one of them slipped, and both count") {
  const auto probability = [](std::initializer_list<const char*> readings) {
    Workshop job({"open ECM/A-27"});
    for (const char* reading : readings) job.type("feed:ECM/A-27", reading);
    const auto all = job.assess().readings;
    for (const Weighed& each : all) {
      CHECK(each.counted);
      CHECK(each.contradicted == (all.size() > 1 && &each == &all.front()));
    }
    return job.probability("ECM/A-27");
  };
  const double both = probability({"0 V", "12.5 V"});
  CHECK(both < 0.9 * probability({"0 V"}));
  CHECK(both > 2 * probability({"12.5 V"}));
}

TEST_CASE("what did not count because nothing made it does so once it has come again, whatever came between") {
  Workshop job({"open ECM/A-27"});
  for (const char* reading : {"3300 ohm", "120 ohm", "3350 ohm"}) job.type("ohms:DRV@ECM", reading);
  for (const Weighed& each : job.assess().readings) CHECK(each.counted);
}

TEST_CASE("of a back-feeding module the pin that it lost is what is made good") {
  Workshop job({"back-feeds ABS DRV"});
  std::size_t pins = 0;
  for (const Repair& repair : job.assess().repairs) {
    CAPTURE(repair.what);
    const bool by_it = std::ranges::find(repair.faults, "back-feeds ABS DRV") != repair.faults.end();
    if (by_it) CHECK(repair.what.starts_with("ABS/"));
    pins += by_it ? 1 : 0;
  }
  CHECK(pins == job.network.modules[moor::ABS].power.size() + job.network.modules[moor::ABS].ground.size());
}

TEST_CASE("an answer in words that the check does not have is not understood and changes nothing") {
  Workshop job({"open ECM/A-27"});
  const double before = job.probability("ECM/A-27");
  job.say("poll:ECM", "purple");
  job.say("no such check", "good");
  const Assessment now = job.assess();
  CHECK_FALSE(now.readings.at(0).understood);
  CHECK_FALSE(now.readings.at(1).understood);
  CHECK(job.probability("ECM/A-27") == doctest::Approx(before));
}

TEST_CASE(
    "a reading is weighed as it was taken: with a terminating module unplugged 120 ohms are right, with it in wrong") {
  Workshop job({"open ECM/A-27"});
  const auto how = job.planner->measurement_of("ohms:DRV@ECM");
  REQUIRE(how.has_value());
  CHECK(how->situation.unplugged == std::vector<std::size_t>{moor::ECM});
  CHECK_FALSE(how->situation.battery_connected);
  Taken taken{"R1", "ohms:DRV@ECM", how, *read_reading("120 ohm").reading, ""};
  CHECK(job.planner->assess({taken}).readings.at(0).good);
  taken.measurement->situation.unplugged.clear();
  CHECK_FALSE(job.planner->assess({taken}).readings.at(0).good);
  CHECK(job.planner->measurement_of("plug:ECM") == std::nullopt);
}

TEST_CASE("lamp, volts and drop at one feed say the same") {
  for (const char* text : {"lamp dark", "0.1 V", "12.4 V drop"}) {
    Workshop job({"open ECM/A-27"});
    job.say("poll:ECM", "silent");
    const double before = job.probability("ECM/A-27");
    job.type("feed:ECM/A-27", text);
    INFO(text << ": " << told(job.assess()));
    CHECK(job.assess().readings.at(1).counted);
    CHECK_FALSE(job.assess().readings.at(1).good);
    CHECK(job.probability("ECM/A-27") > before);
  }
}

TEST_CASE("a silent restraint module is referred and never measured") {
  Workshop job({"dead SRS"});
  job.work();
  const Assessment now = job.assess();
  INFO(job.ids() << "; " << told(now));
  CHECK_FALSE(now.refused.empty());
  CHECK(now.decision.standing != Standing::proven);
  for (const Taken& taken : job.taken) {
    CHECK(taken.check.find("feed:SRS") == std::string::npos);
    CHECK(taken.check.find("plug:SRS") == std::string::npos);
  }
}

TEST_CASE("with nothing wrong, codes cleared and the module answering again it is not a communication fault") {
  Workshop job({"dead ECM"});
  job.say("poll:ECM", "answers");
  CHECK(job.assess().decision.standing != Standing::proven);
  job.say("rescan", "clean");
  job.say("poll:ECM", "answers");
  const Assessment now = job.assess();
  INFO(told(now));
  const bool harmless =
      now.decision.standing == Standing::not_communication || now.decision.standing == Standing::comes_and_goes;
  CHECK(harmless);
}

TEST_CASE("the pins that readings clear one by one are no lost pin of a module that feeds back") {
  Workshop job({"back-feeds ABS DRV"});
  const auto against_its_stub = [&] {
    double lost = 0;
    for (const Repair& repair : job.assess().repairs) {
      if (repair.what.starts_with("ABS/")) lost += repair.probability.low;
    }
    return lost / job.probability("DRV-5");
  };
  const double before = against_its_stub();
  REQUIRE(before > 0);
  const Module& abs = job.network.modules[moor::ABS];
  for (const PowerPin& pin : abs.power) job.type("feed:ABS/" + pin.pin, "12.5 V");
  for (const GroundPin& pin : abs.ground) job.type("ground:ABS/" + pin.pin, "0.03 V");
  INFO(job.ids() << "; " << told(job.assess()));
  CHECK(against_its_stub() < before / 10);
}

TEST_CASE("of two answers that differ a third decides") {
  Workshop job({"short DRV-2 other-line"});
  job.say("split:DRV@S310", "side DRV-2");
  job.say("split:DRV@S310", "side DRV-5");
  job.work();
  const Assessment now = job.assess();
  INFO(job.ids() << "; " << told(now));
  const auto times = std::count_if(job.taken.begin(), job.taken.end(),
                                   [](const Taken& each) { return each.check == "split:DRV@S310"; });
  CHECK(times == 3);
  CHECK(now.decision.standing == Standing::proven);
  CHECK(now.decision.repair == "DRV-2");
}

TEST_CASE("the numbers can be set: a stricter proof needs more") {
  Workshop job({"short ECM/5V-1 ground"});
  job.type("reference:ECM/5V-1", "0.15 V");
  job.type("wire:ECM/5V-1", "lamp bright");
  CHECK(job.assess().decision.standing == Standing::proven);
  PlannerNumbers strict = default_planner_numbers();
  REQUIRE(set_number(strict, "proven", 0.9999));
  CHECK_FALSE(set_number(strict, "no such number", 1));
  job.plan(strict);
  CHECK(job.assess().decision.standing == Standing::probable);
}

TEST_CASE("every number of the planner has a meaning and a source") {
  CHECK(default_planner_numbers().rows.size() > 15);
  for (const PlannerNumber& row : default_planner_numbers().rows) {
    CHECK_FALSE(row.means.empty());
    CHECK_FALSE(row.source.empty());
  }
  CHECK_THROWS_AS(number_of(default_planner_numbers(), "no such number"), std::logic_error);
}

TEST_CASE("acting now costs the chance of being wrong times a wrong part and a come-back") {
  Workshop job({"dead ECM"});
  const Decision now = job.assess().decision;
  const PlannerNumbers& numbers = default_planner_numbers();
  const double repair = number_of(numbers, "cost-wrong-repair") + number_of(numbers, "cost-come-back");
  CHECK(now.ruled_out.empty());  // no module leads
  CHECK(now.loss_minutes == doctest::Approx((1 - now.probability.low) * repair));
  CHECK(now.worth_measuring);
}

TEST_CASE("a ranking drawn up anew that leaves more outside than is known to be there is not taken") {
  Workshop job({"open DRV-4", "open ECM/A-27"});
  job.leave_outside(0.02);
  job.say("poll:ECM", "silent");
  PlannerNumbers never = default_planner_numbers();
  REQUIRE(set_number(never, "rank-anew", 100));
  job.plan(never);
  const double known = job.assess().outside;
  LocateOptions coarse;
  coarse.outside = 1e3;
  const Planner planner(*job.effects, job.ranking, job.scan, default_planner_numbers(), coarse);
  CHECK(planner.assess(job.taken).outside == doctest::Approx(known));
}

TEST_CASE("all faults are weighed anew once there is an answer, and not before, when nothing has changed") {
  Workshop job({"open DRV-4", "open ECM/A-27"});
  job.leave_outside(0.02);
  job.plan();
  CHECK(job.assess().outside > 0.019);
  job.say("poll:ECM", "silent");
  CHECK(job.assess().outside < 0.01);
}

TEST_CASE("where the little that was left out is all that stands between a repair and its proof, it is weighed anew") {
  const auto outside_with = [](double lead, double left_out) {
    Workshop job({"open DRV-4"});
    const Fault only = faults_from(job.network, {"open DRV-4"}).front();
    for (Explanation& each : job.ranking.explanations) {
      const bool own = each.faults == std::vector{only};
      const double weight = own ? lead : (1 - lead) / static_cast<double>(job.ranking.explanations.size() - 1);
      each.probability = {weight, weight};
    }
    job.leave_outside(left_out);
    job.plan();
    job.say("poll:ECM", "silent");
    return job.assess().outside;
  };
  CHECK(outside_with(0.6, 0.004) > 0.003);   // rivals are left that a check will tell away
  CHECK(outside_with(0.9, 0.009) < 0.001);   // 0.944 by now
  CHECK(outside_with(0.96, 0.009) > 0.005);  // proven as it is
}

TEST_CASE("codes that come back speak against nothing being wrong, and for no fault more than for another" *
          doctest::skip(only_few())) {
  Workshop job({}, shipped("electric-car"));
  Dice dice(20260443);  // one line of a stub open, in a noisy scan in which a module is shown as not fitted
  job.scan = simulated_vehicle(*job.effects, dice)->scan;
  job.ranking = locate(*job.effects, faults_of(job.network), job.scan);
  job.plan();
  job.say("fitted:SCP", "fitted");
  job.say("poll:BCMF", "answers");
  job.say("rescan", "back");
  job.say("poll:SCP", "silent");
  job.say("poll:BCMF", "answers");
  const Assessment now = job.assess();
  CHECK(now.repairs.front().what == "BDY-12");
  // A ranking with that answer in it asks for no more candidates than one without, so it is as whole.
  CHECK(now.outside < 0.1);
}

}  // namespace whichwire::test
