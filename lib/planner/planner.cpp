// A job made ready once, and what the answers so far make of it. Tests: tests/planner.
#include "planner/next.hpp"
#include "planner/ready.hpp"

namespace whichwire {

Planner::Planner(const Effects& effects, const Ranking& ranking, const Scan& scan, const PlannerNumbers& numbers,
                 const LocateOptions& options)
    : ready_(std::make_unique<Ready>(effects, ranking, scan, numbers, options)) {}
Planner::~Planner() = default;
Planner::Planner(Planner&&) noexcept = default;
Planner& Planner::operator=(Planner&&) noexcept = default;

std::optional<Measurement> Planner::measurement_of(std::string_view check, const Situation& now) const {
  const auto found = ready_->places.find(std::string(check));
  if (found == ready_->places.end()) return std::nullopt;
  return with_off(found->second, now);
}

Assessment Planner::assess(const std::vector<Taken>& taken, const Situation& now) const {
  const Weighing weighing = ready_->weigh_all(taken, now);
  const Bench bench = ready_->bench();
  return assessment_of({ready_->effects, ready_->scan, bench, weighing}, now);
}

std::string_view word_for(Standing standing) {
  switch (standing) {
    case Standing::proven:
      return "proven";
    case Standing::probable:
      return "probable";
    case Standing::cannot_condemn:
      return "cannot condemn yet";
    case Standing::comes_and_goes:
      return "comes and goes, not reproduced";
    case Standing::not_communication:
      return "not a communication fault";
    case Standing::refer:
      return "refer";
  }
  return {};
}

}  // namespace whichwire
