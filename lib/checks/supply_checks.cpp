// See supply_checks.hpp. Tests: tests/checks/supply_checks.cpp.
#include "checks/supply_checks.hpp"

#include <algorithm>

#include "checks/sight.hpp"
#include "locate/verdict_class.hpp"

namespace whichwire {
namespace {

enum : std::size_t { weak = 1, none = 2 };            // outcomes of a loaded pin
enum : std::size_t { one_side = 1, both_sides = 2 };  // of a fuse

std::string name_of_feed(const Network& network, std::size_t feed) {
  return feed == nowhere ? "its fuse" : phrase_for(network.feeds.at(feed));
}

std::string name_of_ground(const Network& network, std::size_t ground) {
  return ground == nowhere ? "its ground point" : "ground point " + network.grounds.at(ground).id;
}

Fields feed_fields(const Network& network, std::size_t feed) {
  const std::string name = name_of_feed(network, feed);
  return {{"from", feed == nowhere ? "" : " (fed by " + name + ")"}, {"source", name}};
}

Fields ground_fields(const Network& network, std::size_t ground) {
  const std::string name = name_of_ground(network, ground);
  return {{"from", ground == nowhere ? "" : " (" + name + ")"}, {"source", name}};
}

std::string pin_id(const std::string& kind, const std::string& part, const std::string& pin) {
  return kind + part + (pin.empty() ? "" : "/" + pin);
}

/// One of the pins of a module that back-feeds is bad, and no one knows which.
double share_of_a_pin(const Module& module) {
  const std::size_t pins =
      std::max<std::size_t>(module.power.size(), 1) + std::max<std::size_t>(module.ground.size(), 1);
  return 1.0 / static_cast<double>(pins);
}

Candidate at_plug(Candidate made, const Module& module) {
  made.plug = module.id;
  return made;
}

/// The hazard of a feed or ground that nothing but refused modules use, so that it is refused as they are.
Place with_users(Place place, const Network& network, const std::vector<std::size_t>& users) {
  const auto all = [&](std::size_t user) { return out_of_bounds(network.modules[user]); };
  if (users.empty() || !std::all_of(users.begin(), users.end(), all)) return place;
  const auto& hazards = network.modules[users[0]].place.hazards;
  place.hazards.push_back(*std::find_if(hazards.begin(), hazards.end(), refused));
  return place;
}

}  // namespace

Candidate feed_pin_check(const Job& job, std::size_t module, std::size_t item) {
  const Module& owner = job.network.modules.at(module);
  const PowerPin pin = item == nowhere ? PowerPin{"", nowhere, ""} : owner.power.at(item);
  Candidate made = at_plug(
      build(job, item == nowhere ? "feed-pins" : "feed-pin", {owner.id, pin.pin, pin.wire, owner.place, pin.feed},
            feed_fields(job.network, pin.feed), pin_id("feed:", owner.id, pin.pin), "feed-pin"),
      owner);
  made.sees = first_seen([&network = job.network, module, item, feed = pin.feed](const Fault& fault) {
    if (of_module(fault, FaultKind::back_feeds, module))
      return sight(true, none, share_of_a_pin(network.modules[module]));
    return sight(is_open(fault, PartKind::power_pin, module, item) || opens_above(network, fault, feed), none);
  });
  return made;
}

Candidate ground_pin_check(const Job& job, std::size_t module, std::size_t item) {
  const Module& owner = job.network.modules.at(module);
  const GroundPin pin = item == nowhere ? GroundPin{"", nowhere, ""} : owner.ground.at(item);
  Candidate made =
      at_plug(build(job, item == nowhere ? "ground-pins" : "ground-pin", {owner.id, pin.pin, pin.wire, owner.place, {}},
                    ground_fields(job.network, pin.ground), pin_id("ground:", owner.id, pin.pin), "ground-pin"),
              owner);
  made.sees = first_seen([&network = job.network, module, item, ground = pin.ground](const Fault& fault) {
    if (of_module(fault, FaultKind::back_feeds, module))
      return sight(true, none, share_of_a_pin(network.modules[module]));
    const bool point = ground != nowhere && is_open(fault, PartKind::ground, ground);
    return sight(point || is_open(fault, PartKind::ground_pin, module, item), none);
  });
  return made;
}

Candidate connector_feed_check(const Job& job, std::size_t item) {
  const DiagnosticConnector& connector = job.network.diagnostic_connector;
  const PowerPin pin = item == nowhere ? PowerPin{"", nowhere, ""} : connector.power.at(item);
  Candidate made = build(job, "connector-feed", {"DLC", pin.pin, pin.wire, connector.place, pin.feed},
                         feed_fields(job.network, pin.feed), pin_id("feed:", "DLC", pin.pin));
  made.sees = first_seen([&network = job.network, item, feed = pin.feed](const Fault& fault) {
    const bool own = fault.part == PartKind::connector_power_pin && fault.item == item;
    return sight(own || opens_above(network, fault, feed), none);
  });
  return made;
}

Candidate connector_ground_check(const Job& job, std::size_t item) {
  const DiagnosticConnector& connector = job.network.diagnostic_connector;
  const GroundPin pin = item == nowhere ? GroundPin{"", nowhere, ""} : connector.ground.at(item);
  Candidate made = build(job, "connector-ground", {"DLC", pin.pin, pin.wire, connector.place, {}},
                         ground_fields(job.network, pin.ground), pin_id("ground:", "DLC", pin.pin));
  made.sees = first_seen([item, ground = pin.ground](const Fault& fault) {
    const bool point = ground != nowhere && is_open(fault, PartKind::ground, ground);
    return sight(point || (fault.part == PartKind::connector_ground_pin && fault.item == item), none);
  });
  return made;
}

Candidate feed_check(const Job& job, std::size_t feed) {
  const Feed& part = job.network.feeds.at(feed);
  const std::vector<std::size_t> users = modules_on_feed(job.network, feed);
  const bool gently = std::any_of(users.begin(), users.end(),
                                  [&](std::size_t user) { return out_of_bounds(job.network.modules[user]); });
  const std::string_view kind = word_for(part.kind);
  Candidate made =
      build(job, gently ? "feed-volts" : kind, {part.id, "", "", with_users(part.place, job.network, users), feed},
            {{"kind", std::string(phrase_for(part.kind))}}, "feed:" + part.id, kind);
  made.sees = first_seen([&network = job.network, feed](const Fault& fault) {
    if (fault.part == PartKind::feed && fault.owner == feed) return sight(true, one_side);
    return sight(opens_above(network, fault, feed), both_sides);
  });
  return made;
}

Candidate ground_point_check(const Job& job, std::size_t ground) {
  const Ground& part = job.network.grounds.at(ground);
  const Place place = with_users(part.place, job.network, modules_on_ground(job.network, ground));
  Candidate made = build(job, "ground-point", {part.id, "", "", place, {}}, {}, "ground:" + part.id);
  made.sees = first_seen([ground](const Fault& fault) { return sight(is_open(fault, PartKind::ground, ground), 1); });
  return made;
}

}  // namespace whichwire
