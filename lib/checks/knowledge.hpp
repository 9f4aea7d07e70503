// What is known about checks: minutes, reliabilities, what a result means, cautions, limits. All of it data:
// checks.csv, outcomes.csv, cautions.csv, limits.csv, compiled in. Tests: tests/checks/knowledge.cpp.
#pragma once

#include <span>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace whichwire {

/// One row of checks.csv.
struct CheckKind {
  std::string what, mode, key, measure, source;
  double minutes = 0, reach = 0;            ///< the work; the way there where the network does not say
  double fine = 1, seen = 1, at_times = 0;  ///< P(the right outcome): nothing wrong, fault there, comes and goes
};

/// One row of outcomes.csv; `low` and `high` may be `b-0.5`: half a volt below the battery.
struct OutcomeKind {
  std::string what, outcome, label, low, high, means, source;
};

struct Caution {
  std::string belongs_to, text, source;
};

struct Limit {
  std::string what, means, source;
  double value = 0;
};

struct Knowledge {
  std::vector<CheckKind> checks;
  std::vector<OutcomeKind> outcomes;
  std::vector<Caution> cautions;
  std::vector<Limit> limits;

  /// The lookups throw std::logic_error where the tables lack the row.
  const CheckKind& check(std::string_view what) const;
  const Caution& caution(std::string_view belongs_to) const;
  double limit(std::string_view what) const;
  /// The outcomes of a check, the good one first; they stand together in the table.
  std::span<const OutcomeKind> outcomes_of(std::string_view what) const;
};

/// The compiled-in tables.
const Knowledge& knowledge();

/// `text` with each `{name}` replaced by its value; a name without a value stays as it is.
using Fields = std::vector<std::pair<std::string_view, std::string>>;
std::string fill(std::string_view text, const Fields& fields);

}  // namespace whichwire
