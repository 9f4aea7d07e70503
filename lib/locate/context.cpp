#include "locate/context.hpp"

#include <algorithm>
#include <cmath>

#include "locate/tree.hpp"

namespace whichwire::search {
namespace {

/// Levels of `with` that are worse than those of `without`.
void beyond(std::span<const Raised> with, const std::vector<Level>& without, std::vector<Raised>& out) {
  for (const Raised& raised : with) {
    if (raised.level > without[raised.question]) out.push_back(raised);
  }
}

}  // namespace

double Context::most_lost_by_lowering(std::uint32_t observation) const {
  const auto& likelihood = problem_.likelihood[observation];
  const double now = likelihood[static_cast<std::size_t>(level_[observation])];
  double least = now;
  for (auto l = static_cast<std::size_t>(floor_[observation]); l < static_cast<std::size_t>(level_[observation]); ++l) {
    least = std::min(least, likelihood[l]);
  }
  return now - least;
}

double Context::loss_at(std::uint32_t observation, Level level) const {
  const auto& likelihood = problem_.likelihood[observation];
  return likelihood[static_cast<std::size_t>(level_[observation])] -
         likelihood[static_cast<std::size_t>(std::max(level, level_[observation]))];
}

void Context::look(std::span<const Candidate> chosen, std::span<const Candidate> free) {
  ++node_;
  chosen_.assign(chosen.begin(), chosen.end());
  chosen_disturb_ = std::any_of(chosen.begin(), chosen.end(), [&](Candidate c) { return problem_.disturbing(c); });
  const bool parting = !problem_.parts.empty() &&
                       std::any_of(chosen.begin(), chosen.end(), [&](Candidate c) { return problem_.parts[c] != 0; });
  parted_ = parting ? problem_.parted_by(chosen) : nullptr;
  weight_ = together_.log_weight(chosen);
  together_.levels(chosen, level_);
  raised_store_.clear();
  lowered_store_.clear();
  only_store_.clear();
  firm_companions_.clear();
  prospects_.clear();
  prospects_.reserve(free.size());
  for (const auto candidate : free) {
    Prospect& prospect = prospects_.emplace_back();
    prospect.candidate = candidate;
    prospect.log1p_odds = together_.log1p_odds(candidate);
    find_effect(prospect);
  }
  note_places();
  note_company();
  settle_floors();
  weigh();
}

void Context::drop(const std::vector<std::uint8_t>& kept) {
  std::size_t to = 0;
  for (std::size_t i = 0; i < prospects_.size(); ++i) {
    if (kept[i] == 0) continue;
    if (to != i) prospects_[to] = prospects_[i];
    ++to;
  }
  prospects_.resize(to);
  note_places();
}

void Context::note_places() {
  place_.assign(problem_.candidates(), 0);
  for (std::uint32_t i = 0; i < prospects_.size(); ++i) place_[prospects_[i].candidate] = i + 1;
}

void Context::restrict_to(const std::vector<std::uint8_t>& kept) {
  drop(kept);
  ++node_;
  note_company();
  settle_floors();
  weigh();
}

void Context::add_companions(const Prospect& prospect, std::vector<Candidate>& out) const {
  std::vector<Candidate> companions;
  together_.companions(chosen_, prospect.candidate, companions);
  out.insert(out.end(), companions.begin(), companions.end());
}

void Context::find_effect(Prospect& prospect) {
  const auto candidate = prospect.candidate;
  prospect.disturbs = problem_.disturbing(candidate);
  prospect.jointly = !problem_.jointly.empty() && problem_.jointly[candidate] != nothing_jointly;
  together_.companions(chosen_, candidate, companions_);
  prospect.beside = !companions_.empty();
  if (companions_.empty()) {
    prospect.raises = problem_.signatures[problem_.signature[candidate]];
    return;
  }
  prospect.jointly = prospect.jointly && problem_.still_jointly(candidate, companions_);
  // What the candidate adds to the firm effects of the chosen ones: islands only get smaller, so it reaches no further.
  trial_ = companions_;
  for (auto& one : trial_) one |= firmly;
  if (trial_ != firm_companions_) {
    firm_companions_ = trial_;
    together_.levels(trial_, firm_levels_);
  }
  trial_.push_back(candidate);
  auto& raised = raised_store_.emplace_back();
  beyond(together_.of(trial_), firm_levels_, raised);
  if (chosen_disturb_) {
    if (prospect.jointly) add_gained(candidate, raised);
    find_lowered(prospect);
  }
  prospect.raises = raised;
}

/// What it improves beside the chosen, be it only while nothing undoes what they disturb.
void Context::add_gained(Candidate candidate, std::vector<Raised>& raised) {
  trial_ = chosen_;
  trial_.push_back(candidate);
  together_.levels(trial_, scratch_);
  std::vector<Raised> gained;
  auto at = raised.begin();
  for (std::uint32_t o = 0; o < scratch_.size(); ++o) {
    while (at != raised.end() && at->question < o) ++at;
    const auto& likelihood = problem_.likelihood[o];
    if (scratch_[o] <= level_[o] ||
        likelihood[static_cast<std::size_t>(scratch_[o])] <= likelihood[static_cast<std::size_t>(level_[o])])
      continue;
    if (at != raised.end() && at->question == o) {
      at->level = std::max(at->level, scratch_[o]);
    } else {
      gained.push_back({o, scratch_[o]});
    }
  }
  raised.insert(raised.end(), gained.begin(), gained.end());
  std::sort(raised.begin(), raised.end(), [](const Raised& a, const Raised& b) { return a.question < b.question; });
}

void Context::find_lowered(Prospect& prospect) {
  std::vector<std::uint32_t> lowered;
  std::vector<Level> before;
  for (const auto disturber : companions_) {
    if (!problem_.disturbing(disturber)) continue;
    const auto undo = undo_of(prospect.candidate, disturber);
    if (undo == Undo::never) continue;
    trial_ = companions_;
    for (auto& one : trial_) one |= one == disturber ? 0 : firmly;
    together_.levels(trial_, before);
    trial_.push_back(prospect.candidate | firmly);
    together_.levels(trial_, scratch_);
    for (std::uint32_t o = 0; o < before.size(); ++o) {
      if (scratch_[o] < before[o] || (undo != Undo::alone && before[o] != Level::up)) lowered.push_back(o);
    }
  }
  if (lowered.empty()) return;
  std::sort(lowered.begin(), lowered.end());
  lowered.erase(std::unique(lowered.begin(), lowered.end()), lowered.end());
  trial_ = chosen_;
  trial_.push_back(prospect.candidate);
  together_.levels(trial_, scratch_);
  auto& found = lowered_store_.emplace_back();
  for (const auto observation : lowered) found.push_back({observation, scratch_[observation]});
  prospect.lowers = found;
}

double Context::alone(const Prospect& prospect, std::vector<Raised>& raised) {
  raised.clear();
  double ratio = problem_.log_odds[prospect.candidate];
  const auto raise = [&](std::uint32_t observation, Level level) {
    if (level > level_[observation]) raised.push_back({observation, level});
    const auto& likelihood = problem_.likelihood[observation];
    ratio += likelihood[static_cast<std::size_t>(level)] - likelihood[static_cast<std::size_t>(level_[observation])];
  };
  if (!prospect.beside) {
    for (const auto& [observation, level] : prospect.raises) raise(observation, std::max(level, level_[observation]));
    return ratio;
  }
  trial_ = chosen_;
  trial_.push_back(prospect.candidate);
  together_.levels(trial_, scratch_);
  for (std::uint32_t o = 0; o < scratch_.size(); ++o) {
    if (scratch_[o] != level_[o]) raise(o, scratch_[o]);
  }
  return ratio;
}

double Context::exact_pair(const Prospect& a, const Prospect& b) {
  if (!a.beside && !b.beside && problem_.meets(a.candidate, b.candidate)) {
    double weight = problem_.log_odds[a.candidate] + problem_.log_odds[b.candidate];
    for (const auto& [observation, level] : together_.of_pair(a.candidate, b.candidate)) {
      weight -= loss_at(observation, level);
    }
    return weight;
  }
  trial_ = chosen_;
  trial_.push_back(a.candidate);
  trial_.push_back(b.candidate);
  return together_.log_weight(trial_) - weight_;
}

double Context::firm_penalty(const Prospect& prospect) {
  trial_.clear();
  if (prospect.beside) together_.companions(chosen_, prospect.candidate, trial_);
  trial_.push_back(prospect.candidate);
  for (auto& one : trial_) one |= firmly;
  double penalty = 0;
  for (const auto& [observation, level] : together_.of(trial_)) {
    if (level > floor_[observation]) penalty += std::max(0.0, -at_best(observation, level));
  }
  return penalty;
}

void Context::note_company() {
  if (problem_.meetings.empty()) return;
  // How many are in each group, and how many of them on each side.
  static thread_local std::vector<std::uint32_t> members, on_side;
  members.clear();
  on_side.clear();
  const auto count = [&](Candidate candidate) {
    for (const Meeting& meeting : problem_.meetings[candidate]) {
      if (members.size() <= meeting.group) {
        members.resize(meeting.group + 1, 0);
        on_side.resize(members.size() * problem_.sides, 0);
      }
      ++members[meeting.group];
      ++on_side[meeting.group * problem_.sides + meeting.side];
    }
  };
  const auto meets_one = [&](const Prospect& prospect, std::uint32_t itself) {
    const auto& meetings = problem_.meetings[prospect.candidate];
    return std::any_of(meetings.begin(), meetings.end(), [&](const Meeting& meeting) {
      if (meeting.through_others || meeting.group >= members.size()) return false;
      const auto not_met = meeting.side == 0 ? itself : on_side[meeting.group * problem_.sides + meeting.side];
      return members[meeting.group] > not_met;
    });
  };
  for (const auto candidate : chosen_) count(candidate);
  for (Prospect& prospect : prospects_) prospect.joined = meets_one(prospect, 0);
  for (const Prospect& prospect : prospects_) count(prospect.candidate);
  for (Prospect& prospect : prospects_) prospect.company = meets_one(prospect, 1);
}

void Context::settle_floors() {
  if (!chosen_disturb_) {
    floor_ = level_;
    return;
  }
  lowered_.assign(level_.size(), 0);
  for (const Prospect& prospect : prospects_) {
    for (const Lowered& lowered : prospect.lowers) lowered_[lowered.observation] = 1;
  }
  trial_ = chosen_;
  for (auto& one : trial_) one |= firmly;
  together_.levels(trial_, floor_);
  // A disturbance that no free candidate can cut off holds what it has raised.
  for (auto& one : trial_) {
    if (!problem_.disturbing(bare(one))) continue;
    one = bare(one);
    together_.levels(trial_, scratch_);
    one |= firmly;
    for (std::size_t o = 0; o < scratch_.size(); ++o) {
      if (lowered_[o] == 0) floor_[o] = std::max(floor_[o], scratch_[o]);
    }
  }
}

Undo Context::undo_of(Candidate cut, Candidate disturber) const {
  const auto undo = problem_.undo.of(cut, disturber);
  return undo != Undo::never && parted_ && parted_(cut, disturber) ? Undo::never : undo;
}

}  // namespace whichwire::search
