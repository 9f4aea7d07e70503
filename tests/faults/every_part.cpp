#include "every_part.hpp"

namespace whichwire::test {

namespace {

/// A bus of two modules, GWM and one of its own.
void add_pair(Building& b, const std::string& id, Protocol protocol) {
  const std::string own = "X" + id;
  b.module(own);
  b.bus(id, protocol, 125000);
  b.segment(id, id + "-1", "GWM", own);
}

}  // namespace

Network network_with_every_part() {
  Building b;
  for (const char* id : {"GWM", "ECM", "TCM", "TOW"}) b.module(id);
  b.feed("LINK", "", true, Feed::Kind::fusible_link);
  b.feed("IGN", "LINK", false, Feed::Kind::switched);
  b.feed("K1", "IGN", false, Feed::Kind::relay);
  b.feed("F11", "K1");
  b.ground("G12");
  b.power_pin("ECM", "A-3", "F11");
  b.power_pin("ECM", "A-27", "");
  b.ground_pin("ECM", "A-1", "G12");
  b.ground_pin("ECM", "B-40", "G12");
  b.reference("ECM", "5V-1");
  b.the_module("TOW").optional = true;

  b.bus("DRV", Protocol::can_hs, 500000);
  b.segment("DRV", "DRV-1", "GWM", "S1");
  b.segment("DRV", "DRV-2", "S1", "ECM");
  b.segment("DRV", "DRV-3", "S1", "TCM");
  b.segment("DRV", "DRV-4", "S1", "TOW");
  b.segment("DRV", "DRV-5", "S1", "DLC");
  b.terminator("DRV", "GWM");
  b.terminator("DRV", "ECM");
  add_pair(b, "FT", Protocol::can_ft);
  add_pair(b, "SW", Protocol::can_sw);
  add_pair(b, "VPW", Protocol::j1850_vpw);
  add_pair(b, "PWM", Protocol::j1850_pwm);
  add_pair(b, "KL", Protocol::k_line);
  add_pair(b, "LIN", Protocol::lin);
  add_pair(b, "J17", Protocol::j1708);
  add_pair(b, "FLX", Protocol::flexray);
  add_pair(b, "RNG", Protocol::ring);
  b.segment("RNG", "RNG-2", "XRNG", "GWM");
  add_pair(b, "T1", Protocol::ethernet_t1);
  b.segment("KL", "KL-2", "GWM", "DLC");
  b.gateway("GWM", {"DRV", "FT", "SW", "LIN"});
  b.connect("DRV", "6", "14");
  b.connect("KL", "7", "");
  b.network.diagnostic_connector.power.push_back({"16", b.network.feeds.size() - 1, ""});
  b.network.diagnostic_connector.ground.push_back({"4", 0, ""});
  return b.network;
}

Network network_with_clashing_ids() {
  Building b;
  b.module("ECM");
  b.module("ABS");
  b.feed("4");
  b.ground("4");
  b.bus("A", Protocol::can_hs, 500000);
  b.bus("B", Protocol::can_hs, 500000);
  for (const char* bus : {"A", "B"}) {
    b.segment(bus, "4", "ECM", "ABS");
    b.segment(bus, "to", "ABS", "DLC");
    b.terminator(bus, "ECM");
    b.terminator(bus, "ECM");
    b.connect(bus, "", "");
  }
  b.power_pin("ECM", "", "4");
  b.power_pin("ECM", "", "4");
  b.ground_pin("ECM", "1", "4");
  b.power_pin("ABS", "1", "4");
  b.ground_pin("ABS", "1", "4");
  b.reference("ABS", "1");
  return b.network;
}

}  // namespace whichwire::test
