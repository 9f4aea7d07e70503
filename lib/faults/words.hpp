// The words of the command line, one fault at a time.
#pragma once

#include <whichwire/fault.hpp>

namespace whichwire {

struct FaultWords {
  std::string_view kind, sort;  ///< `open`, and of what sort the part is: `segment`
  std::string part;
  std::string_view line, to;  ///< empty where they need not be said
  std::string bus;            ///< empty: none
  bool bus_needed = false;    ///< must always be said
  bool comes_and_goes = false;
};

FaultWords words_of(const Network& network, const Fault& fault);

/// In full: with the sort of the part and its bus, which tells apart two parts of one id: `open segment 4 high DRV`.
std::string text_of(const FaultWords& words, bool in_full);

}  // namespace whichwire
