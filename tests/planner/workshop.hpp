// A job in a test: an invented network with something broken, the scan that this gives, and a technician who answers
// each check from what is broken.
#pragma once

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <memory>
#include <sstream>
#include <whichwire/expected_scan.hpp>
#include <whichwire/planner.hpp>

#include "asking.hpp"
#include "checks/moor.hpp"
#include "planner/evidence.hpp"

namespace whichwire::test {

struct Workshop {
  Network network;
  std::vector<PresentFault> truth;  ///< there while one measures
  std::unique_ptr<Effects> effects;
  std::unique_ptr<Electrical> electrical;
  Scan scan;
  Ranking ranking;
  std::unique_ptr<Planner> planner;
  std::vector<Taken> taken;

  /// `words`: as on the command line. The scan is that of the faults, at 12.6 V with the key on.
  explicit Workshop(const std::vector<const char*>& words, Network its = moor::network()) : network(std::move(its)) {
    effects = std::make_unique<Effects>(network);
    electrical = std::make_unique<Electrical>(network);
    std::vector<Fault> faults;
    faults.reserve(words.size());
    for (const char* each : words) faults.push_back(faults_from(network, {each}).front());
    truth = present(faults);
    scan = expected_scan(*effects, faults).scan;
    scan.battery_volts = 12.6;
    ranking = single_faults(faults);
    plan();
  }

  void plan(const PlannerNumbers& numbers = default_planner_numbers()) {
    planner = std::make_unique<Planner>(*effects, ranking, scan, numbers);
  }

  /// As if the search had left so much for each part that it weighed. Plan after it.
  void leave_outside(double outside) {
    for (Explanation& each : ranking.explanations) each.probability.low /= 1 + outside;
    ranking.outside = outside / (1 + outside);
  }

  Assessment assess() const { return planner->assess(taken); }

  /// Types an answer in the form in which people type it.
  void type(const std::string& check, const std::string& text) {
    const ReadingResult read = read_reading(text);
    REQUIRE_MESSAGE(read.reading.has_value(), read.error);
    taken.push_back({"R" + std::to_string(taken.size() + 1), check, {}, *read.reading, ""});
  }

  void say(const std::string& check, const std::string& outcome) {
    taken.push_back({"R" + std::to_string(taken.size() + 1), check, {}, {}, outcome});
  }

  /// Answers the check by what is broken: the usual value of the meter, or the likeliest outcome.
  void answer(const std::string& check) {
    const auto how = planner->measurement_of(check);
    if (how) return answer_by_meter(check, *how);
    std::vector<Fault> faults;
    for (const PresentFault& each : truth) faults.push_back(each.fault);
    for (const Prospect& each : prospects()) {
      if (each.candidate.check.id != check) continue;
      const std::vector<double> chances = chances_of(each.candidate, {1, 0, faults, {}});
      const auto best = std::max_element(chances.begin(), chances.end()) - chances.begin();
      return say(check, each.candidate.outcomes[static_cast<std::size_t>(best)]);
    }
    FAIL("no such check: " << check);
  }

  /// Does what is next until nothing is, at most so many times; returns the minutes.
  double work(int most = 60) {
    double minutes = 0;
    for (int i = 0; i < most; ++i) {
      const Assessment now = assess();
      if (!now.next.check) break;
      minutes += now.next.check->minutes;
      answer(now.next.check->id);
    }
    return minutes;
  }

  std::string ids() const {
    std::string all;
    for (const Taken& each : taken) all += (all.empty() ? "" : " ") + each.check;
    return all;
  }

  double probability(const std::string& repair) const {
    for (const Repair& each : assess().repairs) {
      if (each.what == repair) return each.probability.low;
    }
    return 0;
  }

