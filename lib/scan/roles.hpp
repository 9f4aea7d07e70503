// Role ids of the code tables: which there are, how they read in plain words, which of a network's roles a code means.
// Tested in tests/scan/roles.cpp.
#pragma once

#include <string>
#include <string_view>

namespace whichwire {

/// `engine control`, `ABS`, `NOx sensor`; with a qualifier `door control B`, `side restraints, left`.
std::string plain_role(std::string_view role, std::string_view qualifier = {});

}  // namespace whichwire
