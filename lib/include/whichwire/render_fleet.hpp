// Pages and lines of many units.
#pragma once

#include <span>
#include <string>
#include <whichwire/fleet.hpp>
#include <whichwire/learned_rates.hpp>
#include <whichwire/render.hpp>

namespace whichwire {

/// `whichwire.fleet-row.v1`, a line a row.
std::string ndjson_of(std::span<const FleetRow> rows);

/// The page: how many of what, the units to pull in first, what recurs, what could not be read.
std::string text_of(const FleetReport& report, const Look& look = {});

/// The same as one HTML file that asks for nothing else; what recurs first, units beyond the most urgent in a table.
std::string html_of(const FleetReport& report, const Look& look = {});

/// `whichwire.fleet.v1`.
std::string json_of(const FleetReport& report);

/// A heading and a line a row (RFC 4180, but with line feeds).
std::string csv_of(const FleetReport& report);

/// A table of rates with the counts as sources.
std::string csv_of(const LearnedRates& learned);

}  // namespace whichwire
