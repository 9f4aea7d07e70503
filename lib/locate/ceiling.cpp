#include "locate/ceiling.hpp"

#include <algorithm>
#include <cmath>

#include "locate/tree.hpp"

namespace whichwire::search {
Ceiling::Ceiling(const Problem& problem, const Context& context, std::vector<Entry> entries)
    : context_(context), entries_(std::move(entries)) {
  gain_.assign(problem.observations(), 0);
  free_gain_.assign(problem.observations(), 0);
  block_at_.assign(problem.observations(), 0);
  entries_at_.resize(problem.observations());
  improves_.resize(entries_.size());
  paid_.assign(entries_.size(), 0);
  for (std::uint32_t k = 0; k < entries_.size(); ++k) {
    if (entries_[k].prospect->gain <= 0) continue;
    context.visit_gains(*entries_[k].prospect, [&](std::uint32_t observation, double worth, double share) {
      if (worth == 0) return;
      auto& here = entries_at_[observation];
      if (here.empty() || here.back().entry != k) here.push_back({k});
      if (share == 1) {
        here.back().alone = std::max(here.back().alone, worth);
      } else {
        here.back().joint = worth;
        here.back().share = share;
      }
      gain_[observation] = std::max(gain_[observation], worth);
    });
  }
  for (std::uint32_t o = 0; o < entries_at_.size(); ++o) {
    for (std::uint32_t i = 0; i < entries_at_[o].size(); ++i) {
      const Improver& one = entries_at_[o][i];
      improves_[one.entry].push_back({o, i});
      paid_[one.entry] += one.beyond(0);
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
  std::stable_sort(order.begin(), order.end(), [&](std::uint32_t a, std::uint32_t b) { return paid_[a] > paid_[b]; });
  constexpr std::size_t most_tries = 64;
  std::size_t tries = 0;
  for (const auto seed : order) {
    if (own(seed) <= 0) continue;  // what it improves has gone into blocks meanwhile
    std::vector<Hold> free;
    for (const Hold& hold : improves_[seed]) {
      if (block_at_[hold.observation] == 0) free.push_back(hold);
    }
    if (free.size() < 2 || ++tries > most_tries) continue;
    // As u either what the seed brings, or all that anything can.
    std::vector<double> brought, most;
    for (const Hold& hold : free) {
      brought.push_back(at(hold).beyond(0));
      most.push_back(gain_[hold.observation]);
    }
    const double by_brought = saved_by(free, brought), by_most = saved_by(free, most);
    if (std::max(by_brought, by_most) > 0) join_block(free, by_most > by_brought ? most : brought);
  }
}

/// By how much the bound is lower with these u at the observations.
double Ceiling::saved_by(const std::vector<Hold>& holds, const std::vector<double>& free) {
  static thread_local std::vector<double> overlap;
  static thread_local std::vector<std::uint32_t> touched;
  overlap.resize(std::max(overlap.size(), entries_.size()), 0);
  double price = 0, saved = 0;
  for (std::size_t i = 0; i < holds.size(); ++i) {
    price += free[i];
    for (const Improver& one : entries_at_[holds[i].observation]) {
      if (overlap[one.entry] == 0) touched.push_back(one.entry);
      overlap[one.entry] += one.beyond(0) - one.beyond(free[i]);
    }
  }
  for (const auto k : touched) {
    saved += log1p_exp(own(k)) - log1p_exp(own(k) - overlap[k]);
    overlap[k] = 0;
  }
  touched.clear();
  return saved - price;
}

void Ceiling::join_block(const std::vector<Hold>& holds, const std::vector<double>& free) {
  blocks_.emplace_back();
  const auto block = static_cast<std::uint32_t>(blocks_.size());
  std::vector<std::uint32_t> meets;  // blocks that a candidate of this one touches as well become part of it
  for (std::size_t i = 0; i < holds.size(); ++i) {
    const auto observation = holds[i].observation;
    free_gain_[observation] = free[i];
    block_at_[observation] = block;
    for (const Improver& one : entries_at_[observation]) paid_[one.entry] += one.beyond(free[i]) - one.beyond(0);
  }
  for (const Hold& hold : holds) {
    for (const Improver& one : entries_at_[hold.observation]) {
      for (const Hold& other : improves_[one.entry]) {
        if (block_at_[other.observation] != 0 && block_at_[other.observation] != block)
          meets.push_back(block_at_[other.observation]);
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
    if (block_at_[o] != 0) blocks_[block_at_[o] - 1].gain += free_gain_[o];
  }
  free_sum_.assign(entries_.size() + 1, 0);
  odds_sum_.assign(entries_.size() + 1, 0);
  for (const double gain : gain_) all_gain_ += gain;
  for (std::uint32_t k = 0; k < entries_.size(); ++k) {
    std::uint32_t block = 0;
    for (const Hold& hold : improves_[k]) block = std::max(block, block_at_[hold.observation]);
    if (block != 0) {
      blocks_[block - 1].members.push_back(k);
    } else {
      free_sum_[k] = log1p_exp(own(k));
    }
    odds_sum_[k] = log1p_exp(entries_[k].log_odds);
  }
  for (std::size_t k = entries_.size(); k-- > 0;) {
    free_sum_[k] += free_sum_[k + 1];
    odds_sum_[k] += odds_sum_[k + 1];
  }
  for (std::uint32_t b = 0; b < blocks_.size(); ++b) {
    if (blocks_[b].gain > 0) sum_up(b);
  }
}

/// Of several borders between explaining much and little, takes the one with the lowest bound.
void Ceiling::sum_up(std::uint32_t which) {
  Block& block = blocks_[which];
  std::vector<Share> shares;
  for (const auto k : block.members) {
    Share& share = shares.emplace_back();
    for (const Hold& hold : improves_[k]) {
      if (block_at_[hold.observation] == which + 1) share.explains += at(hold).within(free_gain_[hold.observation]);
    }
    share.odds = std::exp(std::min(own(k), 600.0));
    share.log1p_odds = log1p_exp(own(k));
    share.log1p_with = log1p_exp(own(k) + share.explains);
    share.alone = share.odds * std::exp(std::min(0.0, share.explains - block.gain));
  }
  double lowest = INFINITY, border = 0;
  for (const double tried : {0.0, 0.05, 0.1, 0.2, 0.35, 0.6}) {
    Tail all;
    for (const Share& share : shares) all.add(share, tried, block.gain);
    const double bound = bound_of(block.gain, block.gain, all);
    if (bound >= lowest) continue;
    lowest = bound;
    border = tried;
  }
  block.tails.resize(shares.size() + 1);
  for (std::size_t i = shares.size(); i-- > 0;) {
    block.tails[i] = block.tails[i + 1];
    block.tails[i].add(shares[i], border, block.gain);
  }
}

void Ceiling::Tail::add(const Share& share, double border, double gain) {
  if (share.explains < border * gain) {
    small += share.log1p_odds;
    one_by_one += share.log1p_with;
    return;
  }
  large += share.log1p_odds;
  most = std::max(most, share.explains);
  const auto sort = std::min(sorts.size() - 1, static_cast<std::size_t>(4 * share.explains / gain));
  sorts[sort].odds += share.odds;
  sorts[sort].alone += share.alone;
}

double Ceiling::bound_of(double all, double gain, const Tail& tail) {
  if (tail.large <= 0) return tail.one_by_one;
  const double full = gain + tail.small;
  const double simple = log_sum(full + log_minus_one(tail.large), tail.one_by_one);
  // Of sets with one large member, where that explains nearly all, the others hardly gain anything.
  double odds = 0, one = 0;
  for (const Sort& sort : tail.sorts) {
    odds += sort.odds;
    one += std::min(sort.odds, sort.alone * std::exp(std::min(all - gain + tail.one_by_one - tail.small, 600.0)));
  }
  if (odds > 1) return simple;
  double bound = std::min(full, tail.one_by_one);
  double sets = 0;  // log of a bound of the odds of all sets of j large ones: odds^j / j!
  for (int j = 1; j < 64; ++j) {
    sets += std::log(odds / j);
    const double some = j * tail.most + tail.one_by_one;
    if (j > 1 && some >= full) return std::min(simple, log_sum(bound, full + sets + odds));  // and of more than j
    bound = log_sum(bound, j == 1 ? full + std::log(one) : some + sets);
  }
  return simple;
}

double Ceiling::bound(std::size_t from, const Prospect* without) const {
  static thread_local std::vector<double> taken;
  taken.assign(blocks_.size(), 0);
  double all = all_gain_ + odds_sum_[from];
  if (without != nullptr && without->gain > 0) {
    // What the first member is taken to improve, alone or with the chosen, is in its own weight already.
    context_.visit_hoped(*without, [&](std::uint32_t observation, double worth, double share) {
      all -= share * std::min(worth, gain_[observation]);
      if (block_at_[observation] != 0)
        taken[block_at_[observation] - 1] += share * std::min(worth, free_gain_[observation]);
    });
  }
  double bound = free_sum_[from];
  for (std::size_t b = 0; b < blocks_.size(); ++b) {
    const Block& block = blocks_[b];
    if (block.gain <= 0) continue;
    const auto at = std::lower_bound(block.members.begin(), block.members.end(), from) - block.members.begin();
    bound += bound_of(block.gain, std::max(0.0, block.gain - taken[b]), block.tails[static_cast<std::size_t>(at)]);
  }
  return std::min(bound, all);
}

double Ceiling::all_blocks() const {
  double bound = free_sum_.front();
  for (const Block& block : blocks_) {
    if (block.gain > 0) bound += block.gain + block.tails.front().large + block.tails.front().small;
  }
  return bound;
}

}  // namespace whichwire::search
