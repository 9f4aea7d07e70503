// Whom a stored code or sentence means, in the modules of a network: by the maker's own codes of the module that stores
// it, by the roles and addresses of the others. Tested in tests/scan/accused.cpp.
#pragma once

#include <whichwire/scan.hpp>

namespace whichwire {

struct Accused {
  CodeKind kind = CodeKind::other;
  std::vector<std::size_t> modules;  ///< more than one: the code does not tell which of them
  std::size_t bus = nowhere;         ///< of a maker's own bus code
};

/// `reporter`: module that stores it, or `nowhere` when that is not known.
Accused accused_by(const Network& network, std::size_t reporter, const CodeSeen& seen);

/// The maker's own code of `reporter` that was seen, or null. Codes in standard form are compared as codes; a failure
/// type counts only where the network states one. Others are compared by their letters and digits.
const OwnCode* own_code_of(const Module& reporter, const CodeSeen& seen);

}  // namespace whichwire
