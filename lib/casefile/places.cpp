// Which place a person means who unplugs, pulls or plugs back something, and the cautions that belong to it. What the
// network does not know is taken as typed, since networks are often incomplete, unless it looks like a slip.
// Tested in tests/casefile/places.cpp.
#include <algorithm>
#include <whichwire/casefile.hpp>

#include "casefile/feeds.hpp"
#include "checks/knowledge.hpp"
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
  return std::ranges::any_of(network.modules, [&](const Module& module) {
    return has_hazard(module, "restraint") && fed_through(network, module, feed);
  });
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

std::vector<std::string> cautions_at(const Network& network, WorkKind kind, std::string_view what) {
  std::vector<std::string> all;
  const auto say = [&](std::string_view belongs_to) { all.push_back(knowledge().caution(belongs_to).text); };
  const Place* const place = place_with(network, what);
  for (const std::string& hazard : place == nullptr ? std::vector<std::string>{} : place->hazards) {
    const bool refused = hazard == "restraint" || hazard == "high-voltage";
    if (refused) {
      all.push_back(std::string(what) + " is " + knowledge().caution("refuse:" + hazard).text + ".");
    } else {
      say("hazard:" + hazard);
    }
  }
  if (about_fuses(kind) && feeds_restraint(network, what))
    all.push_back(std::string(what) +
                  " feeds a restraint module: no work on that system; follow the maker's procedure.");
  if (kind == WorkKind::unplug) say("what:unplug");
  if (kind == WorkKind::jumper)
    all.emplace_back("Fused lead only, no longer than the test takes; never on data, reference or restraint wires.");
  return all;
}

}  // namespace whichwire
