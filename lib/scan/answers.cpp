// Words of the format for answers. Tested in tests/scan/read_scan.cpp.
#include <whichwire/scan.hpp>

namespace whichwire {

std::string_view word_for(Answer answer) {
  switch (answer) {
    case Answer::yes:
      return "yes";
    case Answer::no:
      return "no";
    case Answer::refused:
      return "refused";
    case Answer::not_fitted:
      return "not-fitted";
    case Answer::not_reachable:
      return "not-reachable";
    case Answer::not_polled:
      return "not-polled";
  }
  return {};
}

}  // namespace whichwire
