#include "locate/gains.hpp"

namespace whichwire::search {

Gains::Gains(const Problem& problem, const Context& context, const Prospect* first) : context_(context) {
  place_of_.assign(problem.observations(), nowhere);
  if (first == nullptr) return;
  taken_.assign(problem.observations(), 0);
  context.visit_hoped(*first, [&](std::uint32_t observation, double worth, double share) {
    if (share == 1) taken_[observation] = worth;
  });
}

void Gains::add(const Prospect& prospect) {
  const auto entry = entries_++;
  if (prospect.gain <= 0) return;
  context_.visit_gains(prospect, [&](std::uint32_t observation, double worth, double share) {
    if (!taken_.empty()) worth = std::max(0.0, worth - taken_[observation]);
    if (worth == 0) return;
    auto& place = place_of_[observation];
    if (place == nowhere) {
      place = static_cast<std::uint32_t>(most_.size());
      most_.push_back(0);
      last_.push_back(nowhere);
    }
    most_[place] = std::max(most_[place], worth);
    if (last_[place] == nowhere || improvers_[last_[place]].entry != entry) {
      last_[place] = static_cast<std::uint32_t>(improvers_.size());
      improvers_.push_back({entry, place});
    }
    Improver& here = improvers_[last_[place]];
    if (share == 1) {
      here.alone = std::max(here.alone, worth);
    } else {
      here.joint = std::max(here.joint, worth);
      here.share = share;
    }
  });
}

void Gains::finish() {
  from_.assign(places() + 1, 0);
  of_from_.assign(entries_ + 1, 0);
  for (const Improver& one : improvers_) {
    ++from_[one.place + 1];
    ++of_from_[one.entry + 1];
  }
  for (std::size_t i = 1; i < from_.size(); ++i) from_[i] += from_[i - 1];
  for (std::size_t i = 1; i < of_from_.size(); ++i) of_from_[i] += of_from_[i - 1];
  std::vector<Improver> sorted(improvers_.size());
  auto next = from_;
  for (const Improver& one : improvers_) sorted[next[one.place]++] = one;
  improvers_.swap(sorted);
  of_.resize(improvers_.size());
  next = of_from_;
  for (std::uint32_t i = 0; i < improvers_.size(); ++i) of_[next[improvers_[i].entry]++] = i;
}

}  // namespace whichwire::search
