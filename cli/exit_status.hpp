// What the program's exit status says.
#pragma once

namespace whichwire::cli {

enum ExitStatus : int {
  done = 0,         ///< whatever was found
  fault_found = 1,  ///< with --exit-code: done, and a fault was found
  refused = 2,      ///< the command line or an input was refused; standard error says why and where
  failed = 3,       ///< the program itself failed
};

}  // namespace whichwire::cli
