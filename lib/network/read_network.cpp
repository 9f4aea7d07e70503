// From text to network: one tree with its bases, its shape, its parts, then what only the whole shows.
// Tested in tests/network and tests/bad/network.
#include "network/draft.hpp"
#include "network/extends.hpp"
#include "network/read_file.hpp"

namespace whichwire {

namespace {

/// A mistake in the outermost keys, as a mistyped `modules`, would make everything else look wrong too.
bool worth_building(const json::Value& tree, const Draft& draft) {
  for (const std::string_view key : {"modules", "buses"}) {
    if (json::members_in(tree, key).empty()) return false;
  }
  return !draft.complaints.full() && !draft.complaints.stopped();
}

void build(Draft& draft) {
  build_ids(draft);
  build_feeds(draft);
  build_grounds(draft);
  build_points(draft);
  build_modules(draft);
  build_buses(draft);
  build_connector(draft);
  build_gateways(draft);
  build_functions(draft);
  build_vehicle(draft);
  check_wiring(draft);
}

}  // namespace

std::optional<Network> network_of(const json::Value& tree, const std::string& name, json::Complaints& complaints) {
  Draft draft(tree, complaints);
  if (worth_building(tree, draft)) build(draft);
  if (!complaints.empty()) return {};
  draft.network.name = name;
  assume_connector(draft.network);
  return std::move(draft.network);
}

NetworkResult read_network(std::string_view text, const std::string& name) {
  NetworkTexts reading;
  reading.sources.push_back({name, text});
  const std::optional<json::Value> tree = whole_tree(reading);
  NetworkResult result;
  if (tree) result.network = network_of(*tree, name, reading.complaints);
  result.mistakes = reading.complaints.mistakes(reading.sources);
  return result;
}

NetworkResult load_network(const std::string& path) {
  FileText file = read_file(path, json::Limits().bytes);
  if (file.text) return read_network(*file.text, path);
  NetworkResult result;
  result.mistakes.push_back({path, 0, 0, {}, file.error, {}, 0});
  return result;
}

}  // namespace whichwire
