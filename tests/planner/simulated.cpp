#include "planner/simulated.hpp"

#include <algorithm>
#include <cmath>
#include <sstream>
#include <whichwire/findings.hpp>
#include <whichwire/reading.hpp>

#include "planner/numbers.hpp"
#include "planner/suspects.hpp"

namespace whichwire::test {

double Chance::bell() {
  double sum = -6;
  for (int i = 0; i < 12; ++i) sum += fraction();
  return sum;
}

std::size_t Chance::by_weight(const std::vector<double>& weights) {
  double rest = 0;
  for (const double weight : weights) rest += weight;
  rest *= fraction();
  for (std::size_t i = 0; i + 1 < weights.size(); ++i) {
    if (rest < weights[i]) return i;
    rest -= weights[i];
  }
  return weights.size() - 1;
}

namespace {

/// Faults that are there while one measures, by their odds; one in ten vehicles has two.
std::vector<Fault> drawn(const Network& network, Chance& chance) {
  std::vector<Fault> all;
  std::vector<double> odds;
  for (const Fault& fault : faults_of(network)) {
    if (fault.comes_and_goes || fault.kind == FaultKind::not_fitted) continue;
    all.push_back(fault);
    odds.push_back(fault.odds);
  }
  std::vector<Fault> faults = {all[chance.by_weight(odds)]};
  if (chance.of(0.1)) {
    const Fault second = all[chance.by_weight(odds)];
    if (!(second == faults.front())) faults.push_back(second);
  }
  return faults;
}

/// As a meter finds them: an open supply may be a bad contact, a pulled-down reference is so in a load or the wire.
std::vector<PresentFault> as_measured(const Network& network, const std::vector<Fault>& faults, Chance& chance) {
  std::vector<PresentFault> all = present(faults);
  const PlannerNumbers& numbers = default_planner_numbers();
  for (PresentFault& each : all) {
    const bool supply = each.fault.part == PartKind::power_pin || each.fault.part == PartKind::ground_pin ||
                        each.fault.part == PartKind::feed || each.fault.part == PartKind::ground;
    if (supply && each.fault.kind == FaultKind::open && chance.of(number_of(numbers, "bad-contact"))) {
      const double low = number_of(numbers, "bad-contact-low"), high = number_of(numbers, "bad-contact-high");
      each.ohms = exactly(low * std::pow(high / low, chance.fraction()));
    }
    if (each.fault.part == PartKind::reference && each.fault.kind == FaultKind::short_circuit) {
      const auto loads = network.modules[each.fault.owner].references[each.fault.item].loads.size();
      if (loads > 0 && !chance.of(knowledge().limit("reference-short-in-wire"))) each.load = chance.below(loads);
    }
  }
  return all;
}

/// The scan of these faults; modules that are unlucky, codes that are not stored or were left over. The shares are
/// those of lib/locate/likelihood.csv.
Scan noisy(const Network& network, const ExpectedScan& expected, Chance& chance) {
  Scan scan = expected.scan;
  scan.key_stated = true;
  scan.battery_volts = 12.5;
  for (ModuleSeen& seen : scan.modules) {
    const std::size_t m = index_of(network.modules, seen.module);
    std::erase_if(seen.codes, [&](const CodeSeen&) { return chance.of(0.4); });
    for (std::size_t i = 0; i < expected.questions.size(); ++i) {
      const Question& question = expected.questions[i];
      const Level level = expected.levels[i];
      if (question.a != m) continue;
      if (question.about == Question::About::answers) {
        if (level != Level::down && chance.of(level == Level::unsure ? 0.1 : 0.015)) seen.answer = Answer::no;
      } else if (question.about == Question::About::hears && level == Level::up && chance.of(0.015)) {
        CodeSeen code;
        code.misses = network.modules[question.b].id;
        code.text = "no messages from " + code.misses;
        code.state = chance.of(0.2) ? CodeState::current : CodeState::history;
        seen.codes.push_back(code);
      }
    }
    if (seen.answer == Answer::no) seen.codes.clear();
  }
  for (FunctionSeen& seen : scan.functions) {
    if (chance.of(seen.works ? 0.05 : 0.02)) seen.works = !seen.works;
  }
  return scan;
}

class Technician {
 public:
  Technician(const Network& network, const Effects& effects, const Scan& scan, const Ranking& ranking,
             std::vector<PresentFault> truth, Chance& chance)
      : electrical_(network), truth_(std::move(truth)), chance_(chance) {
    const Job job{network, scan};
    std::set<std::size_t> modules;
    for (std::size_t m = 0; m < network.modules.size(); ++m) modules.insert(m);
    prospects_ =
        prospects_of(job, effects, places_of(job), suspects_of(network, ranking, default_planner_numbers()), modules);
    for (const PresentFault& each : truth_) faults_.push_back(each.fault);
  }

  Taken answer(const NextCheck& next) {
    Taken taken{std::to_string(++count_), next.check->id, {}, {}, ""};
    if (next.measurement) {
      taken.reading = *read_reading(shown(*next.measurement)).reading;
    } else {
      taken.outcome = seen(next.check->id);
    }
    return taken;
  }

