#include "locate/expand.hpp"

#include <algorithm>
#include <boost/pending/disjoint_sets.hpp>
#include <cmath>
#include <numeric>
#include <optional>

namespace whichwire::search {
double Expander::now(double threshold) const {
  const double half = static_cast<double>(patience_.work) / 2;
  return threshold + patience_.step * std::clamp((static_cast<double>(work()) - half) / half, 0.0, 1.0);
}

double Expander::hidden_mass(const Context& context) const {
  double hidden = 0;
  for (const Prospect& prospect : context.prospects()) {
    if (prospect.hidden) hidden += prospect.log1p_odds;
  }
  return hidden;
}

double Expander::bound(const std::vector<Candidate>& free) const {
  Context context(problem_, together_, spares_);
  context.look({}, free);
  return hidden_mass(context) + ceilings_of(context).whole(-INFINITY);
}

std::unique_ptr<Both> Expander::expand(std::vector<Candidate>& chosen, const std::vector<Candidate>& free,
                                       double threshold, double& left_out) {
  work_ += 50 + free.size();
  if (contexts_.size() <= depth_) contexts_.emplace_back(problem_, together_, spares_);
  Context& context = contexts_[depth_];
  context.look(chosen, free);
  const double hidden = hidden_mass(context), rest = now(threshold) - hidden;
  std::optional<Ceilings> ceilings(ceilings_of(context));
  // What is chosen weighs 1, so where that is enough nothing need be bounded.
  const bool enough = rest <= 0 && !spent();
  if (!enough) {
    left_out = hidden + ceilings->whole(rest);
    if (left_out < hidden + rest || spent()) return nullptr;
  }
  const double dear = context.limit(rest);
  if (dear > -INFINITY) {
    ceilings.emplace(ceilings_of(context));
    if (!enough) {
      left_out = std::min(left_out, hidden + log_sum(ceilings->whole(rest), dear));
      if (left_out < hidden + rest) return nullptr;
    }
  }

  auto node = std::make_unique<Both>();
  soften(context);
  constexpr double twelfth = -2.5;  // of what may be left out: pruned is at every node that is kept
  const double pruned = log_sum(dear, prune(context, ceilings->all(), rest + twelfth));
  take_hidden(context, *node);
  auto parts = split(context);
  std::stable_partition(parts.begin(), parts.end(), [](const Part& part) { return !part.active.empty(); });
  double others = node->apart;
  // What the first weighs is known before any other is looked at.
  for (std::size_t p = 1; p < parts.size(); ++p) others += parts[p].bound = bound(context, parts[p]);
  ++depth_;
  for (Part& part : parts) {
    others -= part.bound;
    const auto found = find(context, part, chosen, threshold - others);
    others += found.mass + found.more();
    node->apart += found.apart;
    node->paired += found.paired;
    node->spread += found.spread;
    node->minors.insert(node->minors.end(), found.minors.begin(), found.minors.end());
    if (found.choice != nullptr) node->choices.push_back(found.choice);
  }
  --depth_;
  sort_minors(*node);
  settle(*node, hidden + pruned);
  return node;
}

PartFound Expander::find(Context& context, Part& part, std::vector<Candidate>& chosen, double threshold) {
  auto key = KnownParts::key_of(problem_, context, part);
  if (const PartFound* known = known_.find(key, now(threshold))) return *known;
  PartFound found;
  if (!part.active.empty() || !take_as_minors(context, part, now(threshold), found)) {
    found.choice = std::make_shared<const Choice>(choose(context, part, chosen, threshold));
    found.mass = found.choice->low;
  }
  if (!spent()) known_.remember(std::move(key), now(threshold), found);
  return found;
}

/// A disturbance may be undone: then only the loss remains that the candidate undoing it brings, or its own firm loss.
void Expander::soften(Context& context) const {
  if (problem_.disturbs.empty()) return;
  auto& prospects = context.prospects();
  std::vector<double> firm(prospects.size());
  for (std::size_t i = 0; i < prospects.size(); ++i) {
    const Prospect& prospect = prospects[i];
    firm[i] = prospect.penalty;
    if (prospect.disturbs && prospect.penalty > 0) firm[i] = std::max(prospect.kept, context.firm_penalty(prospect));
    prospects[i].firm = firm[i];
  }
  std::vector<double> softened(prospects.size());
  for (std::size_t i = 0; i < prospects.size(); ++i) {
    softened[i] = prospects[i].penalty;
    if (!prospects[i].disturbs || prospects[i].penalty <= firm[i]) continue;
    double least = softened[i];
    context.visit_cuts(prospects[i], [&](const Prospect& cut) { least = std::min(least, cut.firm); });
    softened[i] = std::max(firm[i], least);
  }
  for (std::size_t i = 0; i < prospects.size(); ++i) {
    prospects[i].hope += prospects[i].penalty - softened[i] - context.denied(prospects[i]);
    prospects[i].penalty = prospects[i].sure = softened[i];
  }
}

Ceilings Expander::ceilings_of(const Context& context) const {
  std::vector<Ceiling::Entry> entries;
  for (const Prospect& prospect : context.prospects()) {
    if (!prospect.hidden) entries.push_back({problem_.log_odds[prospect.candidate], prospect.log1p_odds, &prospect});
  }
  return {problem_, context, std::move(entries)};
}

/// Leaves out candidates that lose too much, the worst first: a set with one of them weighs at most its own worth times
/// the ceiling of all others. Returns the log of a bound of the mass of all such sets.
double Expander::prune(Context& context, const Ceiling& ceiling, double threshold) const {
  const auto& prospects = context.prospects();
  struct Worth {
    std::uint32_t prospect;
    double log;
  };
  std::vector<Worth> worths;
  for (std::uint32_t i = 0, k = 0; i < prospects.size(); ++i) {
    if (!prospects[i].hidden) worths.push_back({i, ceiling.own(k++) - prospects[i].penalty});
  }
  std::stable_sort(worths.begin(), worths.end(), [](const Worth& a, const Worth& b) { return a.log < b.log; });
  std::vector<std::uint8_t> kept(prospects.size(), 1);
  const double all = ceiling.all_blocks();
  double sum = -INFINITY;
  for (const Worth& worth : worths) {
    const double more = log_sum(sum, worth.log);
    if (all + more >= threshold) break;
    sum = more;
    kept[worth.prospect] = 0;
  }
  if (std::isinf(sum)) return -INFINITY;
  context.restrict_to(kept);
  soften(context);
  return all + sum;
}

void Expander::take_hidden(Context& context, Both& node) const {
  std::vector<std::uint8_t> kept;
  bool any = false;
  for (const Prospect& prospect : context.prospects()) {
    kept.push_back(prospect.hidden ? 0 : 1);
    if (!prospect.hidden) continue;
    any = true;
    node.hidden.push_back(prospect.candidate);
    node.apart += prospect.log1p_odds;
  }
  if (any) context.drop(kept);
}

/// Whether it is so little likely, however much it improves, that sets with it and others hardly count.
bool Expander::minor(const Prospect& prospect) const {
  constexpr double little = -3.0;
  return !prospect.joins && (prospect.gain == 0 || problem_.log_odds[prospect.candidate] + prospect.gain < little);
}

std::vector<Part> Expander::split(const Context& context) const {
  const auto& prospects = context.prospects();
  const auto count = static_cast<std::uint32_t>(prospects.size());
  std::uint32_t groups = 0;
  for (const Prospect& prospect : prospects) {
    if (!prospect.company) continue;
    for (const Meeting& meeting : problem_.meetings[prospect.candidate]) groups = std::max(groups, meeting.group + 1);
  }
  // Prospects are joined through the observations that they may change and the groups in which they meet.
  const auto observations = static_cast<std::uint32_t>(problem_.observations());
  std::vector<std::uint32_t> rank(count + observations + groups, 0), parent(rank.size());
  std::iota(parent.begin(), parent.end(), 0U);
  boost::disjoint_sets<std::uint32_t*, std::uint32_t*> sets(rank.data(), parent.data());
  for (std::uint32_t i = 0; i < count; ++i) {
    context.visit_reach(prospects[i], [&](std::uint32_t observation) { sets.union_set(i, count + observation); });
    if (!prospects[i].company) continue;
    for (const Meeting& meeting : problem_.meetings[prospects[i].candidate]) {
      sets.union_set(i, count + observations + meeting.group);
    }
  }
  std::vector<std::uint32_t> part_of(rank.size(), count);
  std::vector<Part> parts;
  for (std::uint32_t i = 0; i < count; ++i) {
    const auto root = sets.find_set(i);
    if (part_of[root] == count) {
      part_of[root] = static_cast<std::uint32_t>(parts.size());
      parts.emplace_back();
    }
    const auto at = part_of[root];
    (minor(prospects[i]) ? parts[at].minor : parts[at].active).push_back(i);
  }
  return parts;
}

/// Log bound of the mass of all sets of a part.
double Expander::bound(const Context& context, const Part& part) const {
  const auto& prospects = context.prospects();
  if (part.active.empty()) {  // each improves so little that it hardly matters what others improve, too
    double sum = 0;
    for (const auto i : part.minor) sum += log1p_exp(problem_.log_odds[prospects[i].candidate] + prospects[i].gain);
    return sum;
  }
  std::vector<Ceiling::Entry> entries;
  for (const auto* members : {&part.active, &part.minor}) {
    for (const auto i : *members)
      entries.push_back({problem_.log_odds[prospects[i].candidate], prospects[i].log1p_odds, &prospects[i]});
  }
  return Ceilings(problem_, context, std::move(entries)).whole(-INFINITY);
}

/// Whether candidates with its signature and its meetings act as it does in every context.
bool Expander::mergeable(const Prospect& prospect) const {
  if (!raises_signature(problem_, prospect)) return false;
  if (!prospect.company) return true;
  const auto& meetings = problem_.meetings[prospect.candidate];
  return !prospect.jointly &&
         std::all_of(meetings.begin(), meetings.end(), [](const Meeting& m) { return m.side >= alike_from; });
}

std::vector<Alike> Expander::merge(const Context& context, const std::vector<std::uint32_t>& active) const {
  const auto& prospects = context.prospects();
  const auto same = [&](const Prospect& a, const Prospect& b) {
    return problem_.signature[a.candidate] == problem_.signature[b.candidate] && a.company == b.company &&
           problem_.listing(a.candidate) == problem_.listing(b.candidate) &&
           (!a.company || problem_.meetings[a.candidate] == problem_.meetings[b.candidate]);
  };
  std::vector<Alike> classes;
  for (const auto i : active) {
    const Prospect& prospect = prospects[i];
    auto into = classes.end();
    if (mergeable(prospect)) {
      into = std::find_if(classes.begin(), classes.end(), [&](const Alike& alike) {
        const Prospect& first = prospects[alike.members.front()];
        return mergeable(first) && same(first, prospect);
      });
    }
    if (into != classes.end()) {
      into->members.push_back(i);
    } else {
      classes.push_back(
          {{i}, problem_.log_odds[prospect.candidate], prospect.log1p_odds, prospect.ratio, prospect.hope});
    }
  }
  for (auto& alike : classes) {
    if (alike.members.size() == 1) continue;
    double any = 0;
    for (const auto i : alike.members) any += prospects[i].log1p_odds;
    const double all = log_minus_one(any);
    alike.ratio += all - alike.log_odds;
    alike.hope += all - alike.log_odds;
    alike.log_odds = all;
    alike.log1p_odds = any;
  }
  // Those that are not listed last, so that none of them hides one that is.
  const auto listed = [&](const Alike& alike) { return problem_.listing(prospects[alike.members.front()].candidate); };
  std::stable_sort(classes.begin(), classes.end(), [&](const Alike& a, const Alike& b) {
    return listed(a) != listed(b) ? listed(a) : a.ratio > b.ratio;
  });
  return classes;
}

namespace {

/// Whether others can add the same to either.
bool improve_alike(const Prospect& a, const Prospect& b) {
  return a.raises.data() == b.raises.data() && a.improves_alone() && b.improves_alone() && a.penalty == b.penalty;
}

}  // namespace

Choice Expander::choose(Context& context, const Part& part, std::vector<Candidate>& chosen, double threshold) {
  const auto& prospects = context.prospects();
  const auto classes = merge(context, part.active);
  std::vector<Candidate> minors;
  std::vector<Ceiling::Entry> entries;
  entries.reserve(classes.size() + part.minor.size());
  for (const auto& alike : classes)
    entries.push_back({alike.log_odds, alike.log1p_odds, &prospects[alike.members.front()]});
  for (const auto i : part.minor) {
    minors.push_back(prospects[i].candidate);
    entries.push_back({problem_.log_odds[prospects[i].candidate], prospects[i].log1p_odds, &prospects[i]});
  }
  const auto entries_from = [&](std::size_t k) {
    return std::vector(entries.begin() + static_cast<std::ptrdiff_t>(k), entries.end());
  };
  std::optional<Ceilings> ceilings(std::in_place, problem_, context, entries);
  std::size_t from = 0;              // the first of those that the ceilings are of
  bool looked = false;               // since they were made
  const Prospect* before = nullptr;  // the last of which it was asked what those after it add beside it
  double beside = 0;
  Choice choice;
  double missing = -INFINITY;
  const double base = together_.log_weight(chosen);
  std::vector<Candidate> free;
  for (std::size_t k = 0; k < classes.size(); ++k) {
    const double least = now(threshold);
    // A look is dearer than ceilings of those left only, which are closer: perhaps they can be left out at once.
    if (looked && classes[k].ratio < least) {
      looked = false;
      from = k;
      ceilings.emplace(problem_, context, entries_from(from));
      work_ += entries.size() - from;
      const double rest = ceilings->whole(least);
      if (rest < least) {
        missing = log_sum(missing, rest);
        break;
      }
    }
    double left_out = 0;
    if (classes[k].ratio < least) {  // else it weighs enough by itself
      left_out = classes[k].hope + ceilings->after(k - from, least - classes[k].hope);
      if (left_out >= least) {
        const Prospect& first = prospects[classes[k].members.front()];
        if (before == nullptr || !improve_alike(*before, first)) {
          beside = Ceilings(problem_, context, entries_from(k + 1), &first).whole(least - classes[k].hope);
          work_ += entries.size() - k;
        }
        before = &first;
        left_out = std::min(left_out, classes[k].hope + beside);
      }
      if (left_out < least) {
        missing = log_sum(missing, left_out);
        continue;
      }
    }
    free.clear();
    for (std::size_t later = k + 1; later < classes.size(); ++later) {
      for (const auto i : classes[later].members) free.push_back(prospects[i].candidate);
    }
    free.insert(free.end(), minors.begin(), minors.end());
    Option option;
    for (const auto i : classes[k].members) option.members.push_back(prospects[i].candidate);
    chosen.push_back(option.members.front());
    option.listed = shown(problem_, prospects[classes[k].members.front()]);
    option.ratio = together_.log_weight(chosen) - base + classes[k].log_odds - problem_.log_odds[chosen.back()];
    option.rest = expand(chosen, free, threshold - option.ratio, left_out);
    chosen.pop_back();
    looked = true;
    if (option.rest != nullptr) {
      choice.options.push_back(std::move(option));
    } else {
      missing = log_sum(missing, option.ratio + left_out);
    }
  }
  double left_out = 0;
  const double at_least_this = choice.options.empty() ? std::min(threshold, -now(0)) - 1 : threshold;
  Option none{{}, false, 0, expand(chosen, minors, at_least_this, left_out)};
  if (none.rest == nullptr) missing = log_sum(missing, left_out);
  if (none.rest == nullptr && choice.options.empty()) none.rest = std::make_unique<Both>();  // out of work
  if (none.rest != nullptr) choice.options.push_back(std::move(none));
  settle(choice, missing);
  return choice;
}

}  // namespace whichwire::search
