// `whichwire.blindspots.v1`. The schema is topologies/blindspots.schema.json. Tests: tests/cli/blindspots.cpp.
#include <whichwire/render_blindspots.hpp>

#include "render/json.hpp"
#include "render/shown_words.hpp"

namespace whichwire {

namespace {

using render::Json;

Json separation_json(const Network& network, const Separation& separation) {
  Json checks = Json::array(), left = Json::array();
  for (const Check& check : separation.checks)
    checks.push_back({{"id", check.id}, {"measure", check.measure}, {"minutes", render::rounded(check.minutes)}});
  for (const auto& group : separation.left) left.push_back(render::json_of(network, group));
  return {{"checks", std::move(checks)},
          {"minutes", render::rounded(separation.minutes)},
          {"at_least", render::rounded(separation.at_least)},
          {"not_told_apart", std::move(left)}};
}

Json alike_json(const Network& network, const AlikeFaults& alike) {
  return {{"faults", render::json_of(network, alike.faults)},
          {"repairs", alike.repairs},
          {"key", word_for(alike.key)},
          {"shown", render::json_of(network, alike.shown)},
          {"told_apart_by", separation_json(network, alike.separation)}};
}

}  // namespace

std::string json_of(const BlindspotsOf& blindspots) {
  const Network& network = blindspots.network;
  const Blindspots& found = blindspots.found;
  Json alike = Json::array(), unnoticed = Json::array(), listening = Json::array(), access = Json::array();
  for (const AlikeFaults& one : found.alike) alike.push_back(alike_json(network, one));
  for (const Unnoticed& one : found.unnoticed)
    unnoticed.push_back({{"module", network.modules[one.module].id}, {"certain", one.certain}});
  for (const ExtraListening& one : found.listening) {
    Json listeners = Json::array();
    for (const std::size_t m : one.listeners) listeners.push_back(network.modules[m].id);
    listening.push_back(
        {{"any_of", std::move(listeners)}, {"listening_to", network.modules[one.sender].id}, {"pairs", one.pairs}});
  }
  for (const AccessPoint& one : found.access)
    access.push_back({{"bus", network.buses[one.bus].id}, {"at", id_of(network, one.at)}, {"pairs", one.pairs}});
  const Json json = {{"format", "whichwire.blindspots.v1"},
                     {"network", network.name},
                     {"faults", found.faults},
                     {"ways_to_show", found.kinds_of_scan},
                     {"pairs", found.pairs},
                     {"alike", std::move(alike)},
                     {"unnoticed", std::move(unnoticed)},
                     {"extra_listening", std::move(listening)},
                     {"access_points", std::move(access)}};
  return render::dumped(json);
}

}  // namespace whichwire