 private:
  std::string seen(const std::string& check) {
    const auto found = std::ranges::find_if(
        prospects_, [&](const Prospect& prospect) { return prospect.candidate.check.id == check; });
    if (found == prospects_.end()) return std::string(not_done);
    const std::vector<double> chances = chances_of(found->candidate, {1, 0, faults_, {}});
    return found->candidate.outcomes[chance_.by_weight(chances)];
  }

  /// What is typed: the value with the spread of vehicles and meters; two in a hundred beside the terminal.
  std::string shown(const Measurement& how) {
    const bool slip = chance_.of(0.02);
    if (how.kind == Reading::Kind::lamp) {
      const double share = slip ? chance_.fraction() : value_in(*electrical_.lamp(truth_, how.situation).value) / 12;
      return std::string("lamp ") + (share > 0.8 ? "bright" : share > 0.3 ? "dim" : "dark");
    }
    const bool ohms = how.kind == Reading::Kind::ohms;
    double value = INFINITY;
    for (const auto& probes : how.probes) {
      const Predicted one = ohms ? electrical_.ohms(truth_, how.situation, probes[0], probes[1])
                                 : electrical_.volts(truth_, how.situation, probes[0], probes[1]);
      if (one.value) value = std::min(value, value_in(*one.value));
    }
    if (slip)
      value = ohms ? (chance_.of(0.3) ? INFINITY : std::sinh(chance_.fraction() * 18)) : chance_.fraction() * 14;
    if (std::isinf(value) || value > 4e7) return "OL";
    value += chance_.bell() * (ohms ? (0.01 * value + 0.2) / 2 : (0.006 * std::abs(value) + 0.01) / 2);
    std::ostringstream text;
    text << std::round(value * 100) / 100 << (ohms ? " ohm" : " V");
    return text.str();
  }

  /// Half of all parts near their usual value, the rest anywhere within the limits.
  double value_in(const Interval& limits) {
    if (std::isinf(limits.nominal) || std::isinf(limits.high)) return limits.nominal;
    if (!chance_.of(0.5)) return limits.low + (limits.high - limits.low) * chance_.fraction();
    const double off = chance_.bell();
    return limits.nominal + off * 0.25 * (off < 0 ? limits.nominal - limits.low : limits.high - limits.nominal);
  }

  Electrical electrical_;
  std::vector<PresentFault> truth_;
  std::vector<Fault> faults_;
  std::vector<Prospect> prospects_;
  Chance& chance_;
  int count_ = 0;
};

/// The repair that mends the truth, as the planner names it.
std::string repair_for(const Network& network, const std::vector<PresentFault>& truth) {
  Ranking only;
  std::vector<Fault> faults;
  std::size_t load = nowhere;
  for (const PresentFault& each : truth) {
    faults.push_back(each.fault);
    if (each.load != nowhere && load == nowhere) load = each.load;
  }
  only.explanations.push_back({{1, 1}, faults, {}, {}, {}, {}, VerdictClass::none});
  const Suspects suspects = suspects_of(network, only, default_planner_numbers());
  for (const Suspect& suspect : suspects.all) {
    if (suspect.load == load) return suspects.repairs[suspect.repair];
  }
  return "";
}

std::vector<std::string> parted(const std::string& repairs) {
  std::vector<std::string> all;
  for (std::size_t begin = 0, end = 0; begin <= repairs.size(); begin = end + 3) {
    end = std::min(repairs.find(" + ", begin), repairs.size());
    all.push_back(repairs.substr(begin, end - begin));
  }
  return all;
}

}  // namespace

bool JobDone::right() const {
  const std::vector<std::string> needed = parted(truth), said = parted(last.decision.repair);
  return !last.decision.repair.empty() && std::ranges::all_of(said, [&](const std::string& part) {
    return std::ranges::find(needed, part) != needed.end();
  });
}

std::optional<JobDone> simulated_job(const Network& network, Chance& chance) {
  constexpr int most_checks = 60;
  const Effects effects(network);
  const std::vector<Fault> faults = drawn(network, chance);
  const ExpectedScan expected = expected_scan(effects, faults);
  if (std::ranges::find(expected.levels, Level::down) == expected.levels.end()) return std::nullopt;
  const std::vector<PresentFault> truth = as_measured(network, faults, chance);
  const Scan scan = noisy(network, expected, chance);
  const Ranking ranking = locate(effects, faults_of(network), scan);
  const Planner planner(effects, ranking, scan);
  Technician technician(network, effects, scan, ranking, truth, chance);
  JobDone done;
  done.truth = repair_for(network, truth);
  std::vector<Taken> taken;
  for (done.last = planner.assess(taken); done.last.next.check && done.checks < most_checks; ++done.checks) {
    done.minutes += done.last.next.check->minutes;
    done.asked.push_back(done.last.next.check->id);
    taken.push_back(technician.answer(done.last.next));
    done.last = planner.assess(taken);
  }
  return done;
}

}  // namespace whichwire::test
