// Writes an entry as its line of `whichwire.case.v1`. Keys that say nothing are left out.
// Tested in tests/casefile/read_case.cpp.
#include <nlohmann/json.hpp>
#include <whichwire/casefile.hpp>

#include "casefile/entry_shape.hpp"

namespace whichwire {

namespace {

using Tree = nlohmann::ordered_json;

void put(Tree& tree, const char* key, const std::string& text) {
  if (!text.empty()) tree[key] = text;
}

void put(Tree& tree, const char* key, const std::vector<std::string>& texts) {
  if (!texts.empty()) tree[key] = texts;
}

Tree intake_tree(const Intake& intake) {
  Tree tree = Tree::object();
  put(tree, "complaint", intake.complaint);
  put(tree, "since", intake.since);
  put(tree, "conditions", intake.conditions);
  put(tree, "earlier_repairs", intake.earlier_repairs);
  put(tree, "works", intake.works);
  put(tree, "works_not", intake.works_not);
  put(tree, "added_devices", intake.added_devices);
  if (intake.battery_volts) tree["battery_volts"] = *intake.battery_volts;
  return tree;
}

struct Filler {
  Tree& tree;

  void operator()(const CaseStart& start) const {
    put(tree, "unit", start.unit);
    tree["network_name"] = start.network_name;
    if (Tree intake = intake_tree(start.intake); !intake.empty()) tree["intake"] = std::move(intake);
    tree["network"] = Tree::parse(start.network_json, nullptr, false);
  }
  void operator()(const CaseScan& scanned) const {
    put(tree, "name", scanned.scan.name);
    tree["scan"] = Tree::parse(json_of(scanned.scan), nullptr, false);
  }
  void operator()(const CaseReading& reading) const {
    tree["place"] = reading.place;
    put(tree, "check", reading.check);
    put(tree, "mode", reading.mode);
    tree["reading"] = reading.reading;
    put(tree, "outcome", reading.outcome);
    if (reading.key) tree["key"] = word_for(*reading.key);
    if (reading.battery_connected) tree["battery"] = *reading.battery_connected ? "connected" : "disconnected";
    if (reading.awake) tree["bus"] = *reading.awake ? "awake" : "asleep";
    put(tree, "rules_out", reading.rules_out);
    put(tree, "note", reading.note);
  }
  void operator()(const CaseWork& work) const {
    tree["what"] = work.what;
    put(tree, "note", work.note);
  }
  void operator()(const CaseNote& note) const {
    tree["text"] = note.text;
    if (note.fault) tree["fault"] = true;
    put(tree, "rules_out", note.rules_out);
  }
  void operator()(const CaseUndo& undo) const { tree["of"] = undo.entry; }
  void operator()(const CaseClose& close) const { put(tree, "note", close.note); }
};

}  // namespace

std::string json_of(const CaseEntry& entry) {
  Tree tree = Tree::object();
  if (std::holds_alternative<CaseStart>(entry.contents)) tree["format"] = case_format;
  tree["entry"] = word_for(entry.contents);
  tree["at"] = entry.at;
  std::visit(Filler{tree}, entry.contents);
  return tree.dump(-1, ' ', false, Tree::error_handler_t::replace) + "\n";
}

}  // namespace whichwire
