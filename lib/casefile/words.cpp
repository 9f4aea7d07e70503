// The words of the case format. Tested in tests/casefile/read_case.cpp and, against the schema, tests/casefile/schema.
#include <whichwire/casefile.hpp>

namespace whichwire {

std::string_view word_for(WorkKind kind) {
  switch (kind) {
    case WorkKind::unplug:
      return "unplug";
    case WorkKind::replug:
      return "replug";
    case WorkKind::fuse_out:
      return "fuse-out";
    case WorkKind::fuse_in:
      return "fuse-in";
    case WorkKind::jumper:
      return "jumper";
    case WorkKind::jumper_off:
      return "jumper-off";
    case WorkKind::replaced:
      return "replaced";
    case WorkKind::programmed:
      return "programmed";
  }
  return {};
}

std::string_view word_for(const CaseContents& contents) {
  struct Words {
    std::string_view operator()(const CaseStart&) const { return "start"; }
    std::string_view operator()(const CaseScan&) const { return "scan"; }
    std::string_view operator()(const CaseReading&) const { return "reading"; }
    std::string_view operator()(const CaseWork& work) const { return word_for(work.kind); }
    std::string_view operator()(const CaseNote&) const { return "note"; }
    std::string_view operator()(const CaseUndo&) const { return "undo"; }
    std::string_view operator()(const CaseClose&) const { return "close"; }
  };
  return std::visit(Words(), contents);
}

const std::vector<std::string>& case_modes() {
  static const std::vector<std::string> modes = {"volts", "volts-loaded", "volts-drop", "volts-ac", "ohms",   "amps",
                                                 "lamp",  "look",         "wiggle",     "light",    "unplug", "ask"};
  return modes;
}

}  // namespace whichwire
