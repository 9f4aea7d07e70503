#include "locate/network_problem.hpp"

#include <algorithm>
#include <cmath>
#include <unordered_map>

#include "effects/compiled.hpp"
#include "locate/meetings.hpp"

namespace whichwire {
namespace {

using search::Candidate;

struct HashRaised {
  std::size_t operator()(const std::vector<Raised>& raised) const {
    std::uint64_t hash = raised.size();
    for (const auto& [question, level] : raised) {
      hash = (hash ^ (question * 8ULL + static_cast<std::uint64_t>(level))) * 0xff51afd7ed558ccdULL + (hash >> 31);
    }
    return static_cast<std::size_t>(hash);
  }
};

/// Each observation at the worse of its levels; readings stand behind all else.
void raise_all(const std::vector<Raised>& more, std::vector<Raised>& out) {
  for (const Raised& one : more) {
    const auto at =
        std::lower_bound(out.begin(), out.end(), one.question,
                         [](const Raised& other, std::uint32_t question) { return other.question < question; });
    if (at != out.end() && at->question == one.question) {
      at->level = std::max(at->level, one.level);
    } else {
      out.insert(at, one);
    }
  }
}

class ProblemMaker {
 public:
  ProblemMaker(const Effects& effects, const std::vector<Fault>& faults, const std::vector<Observation>& evidence,
               const Circumstances& circumstances, std::span<const Measured> readings)
      : effects_(effects),
        faults_(faults),
        readings_(readings),
        supply_(effects.compiled().supply_in(circumstances.key)),
        read_(std::make_shared<std::vector<std::vector<Raised>>>(faults.size())) {
    std::vector<Question> questions;
    for (const auto& observation : evidence) {
      questions.push_back(observation.question);
      add_observation(observation.log_likelihood, observation.abnormal);
    }
    made_.predictor = std::make_shared<Predictor>(effects.compiled(), questions, circumstances);
  }

  NetworkProblem make() {
    auto& problem = made_.problem;
    for (const Measured& reading : readings_) add_reading(reading);
    Meetings meetings(effects_.compiled(), supply_, *made_.predictor);
    for (std::size_t f = 0; f < faults_.size(); ++f) add(f, meetings);
    meetings.finish(problem);
    mark_listed();
    fill_undo_table();
    add_rules();
    return std::move(made_);
  }

 private:
  void add_observation(const search::Likelihood& likelihood, bool abnormal) {
    made_.problem.likelihood.push_back(likelihood);
    abnormal_.push_back(abnormal);
  }

  void add_reading(const Measured& reading) {
    const auto observation = static_cast<std::uint32_t>(abnormal_.size());
    const auto& likelihood = reading.log_likelihood;
    add_observation(likelihood, *std::max_element(likelihood.begin(), likelihood.end()) > likelihood.front());
    for (std::size_t f = 0; f < faults_.size(); ++f) {
      if (reading.levels[f] != Level::up) (*read_)[f].push_back({observation, reading.levels[f]});
    }
  }

  void add(std::size_t f, Meetings& meetings) {
    const Fault& fault = faults_[f];
    std::vector<std::uint32_t> routed;
    const std::vector<Raised>& read = (*read_)[f];
    if (fault.comes_and_goes) {
      made_.predictor->left_behind(fault, raised_);
      if (!supported(raised_) && !supported(read)) return;
    } else {
      const Fault* only[] = {&fault};
      made_.predictor->present(only, {}, raised_);
      routed = made_.predictor->routed_questions();
    }
    auto& problem = made_.problem;
    problem.log_odds.push_back(std::log(fault.odds));
    const std::vector<Raised> of_scan = raised_;
    raised_.insert(raised_.end(), read.begin(), read.end());
    const auto [at, fresh] = index_.try_emplace(raised_, static_cast<std::uint32_t>(problem.signatures.size()));
    if (fresh) problem.signatures.push_back(raised_);
    problem.signature.push_back(at->second);
    made_.faults.push_back(f);
    meetings.add(fault, of_scan, routed);
  }

  bool supported(const std::vector<Raised>& all) const {
    return std::any_of(all.begin(), all.end(), [&](const Raised& raised) {
      const auto& likelihood = made_.problem.likelihood[raised.question];
      return likelihood[static_cast<std::size_t>(raised.level)] > likelihood.front();
    });
  }

  bool accounts(const std::vector<Raised>& raised) const {
    return std::any_of(raised.begin(), raised.end(), [&](const Raised& one) { return abnormal_[one.question]; });
  }

