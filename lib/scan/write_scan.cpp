// Writes a scan as `whichwire.scan.v1`. What the reader would fill in by itself is left out, so that reading what was
// written gives the same scan. Tested in tests/scan/read_scan.cpp.
#include <nlohmann/json.hpp>
#include <whichwire/scan.hpp>

#include "scan/hex.hpp"

namespace whichwire {

namespace {

using Tree = nlohmann::ordered_json;

void put(Tree& tree, const char* key, const std::string& text) {
  if (!text.empty()) tree[key] = text;
}

Tree tree_of(const Vehicle& vehicle) {
  Tree tree = Tree::object();
  put(tree, "make", vehicle.make);
  put(tree, "model", vehicle.model);
  if (vehicle.model_year != 0) tree["model_year"] = vehicle.model_year;
  put(tree, "variant", vehicle.variant);
  return tree;
}

Tree tree_of(const CodeSeen& seen) {
  Tree tree = Tree::object();
  put(tree, "code", seen.written.empty() && seen.code ? text_of(*seen.code) : seen.written);
  const CodeState implied = seen.status ? state_of_status(*seen.status) : CodeState::unknown;
  if (seen.state != implied) tree["state"] = word_for(seen.state);
  if (seen.status) tree["status"] = hex_text(*seen.status, 2);
  put(tree, "text", seen.text);
  put(tree, "misses", seen.misses);
  if (seen.volts) tree["volts"] = *seen.volts;
  return tree;
}

Tree tree_of(const ModuleSeen& seen) {
  Tree tree = {{"module", seen.module}, {"answer", word_for(seen.answer)}};
  for (const CodeSeen& code : seen.codes) tree["codes"].push_back(tree_of(code));
  return tree;
}

}  // namespace

std::string json_of(const Scan& scan) {
  Tree tree = {{"format", "whichwire.scan.v1"}};
  put(tree, "unit", scan.unit);
  put(tree, "taken", scan.taken);
  if (scan.vehicle != Vehicle{}) tree["vehicle"] = tree_of(scan.vehicle);
  put(tree, "complaint", scan.complaint);
  if (scan.key_stated) tree["key"] = word_for(scan.key);
  if (scan.battery_volts) tree["battery_volts"] = *scan.battery_volts;
  if (scan.tool_has_own_battery) tree["tool_has_own_battery"] = true;
  tree["modules"] = Tree::array();
  for (const ModuleSeen& seen : scan.modules) tree["modules"].push_back(tree_of(seen));
  for (const FunctionSeen& seen : scan.functions)
    tree["functions"].push_back({{"function", seen.function}, {"works", seen.works}});
  return tree.dump(2, ' ', false, Tree::error_handler_t::replace) + "\n";
}

}  // namespace whichwire