  /// By plain enumeration: each single fault that lets the same modules answer as the true one, by its odds; and, less
  /// likely, that nothing is wrong. So these tests do not depend on how the evidence of a scan is weighed.
  Ranking single_faults(const std::vector<Fault>& faults) const {
    std::vector<Question> questions;
    for (std::size_t m = 0; m < network.modules.size(); ++m) {
      const Question question{Question::About::answers, m, nowhere};
      if (effects->answerable(question)) questions.push_back(question);
    }
    const auto silent = [&](const std::vector<Fault>& set) {
      std::vector<bool> each;
      for (const Level level : effects->predict(set, questions, {})) each.push_back(level == Level::down);
      return each;
    };
    const std::vector<bool> seen = silent(faults);
    std::vector<std::pair<double, std::vector<Fault>>> sets = {{1e-4, {}}};
    for (const Fault& fault : faults_of(network)) {
      Fault now = fault;
      now.comes_and_goes = false;
      if (silent({now}) == seen)
        sets.emplace_back(fault.comes_and_goes ? fault.odds / 20 : fault.odds, std::vector{fault});
    }
    double sum = 0;
    for (const auto& set : sets) sum += set.first;
    Ranking made;
    made.outside = 1e-4;
    for (const auto& [weight, set] : sets) {
      made.explanations.push_back(
          {{weight / sum * (1 - made.outside), weight / sum}, set, {}, {}, {}, {}, VerdictClass::none});
    }
    return made;
  }

  /// Probability that a bus wire touches ground, after the answers.
  double shorted_to_ground() const {
    const Job job{network, scan};
    const Meter meter(network);
    const Places places = places_of(job);
    const std::vector<Prospect> all = prospects();
    const PlannerNumbers& numbers = default_planner_numbers();
    double sum = 0;
    for (const Suspect& suspect :
         weigh({meter, places, all, numbers}, {suspects_of(network, ranking, numbers), {}}, taken, {}).suspects.all) {
      const bool touches = std::any_of(suspect.set.present.begin(), suspect.set.present.end(), [](const Fault& fault) {
        return fault.part == PartKind::segment && fault.to == ShortTo::ground;
      });
      sum += touches ? suspect.weight : 0;
    }
    return sum;
  }

 private:
  std::vector<Prospect> prospects() const {
    const Job job{network, scan};
    std::set<std::size_t> all;
    for (std::size_t m = 0; m < network.modules.size(); ++m) all.insert(m);
    return prospects_of(job, *effects, places_of(job), suspects_of(network, ranking, default_planner_numbers()), all);
  }

  void answer_by_meter(const std::string& check, const Measurement& how) {
    std::ostringstream text;
    if (how.kind == Reading::Kind::lamp) {
      const double volts = std::abs(electrical->lamp(truth, how.situation).value->nominal);
      text << "lamp " << (volts > 9.6 ? "bright" : volts > 3.6 ? "dim" : "dark");
    } else {
      double lowest = INFINITY;
      for (const auto& probes : how.probes) {
        const Predicted value = how.kind == Reading::Kind::ohms
                                    ? electrical->ohms(truth, how.situation, probes[0], probes[1])
                                    : electrical->volts(truth, how.situation, probes[0], probes[1]);
        REQUIRE_MESSAGE(value.value.has_value(), value.why);
        lowest = std::min(lowest, value.value->nominal);
      }
      if (std::isinf(lowest) || lowest > 4e7) {
        text << "OL";
      } else {
        text << std::round(lowest * 100) / 100 << (how.kind == Reading::Kind::ohms ? " ohm" : " V");
      }
    }
    type(check, text.str());
  }
};

/// What is held likely and what is next, for the messages of failed checks.
inline std::string told(const Assessment& now) {
  std::ostringstream text;
  for (std::size_t i = 0; i < std::min<std::size_t>(now.repairs.size(), 5); ++i) {
    text << now.repairs[i].what << " " << now.repairs[i].probability.low << "; ";
  }
  text << "outside " << now.outside << "; standing " << static_cast<int>(now.decision.standing) << " of "
       << now.decision.repair << "; next " << (now.next.check ? now.next.check->id : "-") << " why "
       << static_cast<int>(now.next.why);
  return text.str();
}

}  // namespace whichwire::test
