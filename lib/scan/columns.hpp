// The heading of a table, and what it makes of the bare figures and yes-and-no below it.
// Tested in tests/scan/columns.cpp and by the tables of tests/scan/layouts.
#pragma once

#include "scan/elements.hpp"

namespace whichwire {

enum class Column : std::uint8_t { other, answers, fitted, codes, status, failure_type, spn, fmi, address, volts };

/// The columns that a heading names, or none when the line is no heading of a table.
std::vector<Column> columns_of(const TextLine& line, const std::vector<LineElement>& elements);

/// Gives figures, `yes` and `no` that stand alone in a column the sense of its heading.
void apply_columns(const TextLine& line, const std::vector<Column>& columns, const Network& network,
                   std::vector<LineElement>& elements);

}  // namespace whichwire
