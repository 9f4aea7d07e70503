// Which place a person means who unplugs, pulls or plugs back something, and the cautions that belong to it. What the
// network does not know is taken as typed, since networks are often incomplete, unless it looks like a slip.
// Tested in tests/casefile/places.cpp.
#include <algorithm>
#include <whichwire/casefile.hpp>

#include "checks/knowledge.hpp"
#include "locate/verdict_class.hpp"
#include "network/complaints.hpp"
#include "scan/fold.hpp"
#include "scan/names.hpp"

namespace whichwire {

namespace {

constexpr std::string_view connector_id = "DLC";

bool about_fuses(WorkKind kind) { return kind == WorkKind::fuse_out || kind == WorkKind::fuse_in; }
bool about_plugs(WorkKind kind) { return kind == WorkKind::unplug || kind == WorkKind::replug; }

/// What can be unplugged: modules, in-line connectors and stars, the diagnostic connector, loads of references.
std::vector<std::string> plugs_of(const Network& network) {
  std::vector<std::string> all{std::string(connector_id)};
  for (const Module& module : network.modules) {
    all.push_back(module.id);
    for (const Reference& reference : module.references)
      all.insert(all.end(), reference.loads.begin(), reference.loads.end());
  }
  for (const Point& point : network.points) {
    if (point.kind != Point::Kind::hidden) all.push_back(point.id);
  }
  return all;
}

std::vector<std::string> feeds_of(const Network& network) {
  std::vector<std::string> all;
  for (const Feed& feed : network.feeds) all.push_back(feed.id);
  return all;
}

std::string same_but_for_case(std::string_view typed, const std::vector<std::string>& known) {
  const auto found = std::ranges::find(known, folded_key(typed), [](const std::string& id) { return folded_key(id); });
  return found == known.end() ? "" : *found;
}

/// The module that a name, alias or role means; empty where none does or several do.
std::string module_called(const Network& network, std::string_view typed) {
  const std::vector<NameHit> hits = NameIndex(network).find(typed);
  return hits.size() == 1 ? network.modules[hits[0].module].id : "";
}

const Place* place_with(const Network& network, std::string_view what) {
  if (const std::size_t i = index_of(network.modules, what); i != nowhere) return &network.modules[i].place;
  if (const std::size_t i = index_of(network.points, what); i != nowhere) return &network.points[i].place;
  if (const std::size_t i = index_of(network.feeds, what); i != nowhere) return &network.feeds[i].place;
  return nullptr;
}

bool has_hazard(const Module& module, std::string_view hazard) {
  return std::ranges::find(module.place.hazards, hazard) != module.place.hazards.end();
}

/// Whether the fuse feeds a restraint module, by itself or through what hangs from it.
bool feeds_restraint(const Network& network, std::string_view what) {
  const std::size_t feed = index_of(network.feeds, what);
  if (feed == nowhere) return false;
  const std::vector<std::size_t> modules = modules_on_feed(network, feed);
  return std::ranges::any_of(modules, [&](std::size_t i) { return has_hazard(network.modules[i], "restraint"); });
}

void add_hazards(const Network& network, std::string_view what, std::vector<std::string>& all) {
  const Place* const place = place_with(network, what);
  if (place == nullptr) return;
  for (const std::string& hazard : place->hazards) {
    const bool refused = hazard == "restraint" || hazard == "high-voltage";
    const std::string& text = knowledge().caution((refused ? "refuse:" : "hazard:") + hazard).text;
    all.push_back(refused ? std::string(what) + " is " + text + "." : text);
  }
}

/// Whatever has an id, and each pin as `MODULE/PIN`.
std::vector<std::string> measured_places_of(const Network& network) {
  std::vector<std::string> all = plugs_of(network);
  const auto add_pin = [&](const std::string& owner, const std::string& pin) {
    if (!pin.empty()) all.push_back(owner + "/" + pin);
  };
  for (const Module& module : network.modules) {
    for (const PowerPin& pin : module.power) add_pin(module.id, pin.pin);
    for (const GroundPin& pin : module.ground) add_pin(module.id, pin.pin);
    for (const Reference& reference : module.references) {
      add_pin(module.id, reference.pin);
      add_pin(module.id, reference.id);
    }
  }
  for (const Bus& bus : network.buses) {
    all.push_back(bus.id);
    for (const Segment& segment : bus.segments) {
      all.push_back(segment.id);
      for (const auto& [end, pins] :
           {std::pair(segment.from, segment.from_pins), std::pair(segment.to, segment.to_pins)}) {
        add_pin(id_of(network, end), pins.high);
        add_pin(id_of(network, end), pins.low);
      }
    }
  }
  for (const DiagnosticConnector::BusPins& bus : network.diagnostic_connector.buses) {
    add_pin(std::string(connector_id), bus.pins.high);
    add_pin(std::string(connector_id), bus.pins.low);
  }
  for (const PowerPin& pin : network.diagnostic_connector.power) add_pin(std::string(connector_id), pin.pin);
  for (const GroundPin& pin : network.diagnostic_connector.ground) add_pin(std::string(connector_id), pin.pin);
  for (const Feed& feed : network.feeds) all.push_back(feed.id);
  for (const Ground& ground : network.grounds) all.push_back(ground.id);
  return all;
}

}  // namespace

PlaceFound work_place(const Network& network, WorkKind kind, std::string_view typed) {
  PlaceFound found{std::string(typed), true, ""};
  if (!about_fuses(kind) && !about_plugs(kind)) return found;
  const std::vector<std::string> known = about_fuses(kind) ? feeds_of(network) : plugs_of(network);
  if (std::ranges::find(known, typed) != known.end()) return found;
  std::string meant = same_but_for_case(typed, known);
  if (meant.empty() && about_plugs(kind)) meant = module_called(network, typed);
  if (!meant.empty()) return {meant, true, ""};
  found.known = false;
  if (const std::string near = nearest(typed, known); !near.empty())
    found.error = "the network has no " + json::in_quotes(typed) + json::did_you_mean(typed, known);
  return found;
}

PlaceFound reading_place(const Network& network, std::string_view typed) {
  PlaceFound found{std::string(typed), true, ""};
  const std::vector<std::string> known = measured_places_of(network);
  if (std::ranges::find(known, typed) != known.end()) return found;
  if (const std::string meant = same_but_for_case(typed, known); !meant.empty()) return {meant, true, ""};
  found.known = false;
  if (typed.find(' ') == std::string_view::npos && !nearest(typed, known).empty())
    found.error = "the network has no " + json::in_quotes(typed) + json::did_you_mean(typed, known);
  return found;
}

std::vector<std::string> cautions_at(const Network& network, const CaseReading& reading) {
  std::vector<std::string> all;
  const std::string_view part = std::string_view(reading.place).substr(0, reading.place.find_first_of("/ "));
  add_hazards(network, part, all);
  if (reading.mode == "ohms" && reading.battery_connected != std::optional(false))
    all.push_back(knowledge().caution("mode:ohms").text);
  return all;
}

std::vector<std::string> cautions_at(const Network& network, WorkKind kind, std::string_view what) {
  std::vector<std::string> all;
  if (kind != WorkKind::programmed) add_hazards(network, what, all);
  if (about_fuses(kind) && feeds_restraint(network, what))
    all.push_back(std::string(what) +
                  " feeds a restraint module: no work on that system; follow the maker's procedure.");
  if (kind == WorkKind::unplug) all.push_back(knowledge().caution("what:unplug").text);
  if (kind == WorkKind::jumper)
    all.emplace_back("Fused lead only, no longer than the test takes; never on data, reference or restraint wires.");
  return all;
}

}  // namespace whichwire
