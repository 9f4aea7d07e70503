// The shape of each line of `whichwire.case.v1`: every key, its type and its range. topologies/CASE-FORMAT.md says what
// they mean. Kept equal to topologies/case.schema.json by tests/casefile/schema.
#pragma once

#include <whichwire/casefile.hpp>

#include "network/shape.hpp"

namespace whichwire {

constexpr std::string_view case_format = "whichwire.case.v1";

/// Adds to `complaints` whatever in the line's tree is not of the shape of its entry; what lies inside a `network` or a
/// `scan` goes to `inside`, with the path that it has there. False where the kind of entry cannot be told.
bool check_entry_shape(const json::Value& tree, json::Complaints& complaints, json::Complaints& inside);

/// The kind of work of an entry's word; nullopt for other words.
std::optional<WorkKind> work_of(std::string_view word);

}  // namespace whichwire
