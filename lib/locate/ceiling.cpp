#include "locate/ceiling.hpp"

#include <algorithm>
#include <cmath>

#include "locate/tree.hpp"

namespace whichwire::search {
Ceiling::Ceiling(const Problem& problem, const Context& context, std::vector<Entry> entries, const Prospect* first)
    : problem_(problem), context_(context), entries_(std::move(entries)), gains_(problem, context, first) {
  // Then there is nothing to be gained by blocks.
  unlikely_ = std::none_of(entries_.begin(), entries_.end(), [](const Entry& entry) {
    return entry.log_odds + entry.prospect->gain > 0 || entry.prospect->raises_jointly();
  });
  for (const Entry& entry : entries_) {
    if (unlikely_) {
      gains_.leave_out();
    } else {
      gains_.add(*entry.prospect);
    }
    paid_.push_back(unlikely_ ? entry.prospect->gain : 0);
    all_gain_ += paid_.back();
  }
  gains_.finish();
  free_gain_.assign(gains_.places(), 0);
  block_at_.assign(gains_.places(), 0);
  for (std::uint32_t k = 0; k < entries_.size(); ++k) {
    for (const auto hold : gains_.of(k)) paid_[k] += gains_.improver(hold).beyond(0);
  }
  form_blocks();
  sum_up();
}

void Ceiling::form_blocks() {
  std::vector<std::uint32_t> order;
  for (std::uint32_t k = 0; k < entries_.size(); ++k) {
    if (gains_.of(k).size() > 1 && own(k) > 0) order.push_back(k);
  }
  std::stable_sort(order.begin(), order.end(), [&](std::uint32_t a, std::uint32_t b) { return paid_[a] > paid_[b]; });
  constexpr std::size_t most_tries = 64;
  std::size_t tries = 0;
  for (const auto seed : order) {
    if (own(seed) <= 0) continue;  // what it improves has gone into blocks meanwhile
    Holds free;
    for (const auto hold : gains_.of(seed)) {
      if (block_at_[gains_.improver(hold).place] == 0) free.push_back(hold);
    }
    if (free.size() < 2 || ++tries > most_tries) continue;
    // As u either what the seed brings, or all that anything can.
    std::vector<double> brought, most;
    for (const auto hold : free) {
      brought.push_back(gains_.improver(hold).beyond(0));
      most.push_back(gains_.most(gains_.improver(hold).place));
    }
    const double by_brought = saved_by(free, brought), by_most = saved_by(free, most);
    if (std::max(by_brought, by_most) > 0) join_block(free, by_most > by_brought ? most : brought);
  }
}

/// By how much the bound is lower with these u at the observations.
double Ceiling::saved_by(const Holds& holds, const std::vector<double>& free) {
  static thread_local std::vector<double> overlap;
  static thread_local std::vector<std::uint32_t> touched;
  overlap.resize(std::max(overlap.size(), entries_.size()), 0);
  double price = 0, saved = 0;
  for (std::size_t i = 0; i < holds.size(); ++i) {
    price += free[i];
    for (const Improver& one : gains_.at(gains_.improver(holds[i]).place)) {
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

void Ceiling::join_block(const Holds& holds, const std::vector<double>& free) {
  blocks_.emplace_back();
  const auto block = static_cast<std::uint32_t>(blocks_.size());
  std::vector<std::uint32_t> meets;  // blocks that a candidate of this one touches as well become part of it
  for (std::size_t i = 0; i < holds.size(); ++i) {
    const auto place = gains_.improver(holds[i]).place;
    free_gain_[place] = free[i];
    block_at_[place] = block;
    for (const Improver& one : gains_.at(place)) paid_[one.entry] += one.beyond(free[i]) - one.beyond(0);
  }
  for (const auto hold : holds) {
    for (const Improver& one : gains_.at(gains_.improver(hold).place)) {
      for (const auto other : gains_.of(one.entry)) {
        const auto touched_block = block_at_[gains_.improver(other).place];
        if (touched_block != 0 && touched_block != block) meets.push_back(touched_block);
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
  for (std::uint32_t place = 0; place < gains_.places(); ++place) {
    if (block_at_[place] != 0) blocks_[block_at_[place] - 1].gain += free_gain_[place];
    all_gain_ += gains_.most(place);
  }
  free_sum_.assign(entries_.size() + 1, 0);
  odds_sum_.assign(entries_.size() + 1, 0);
  for (std::uint32_t k = 0; k < entries_.size(); ++k) {
    std::uint32_t block = 0;
    for (const auto hold : gains_.of(k)) block = std::max(block, block_at_[gains_.improver(hold).place]);
    if (block != 0) {
      blocks_[block - 1].members.push_back(k);
    } else {
      free_sum_[k] = paid_[k] == 0 ? entries_[k].log1p_odds : log1p_exp(own(k));
    }
    odds_sum_[k] = entries_[k].log1p_odds;
  }
  for (std::size_t k = entries_.size(); k-- > 0;) {
    free_sum_[k] += free_sum_[k + 1];
    odds_sum_[k] += odds_sum_[k + 1];
  }
  for (std::uint32_t b = 0; b < blocks_.size(); ++b) {
    if (blocks_[b].gain > 0) sum_up(b);
  }
}

Ceiling::Share Ceiling::share_of(double own, double explains, double gain) {
  Share share;
  share.explains = explains;
  share.odds = std::exp(std::min(own, 600.0));
  share.log1p_odds = log1p_exp(own);
  share.log1p_with = log1p_exp(own + explains);
  share.alone = share.odds * std::exp(std::min(0.0, explains - gain));
  return share;
}

/// Of several borders between explaining much and little, the one with the lowest bound.
double Ceiling::best_border(const std::vector<Share>& shares, double gain) {
  double best = 0, least = INFINITY;
  for (const double border : {0.0, 0.05, 0.1, 0.2, 0.35, 0.6}) {
    Tail all;
    for (const Share& share : shares) all.add(share, border, gain);
    const double bound = bound_of(gain, gain, all);
    if (bound >= least) continue;
    best = border;
    least = bound;
  }
  return best;
}

void Ceiling::sum_up(std::uint32_t which) {
  Block& block = blocks_[which];
  std::vector<Share> shares;
  for (const auto k : block.members) {
    double explains = 0;
    for (const auto hold : gains_.of(k)) {
      const Improver& one = gains_.improver(hold);
      if (block_at_[one.place] == which + 1) explains += one.within(free_gain_[one.place]);
    }
    shares.push_back(share_of(own(k), explains, block.gain));
  }
  const double border = best_border(shares, block.gain);
  block.tails.resize(shares.size() + 1);
  for (std::size_t i = shares.size(); i-- > 0;) {
    block.tails[i] = block.tails[i + 1];
    block.tails[i].add(shares[i], border, block.gain);
  }
}

void Ceiling::Tail::add(const Share& share, double border, double gain) {
  each += share.log1p_with;
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
  const double simple = std::min(log_sum(full + log_minus_one(tail.large), tail.one_by_one), tail.each);
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
  static thread_local std::vector<double> taken;  // by block: what is improved of it
  taken.assign(blocks_.size(), 0);
  double all = all_gain_ + odds_sum_[from];
  if (without != nullptr && without->gain > 0) {
    // What the first member is taken to improve, alone or with the chosen, is in its own weight already.
    context_.visit_hoped(*without, [&](std::uint32_t observation, double worth, double share) {
      const auto place = gains_.place_of(observation);
      if (place == Gains::nowhere) return;
      all -= share * std::min(worth, gains_.most(place));
      if (block_at_[place] != 0) taken[block_at_[place] - 1] += share * std::min(worth, free_gain_[place]);
    });
  }
  double bound = free_sum_[from];
  for (std::size_t b = 0; b < blocks_.size(); ++b) {
    const Block& block = blocks_[b];
    if (block.gain <= 0) continue;
    const auto first = std::lower_bound(block.members.begin(), block.members.end(), from) - block.members.begin();
    bound += bound_of(block.gain, std::max(0.0, block.gain - taken[b]), block.tails[static_cast<std::size_t>(first)]);
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
