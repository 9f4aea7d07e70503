// A small invented vehicle, the Hollin Moor, put together by hand so that these tests need no reader.
//
//   DLC --DIAG-1-- GWM --DRV-1-- S310 --DRV-2-- C50 --DRV-3-- S311 --DRV-4-- ECM (120 ohms)
//                (120)            |                            |
//                               DRV-5                        DRV-6
//                                ABS                          TCM
//   BCM --LIN-1-- WIP (LIN)      GWM --BDY-1-- BCM --BDY-2-- SRS --BDY-3-- HVC
#pragma once

#include <whichwire/findings.hpp>

namespace moor {

using namespace whichwire;

enum Modules : std::size_t { GWM, ECM, TCM, ABS, BCM, SRS, HVC, WIP };
enum Buses : std::size_t { DIAG, DRV, BDY, LIN };
enum Feeds : std::size_t { F11, IGN, F4, F30, F20, F9, F7 };
enum Grounds : std::size_t { G12, G20, G31, G40 };
enum Points : std::size_t { S310, S311, C50 };

inline End module_end(std::size_t i) { return {End::Kind::module, i}; }
inline End point_end(std::size_t i) { return {End::Kind::point, i}; }
inline End dlc() { return {End::Kind::diagnostic_connector, nowhere}; }

inline Module module(std::string id, std::string name, std::vector<PowerPin> power, std::vector<GroundPin> ground) {
  Module made;
  made.id = std::move(id);
  made.name = std::move(name);
  made.power = std::move(power);
  made.ground = std::move(ground);
  return made;
}

inline Segment segment(std::string id, End from, End to, LinePins from_pins = {}, LinePins to_pins = {}) {
  Segment made;
  made.id = std::move(id);
  made.from = from;
  made.to = to;
  made.from_pins = std::move(from_pins);
  made.to_pins = std::move(to_pins);
  return made;
}

inline Bus bus(std::string id, Protocol protocol, int bit_rate, std::vector<Segment> segments) {
  Bus made;
  made.id = std::move(id);
  made.name = made.id + " bus";
  made.protocol = protocol;
  made.bit_rate = bit_rate;
  made.segments = std::move(segments);
  return made;
}

inline Feed feed(std::string id, Feed::Kind kind, std::size_t from, bool always, double minutes) {
  Feed made;
  made.id = std::move(id);
  made.kind = kind;
  made.from = from;
  made.live = {always, always, true, true};
  made.place = {"fuse box", minutes, {}};
  return made;
}

inline std::vector<Module> modules() {
  std::vector<Module> all = {
      module("GWM", "Gateway", {{"1", F9, "RD"}}, {{"2", G20, "BN"}}),
      module("ECM", "Engine control module", {{"A-3", F11, "RD/WH"}, {"A-27", F4, "VT"}},
             {{"A-1", G12, "BN"}, {"B-40", G12, "BN"}}),
      module("TCM", "Transmission control module", {{"4", F4, "VT/GY"}}, {{"9", G12, "BN"}}),
      module("ABS", "Brake control module", {{"1", F20, "RD/BU"}}, {{"13", G31, "BK"}}),
      module("BCM", "Body control module", {{"7", F20, "RD/GN"}}, {{"8", G20, "BK"}}),
      module("SRS", "Restraint control module", {{"5", F7, "VT/YE"}}, {{"6", G40, "BK"}}),
      module("HVC", "Climate control", {}, {}),
      module("WIP", "Wiper motor", {{"3", nowhere, "RD"}}, {{"1", nowhere, "BN"}}),
  };
  all[ECM].references.push_back({"5V-1", "B-17", "GY/OG", 5.0, {"fuel rail pressure sensor", "pedal sensor"}});
  all[ECM].place = {"engine bay, left", 4.0, {}};
  all[SRS].place = {"centre tunnel", 10.0, {"restraint"}};
  all[GWM].place = {"behind the glove box", 12.0, {}};
  return all;
}

inline std::vector<Bus> buses() {
  std::vector<Bus> all = {
      bus("DIAG", Protocol::can_hs, 500000, {segment("DIAG-1", dlc(), module_end(GWM), {"6", "14"}, {"11", "12"})}),
      bus("DRV", Protocol::can_hs, 500000,
          {segment("DRV-1", module_end(GWM), point_end(S310), {"7", "8"}),
           segment("DRV-2", point_end(S310), point_end(C50)), segment("DRV-3", point_end(C50), point_end(S311)),
           segment("DRV-4", point_end(S311), module_end(ECM), {}, {"B-7", "B-8"}),
           segment("DRV-5", point_end(S310), module_end(ABS), {}, {"20", "21"}),
           segment("DRV-6", point_end(S311), module_end(TCM), {}, {"17", "18"})}),
      bus("BDY", Protocol::can_hs, 125000,
          {segment("BDY-1", module_end(GWM), module_end(BCM)), segment("BDY-2", module_end(BCM), module_end(SRS)),
           segment("BDY-3", module_end(SRS), module_end(HVC))}),
      bus("LIN", Protocol::lin, 19200, {segment("LIN-1", module_end(BCM), module_end(WIP), {"30", ""}, {"2", ""})}),
  };
  all[DRV].high_colour = "GN/WH";
  all[DRV].low_colour = "GN";
  all[DRV].terminators = {{module_end(GWM), 120.0}, {module_end(ECM), 120.0}};
  all[LIN].commander = BCM;
  return all;
}

inline Network network() {
  Network made;
  made.name = "moor";
  made.note = "An invented vehicle.";
  made.vehicle = {"Hollin", "Moor", "base", 2018};
  made.modules = modules();
  made.buses = buses();
  made.gateways = {{GWM, {DIAG, DRV, BDY}}};
  made.points = {{"S310", Point::Kind::splice, {"left sill", 15.0, {}}},
                 {"S311", Point::Kind::splice, {"bulkhead", 20.0, {}}},
                 {"C50", Point::Kind::inline_connector, {"left foot well", 5.0, {}}}};
  made.feeds = {
      feed("F11", Feed::Kind::fuse, nowhere, true, 1.0), feed("IGN", Feed::Kind::switched, nowhere, false, 6.0),
      feed("F4", Feed::Kind::fuse, IGN, false, 1.0),     feed("F30", Feed::Kind::fuse, nowhere, true, 1.0),
      feed("F20", Feed::Kind::fuse, nowhere, true, 1.0), feed("F9", Feed::Kind::fuse, nowhere, true, 1.0),
      feed("F7", Feed::Kind::fuse, IGN, false, 1.0)};
  made.grounds = {{"G12", {"left strut tower", 3.0, {}}},
                  {"G20", {"right sill", 6.0, {}}},
                  {"G31", {"left strut tower", 3.0, {}}},
                  {"G40", {"tunnel", 8.0, {}}}};
  made.diagnostic_connector.buses = {{DIAG, {"6", "14"}}};
  made.diagnostic_connector.power = {{"16", F30, "RD"}};
  made.diagnostic_connector.ground = {{"4", G20, "BK"}};
  made.diagnostic_connector.place = {"under the dash", 0.5, {}};
  return made;
}

// Faults, as short words.
inline Fault module_fault(FaultKind kind, std::size_t module, std::size_t on_bus = nowhere) {
  return {.kind = kind, .part = PartKind::module, .owner = module, .bus = on_bus, .to = {}, .odds = 1e-3};
}
inline Fault dead(std::size_t module) { return module_fault(FaultKind::dead, module); }
inline Fault open_segment(std::size_t on_bus, std::size_t item, Lines lines = Lines::both) {
  return {.kind = FaultKind::open,
          .part = PartKind::segment,
          .owner = on_bus,
          .item = item,
          .bus = on_bus,
          .lines = lines,
          .to = {},
          .odds = 1e-3};
}
inline Fault open_part(PartKind part, std::size_t owner, std::size_t item = nowhere) {
  return {.kind = FaultKind::open, .part = part, .owner = owner, .item = item, .to = {}, .odds = 1e-3};
}
inline Fault with_odds(Fault fault, double odds) {
  fault.odds = odds;
  return fault;
}

}  // namespace moor
