// Candidates that explain nothing where the search stands, and lose a little: taken as if independent, with a bound of
// the error. Sharing a loss makes sets of them likelier than the product. Given any others, a minor is present with
// odds of at most its odds times the loss that it shares with nobody, so how much the others help it is bounded by
// independent ones of those odds (Holley's inequality: the help only grows with what is present). Meeting makes sets of
// two less likely, by no more than their product.
#include <algorithm>
#include <cmath>

#include "locate/expand.hpp"

namespace whichwire::search {
namespace {

double log1p_exp(double x) { return x > 30 ? x : std::log1p(std::exp(x)); }

struct Sharer {
  std::uint32_t minor;
  double loss;
};

/// By observation: who loses how much there.
using Sharing = std::vector<std::vector<Sharer>>;

Sharing sharing_of(const Context& context, const std::vector<const Prospect*>& minors, std::size_t observations) {
  Sharing sharing(observations);
  for (std::uint32_t k = 0; k < minors.size(); ++k) {
    for (const auto& [observation, level] : minors[k]->raises) {
      if (level > context.floor(observation)) sharing[observation].push_back({k, -context.at_best(observation, level)});
    }
  }
  return sharing;
}

/// Odds of each minor given any others, at most.
std::vector<double> odds_at_most(const std::vector<const Prospect*>& minors, const Sharing& sharing) {
  std::vector<double> most;
  for (const Prospect* minor : minors) most.push_back(minor->ratio);
  for (const auto& sharers : sharing) {
    if (sharers.size() < 2) continue;
    for (const auto& [minor, loss] : sharers) most[minor] += loss;
  }
  return most;
}

/// Log of how much likelier all sets may be than the product says.
double slack_of(const Context& context, const std::vector<const Prospect*>& minors, std::size_t observations) {
  const auto sharing = sharing_of(context, minors, observations);
  const auto most = odds_at_most(minors, sharing);
  std::vector<double> shared(minors.size(), 0);
  std::vector<std::uint32_t> helpers;
  double slack = 0;
  for (std::uint32_t k = 0; k < minors.size(); ++k) {
    for (const auto& [observation, level] : minors[k]->raises) {
      if (level <= context.floor(observation)) continue;
      const double loss = -context.at_best(observation, level);
      for (const auto& [other, others_loss] : sharing[observation]) {
        if (other >= k) break;
        if (shared[other] == 0) helpers.push_back(other);
        shared[other] += std::min(loss, others_loss);
      }
    }
    double help = 0;
    for (const auto other : helpers) {
      help += std::log1p(std::expm1(shared[other]) / (1 + std::exp(-most[other])));
      shared[other] = 0;
    }
    helpers.clear();
    slack += log1p_exp(minors[k]->ratio + help) - log1p_exp(minors[k]->ratio);
  }
  return slack;
}

}  // namespace

/// False when the error would be larger than the threshold allows; then nothing is added.
bool Expander::add_minors(const Context& context, const Part& part, double threshold, Both& node, double& slack) const {
  std::vector<const Prospect*> minors;
  for (const auto i : part.minor) minors.push_back(&context.prospects()[i]);
  double met = 0, mass = 0;
  std::vector<double> met_by(minors.size(), 0);
  for (std::size_t k = 0; k < minors.size(); ++k) {
    mass += log1p_exp(minors[k]->ratio);
    if (!minors[k]->company || !minors[k]->jointly) continue;
    for (std::size_t other = 0; other < k; ++other) {
      if (!minors[other]->jointly || !problem_.meets(minors[other]->candidate, minors[k]->candidate)) continue;
      met += std::exp(minors[other]->ratio + minors[k]->ratio);
      met_by[k] += std::exp(minors[other]->ratio);
      met_by[other] += std::exp(minors[k]->ratio);
    }
  }
  if (met > 0.5) return false;
  double error = std::log1p(-met);
  if (minors.size() > 1) error = slack_of(context, minors, problem_.observations()) - error;
  if (error > 0 && std::log(std::expm1(error)) + mass > threshold) return false;
  slack += error;
  node.apart += std::log1p(-met);
  for (std::size_t k = 0; k < minors.size(); ++k) {
    node.minors.push_back({minors[k]->candidate, minors[k]->ratio, met_by[k]});
  }
  return true;
}

void Expander::sort_minors(Both& node, const Problem& problem) {
  const auto unlisted = std::stable_partition(node.minors.begin(), node.minors.end(),
                                              [&](const Minor& minor) { return problem.listing(minor.candidate); });
  node.listed_minors = static_cast<std::size_t>(unlisted - node.minors.begin());
  std::stable_sort(node.minors.begin(), unlisted,
                   [](const Minor& a, const Minor& b) { return a.log_odds > b.log_odds; });
  for (auto minor = unlisted; minor != node.minors.end(); ++minor) node.apart += log1p_exp(minor->log_odds);
}

}  // namespace whichwire::search
