#include "draw/drawing.hpp"

#include <cmath>

namespace whichwire::draw {

Ink ink_of(const Bus& bus) {
  if (!bus.wired) return Ink::not_known;
  if (bus.protocol == Protocol::ring) return Ink::light;
  return lines_of(bus.protocol) == 2 ? Ink::pair : Ink::single;
}

std::string protocol_name(Protocol protocol) {
  switch (protocol) {
    case Protocol::can_hs:
      return "CAN high speed";
    case Protocol::can_ft:
      return "CAN fault-tolerant";
    case Protocol::can_sw:
      return "CAN single wire";
    case Protocol::j1850_vpw:
      return "J1850 VPW";
    case Protocol::j1850_pwm:
      return "J1850 PWM";
    case Protocol::k_line:
      return "K-line";
    case Protocol::lin:
      return "LIN";
    case Protocol::j1708:
      return "J1708";
    case Protocol::flexray:
      return "FlexRay";
    case Protocol::ring:
      return "ring";
    case Protocol::ethernet_t1:
      return "Ethernet T1";
  }
  return "";
}

namespace {

std::string rate_of(int bit_rate) {
  if (bit_rate <= 0) return "";
  const bool mega = bit_rate >= 1'000'000;
  const double value = bit_rate / (mega ? 1e6 : 1e3);
  const auto tenths = std::lround(value * 10);
  std::string text = std::to_string(tenths / 10);
  if (tenths % 10 != 0) text += "." + std::to_string(tenths % 10);
  return ", " + text + (mega ? " Mbit/s" : " kbit/s");
}

}  // namespace

std::string heading_of(const Bus& bus) {
  const std::string kind =
      protocol_name(bus.protocol) + rate_of(bus.bit_rate) + (bus.wired ? "" : "; wiring not known");
  return bus.name.empty() ? bus.id + ": " + kind : bus.id + ": " + bus.name + " (" + kind + ")";
}

}  // namespace whichwire::draw