  /// Listed: what can raise something abnormal, alone or jointly, and all that meets such a candidate.
  void mark_listed() {
    auto& problem = made_.problem;
    std::vector<std::uint8_t> by_signature, by_reach, by_group(problem.candidates() + 1, 0);
    for (const auto& signature : problem.signatures) by_signature.push_back(accounts(signature) ? 1 : 0);
    for (const auto& reach : problem.joint_reaches) {
      by_reach.push_back(accounts(reach.beside) ? 1 : 0);
    }
    problem.listed.assign(problem.candidates(), 0);
    for (Candidate c = 0; c < problem.candidates(); ++c) {
      problem.listed[c] = by_signature[problem.signature[c]];
      if (problem.jointly[c] != search::nothing_jointly) problem.listed[c] |= by_reach[problem.jointly[c]];
      for (const auto& meeting : problem.meetings[c]) {
        by_group.resize(std::max<std::size_t>(by_group.size(), meeting.group + 1), 0);
        by_group[meeting.group] |= problem.listed[c];
      }
    }
    for (Candidate c = 0; c < problem.candidates(); ++c) {
      for (const auto& meeting : problem.meetings[c]) problem.listed[c] |= by_group[meeting.group];
    }
  }

  void add_rules() {
    const auto* faults = &faults_;
    auto which = std::make_shared<std::vector<std::size_t>>(made_.faults);
    made_.problem.together = [faults, which, predictor = made_.predictor, read = read_,
                              acting = std::vector<const Fault*>(), firmly = std::vector<const Fault*>()](
                                 std::span<const Candidate> set, std::vector<Raised>& out) mutable {
      acting.clear();
      firmly.clear();
      for (const auto candidate : set) {
        const Fault* fault = &(*faults)[(*which)[search::bare(candidate)]];
        (candidate == search::bare(candidate) ? acting : firmly).push_back(fault);
      }
      predictor->present(acting, firmly, out);
      for (const auto candidate : set) raise_all((*read)[(*which)[search::bare(candidate)]], out);
    };
    const auto* compiled = &effects_.compiled();
    made_.problem.still_jointly = [faults, which, compiled, predictor = made_.predictor](
                                      Candidate candidate, std::span<const Candidate> chosen) {
      std::vector<const Fault*> beside;
      for (const auto one : chosen) beside.push_back(&(*faults)[(*which)[one]]);
      return still_parts(*compiled, *predictor, (*faults)[(*which)[candidate]], beside);
    };
    made_.problem.parted_by = [faults, which, compiled](std::span<const Candidate> chosen) {
      std::vector<const Fault*> breaks;
      for (const auto one : chosen) breaks.push_back(&(*faults)[(*which)[one]]);
      return [faults, which, pieces = Pieces(*compiled, breaks)](Candidate cut, Candidate disturber) {
        return pieces.parted((*faults)[(*which)[cut]], (*faults)[(*which)[disturber]]);
      };
    };
  }

  /// Who may undo whom: cells are only asked where the two meet.
  void fill_undo_table() {
    auto& problem = made_.problem;
    auto& table = problem.undo;
    const Undoing undoing(effects_.compiled(), supply_, *made_.predictor);
    std::vector<Candidate> disturbers;
    table.column.assign(problem.candidates(), search::UndoTable::not_in_it);
    table.row.assign(problem.candidates(), search::UndoTable::not_in_it);
    for (Candidate c = 0; c < problem.candidates(); ++c) {
      problem.parts.push_back(parts_bus(faults_[made_.faults[c]]) ? 1 : 0);
      if (!problem.disturbing(c)) continue;
      table.column[c] = table.columns++;
      disturbers.push_back(c);
    }
    table.cuts.resize(table.columns);
    std::vector<search::Undo> row(table.columns);
    std::uint32_t rows = 0;
    for (Candidate c = 0; c < problem.candidates(); ++c) {
      if (!problem.meets_any(c)) continue;
      const Fault& cut = faults_[made_.faults[c]];
      bool any = false;
      for (std::size_t d = 0; d < disturbers.size(); ++d) {
        const bool asked = disturbers[d] != c && problem.meets(c, disturbers[d]);
        row[d] = asked ? undoing.of(cut, faults_[made_.faults[disturbers[d]]]) : search::Undo::never;
        if (row[d] == search::Undo::never) continue;
        table.cuts[d].push_back(c);
        any = true;
      }
      if (!any) continue;
      table.row[c] = rows++;
      table.cells.insert(table.cells.end(), row.begin(), row.end());
    }
  }

  const Effects& effects_;
  const std::vector<Fault>& faults_;
  std::span<const Measured> readings_;
  const Supply& supply_;
  std::vector<bool> abnormal_;                              ///< by observation
  std::shared_ptr<std::vector<std::vector<Raised>>> read_;  ///< by fault: readings that it raises
  NetworkProblem made_;
  std::vector<Raised> raised_;
  std::unordered_map<std::vector<Raised>, std::uint32_t, HashRaised> index_;
};

}  // namespace

NetworkProblem problem_of(const Effects& effects, const std::vector<Fault>& faults,
                          const std::vector<Observation>& evidence, const Circumstances& circumstances,
                          std::span<const Measured> readings) {
  return ProblemMaker(effects, faults, evidence, circumstances, readings).make();
}

}  // namespace whichwire
