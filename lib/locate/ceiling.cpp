#include "locate/ceiling.hpp"

#include <algorithm>
#include <cmath>

#include "locate/tree.hpp"

namespace whichwire::search {
namespace {

double log1p_exp(double x) { return x > 30 ? x : std::log1p(std::exp(x)); }

}  // namespace

Ceiling::Ceiling(const Problem& problem, const Context& context, std::vector<Entry> entries)
    : context_(context), entries_(std::move(entries)) {
  gain_.assign(problem.observations(), 0);
  block_at_.assign(problem.observations(), 0);
  entries_at_.resize(problem.observations());
  improves_.resize(entries_.size());
  alone_.assign(entries_.size(), 0);
  for (std::uint32_t k = 0; k < entries_.size(); ++k) {
    if (entries_[k].prospect->gain <= 0) continue;
    context.visit_gains(*entries_[k].prospect, [&](std::uint32_t observation, double share, double worth) {
      if (worth == 0) return;
      auto& here = entries_at_[observation];
      if (here.empty() || here.back().entry != k) here.push_back({k, 0});
      here.back().worth = std::max(here.back().worth, share);
      gain_[observation] = std::max(gain_[observation], worth);
    });
  }
  for (std::uint32_t o = 0; o < entries_at_.size(); ++o) {
    for (const auto& [k, worth] : entries_at_[o]) {
      improves_[k].push_back({o, worth});
      alone_[k] += worth;
    }
  }
  form_blocks();
  sum_up();
}

void Ceiling::form_blocks() {
  std::vector<std::uint32_t> order;
  for (std::uint32_t k = 0; k < entries_.size(); ++k) {
    if (improves_[k].size() > 1 && own(k) > 0) order.push_back(k);
  }
  std::stable_sort(order.begin(), order.end(), [&](std::uint32_t a, std::uint32_t b) { return alone_[a] > alone_[b]; });
  constexpr std::size_t most_tries = 64;
  std::size_t tries = 0;
  for (const auto seed : order) {
    if (own(seed) <= 0) continue;  // what it improves has gone into blocks meanwhile
    std::vector<std::uint32_t> free;
    for (const auto& [observation, worth] : improves_[seed]) {
      if (block_at_[observation] == 0) free.push_back(observation);
    }
    if (free.size() < 2 || ++tries > most_tries) continue;
    if (worth_a_block(free)) join_block(free);
  }
}

/// Whether moving the observations' g from v to u lowers the bound.
bool Ceiling::worth_a_block(const std::vector<std::uint32_t>& observations) {
  static thread_local std::vector<double> overlap;
  static thread_local std::vector<std::uint32_t> touched;
  overlap.resize(std::max(overlap.size(), entries_.size()), 0);
  double price = 0, saved = 0;
  for (const auto observation : observations) {
    price += gain_[observation];
    for (const auto& [k, worth] : entries_at_[observation]) {
      if (overlap[k] == 0) touched.push_back(k);
      overlap[k] += worth;
    }
  }
  for (const auto k : touched) {
    saved += log1p_exp(own(k)) - log1p_exp(own(k) - overlap[k]);
    overlap[k] = 0;
  }
  touched.clear();
  return saved > price;
}

void Ceiling::join_block(const std::vector<std::uint32_t>& observations) {
  block_gain_.push_back(0);
  const auto block = static_cast<std::uint32_t>(block_gain_.size());
  std::vector<std::uint32_t> meets;  // blocks that a candidate of this one touches as well become part of it
  for (const auto observation : observations) {
    block_at_[observation] = block;
    for (const auto& [k, worth] : entries_at_[observation]) alone_[k] -= worth;
  }
  for (const auto observation : observations) {
    for (const auto& [k, worth] : entries_at_[observation]) {
      for (const auto& [other, its_worth] : improves_[k]) {
        if (block_at_[other] != 0 && block_at_[other] != block) meets.push_back(block_at_[other]);
      }
    }
  }
  std::sort(meets.begin(), meets.end());
  meets.erase(std::unique(meets.begin(), meets.end()), meets.end());
  if (meets.empty()) return;
  for (auto& at : block_at_) {
    if (std::binary_search(meets.begin(), meets.end(), at)) at = block;
  }
}

void Ceiling::sum_up() {
  for (std::size_t o = 0; o < block_at_.size(); ++o) {
    if (block_at_[o] != 0) block_gain_[block_at_[o] - 1] += gain_[o];
  }
  std::vector<std::uint32_t> block_of(entries_.size(), 0);
  free_sum_.assign(entries_.size() + 1, 0);
  odds_sum_.assign(entries_.size() + 1, 0);
  for (const double gain : gain_) all_gain_ += gain;
  for (std::size_t k = entries_.size(); k-- > 0;) {
    odds_sum_[k] = odds_sum_[k + 1] + log1p_exp(entries_[k].log_odds);
    for (const auto& [observation, worth] : improves_[k]) block_of[k] = std::max(block_of[k], block_at_[observation]);
    free_sum_[k] = free_sum_[k + 1] + (block_of[k] == 0 ? log1p_exp(own(k)) : 0.0);
  }
  tails_.resize(block_gain_.size());
  for (std::size_t b = 0; b < block_gain_.size(); ++b) {
    if (block_gain_[b] > 0) sum_up_block(b, block_of);
  }
}

/// Of several borders between explaining much and little, keeps the one with the lowest bound.
void Ceiling::sum_up_block(std::size_t block, const std::vector<std::uint32_t>& block_of) {
  const double gain = block_gain_[block];
  std::vector<double> explains(entries_.size(), 0);
  for (std::size_t k = 0; k < entries_.size(); ++k) {
    if (block_of[k] != block + 1) continue;
    for (const auto& [observation, worth] : improves_[k]) {
      if (block_at_[observation] == block + 1) explains[k] += worth;
    }
  }
  double lowest = INFINITY;
  std::vector<Tail> tails(entries_.size() + 1);
  for (const double border : {0.0, 0.05, 0.1, 0.2, 0.35, 0.6}) {
    for (std::size_t k = entries_.size(); k-- > 0;) {
      tails[k] = tails[k + 1];
      if (block_of[k] != block + 1) continue;
      if (explains[k] >= border * gain) {
        tails[k].large += log1p_exp(own(k));
        tails[k].odds += std::exp(std::min(own(k), 600.0));
        tails[k].most = std::max(tails[k].most, explains[k]);
      } else {
        tails[k].small += log1p_exp(own(k));
        tails[k].one_by_one += log1p_exp(own(k) + explains[k]);
      }
    }
    const double bound = bound_of(gain, tails.front());
    if (bound >= lowest) continue;
    lowest = bound;
    tails_[block] = tails;
  }
}

double Ceiling::bound_of(double gain, const Tail& tail) {
  if (tail.large <= 0) return tail.one_by_one;
  const double full = gain + tail.small;
  const double simple = log_sum(full + log_minus_one(tail.large), tail.one_by_one);
  if (tail.odds > 1) return simple;
  double bound = std::min(full, tail.one_by_one);
  double sets = 0;  // log of a bound of the odds of all sets of j large ones: odds^j / j!
  for (int j = 1; j < 64; ++j) {
    sets += std::log(tail.odds / j);
    const double some = j * tail.most + tail.one_by_one;
    if (some >= full) return std::min(simple, log_sum(bound, full + sets + tail.odds));  // and of more than j
    bound = log_sum(bound, some + sets);
  }
  return simple;
}

double Ceiling::bound(std::size_t from, const Prospect* without) const {
  static thread_local std::vector<double> taken;
  taken.assign(block_gain_.size(), 0);
  double all = all_gain_ + odds_sum_[from];
  if (without != nullptr && without->gain > 0) {
    // What the first member is taken to improve, alone or with the chosen, is in its own weight already.
    context_.visit_hoped(*without, [&](std::uint32_t observation, double change) {
      const double some = std::min(change, gain_[observation]);
      all -= some;
      if (block_at_[observation] != 0) taken[block_at_[observation] - 1] += some;
    });
  }
  double bound = free_sum_[from];
  for (std::size_t b = 0; b < block_gain_.size(); ++b) {
    if (block_gain_[b] > 0) bound += bound_of(std::max(0.0, block_gain_[b] - taken[b]), tails_[b][from]);
  }
  return std::min(bound, all);
}

double Ceiling::all_blocks() const {
  double bound = free_sum_.front();
  for (std::size_t b = 0; b < block_gain_.size(); ++b) {
    if (block_gain_[b] > 0) bound += block_gain_[b] + tails_[b].front().large + tails_[b].front().small;
  }
  return bound;
}

}  // namespace whichwire::search
