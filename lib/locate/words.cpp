// The words of verdict classes, as in findings.v1. Tests: tests/render/findings_json.cpp, by the schema.
#include <whichwire/findings.hpp>

namespace whichwire {

std::string_view word_for(VerdictClass verdict_class) {
  switch (verdict_class) {
    case VerdictClass::module:
      return "module";
    case VerdictClass::segment:
      return "segment";
    case VerdictClass::bus:
      return "bus";
    case VerdictClass::gateway:
      return "gateway";
    case VerdictClass::supply:
      return "supply";
    case VerdictClass::connector:
      return "connector";
    case VerdictClass::intermittent:
      return "intermittent";
    case VerdictClass::several:
      return "several";
    case VerdictClass::none:
      return "none";
    case VerdictClass::contradictory:
      return "contradictory";
  }
  return "";
}

}  // namespace whichwire
