// See check_at.hpp. The ids are those of lib/checks and lib/planner. Tests: tests/casefile/state.cpp.
#include "casefile/check_at.hpp"

#include <algorithm>

namespace whichwire {
namespace {

using Kind = Reading::Kind;

constexpr std::string_view connector_id = "DLC";

bool in_volts(Kind kind) { return kind == Kind::volts || kind == Kind::drop || kind == Kind::number; }

class Finder {
 public:
  Finder(const Network& network, const CaseReading& reading, Kind kind, const Situation& then)
      : network_(network), reading_(reading), kind_(kind), then_(then) {}

  std::string find() const {
    const std::string& place = reading_.place;
    if (const std::size_t at = place.find(" at "); at != std::string::npos)
      return on_bus(place.substr(0, at), place.substr(at + 4));
    if (const std::size_t slash = place.find('/'); slash != std::string::npos)
      return at_pin(place.substr(0, slash), place.substr(slash + 1));
    return at_part(place);
  }

 private:
  /// A lamp was on, or the volts lost were measured: only then does a supply show what it carries.
  bool loaded() const {
    return reading_.mode == "volts-loaded" || reading_.mode == "volts-drop" || kind_ == Kind::lamp ||
           kind_ == Kind::drop;
  }
  bool looked() const { return reading_.mode == "look" || kind_ == Kind::seen; }

  std::string on_bus(const std::string& bus, const std::string& end) const {
    if (index_of(network_.buses, bus) == nowhere) return "";
    return kind_ == Kind::ohms ? "ohms:" + bus + "@" + end : "";
  }

  std::string at_part(const std::string& place) const {
    if (place == "battery") return "battery";
    if (index_of(network_.feeds, place) != nowhere) return "feed:" + place;
    if (index_of(network_.grounds, place) != nowhere) return "ground:" + place;
    const bool point = place == connector_id || index_of(network_.points, place) != nowhere;
    if (point) return looked() ? "look:" + place : "";
    if (index_of(network_.modules, place) == nowhere) return "";
    if (looked()) return "plug:" + place;
    return reading_.mode == "ask" ? "configured:" + place : "";
  }

  std::string at_pin(const std::string& owner, const std::string& pin) const {
    const DiagnosticConnector& connector = network_.diagnostic_connector;
    if (owner == connector_id) {
      const std::string supply = at_supply(owner, pin, connector.power, connector.ground);
      return supply.empty() ? at_connector_bus(pin) : supply;
    }
    const std::size_t m = index_of(network_.modules, owner);
    if (m == nowhere) return "";
    const Module& module = network_.modules[m];
    if (std::string supply = at_supply(owner, pin, module.power, module.ground); !supply.empty()) return supply;
    for (std::size_t r = 0; r < module.references.size(); ++r) {
      if (module.references[r].pin == pin || module.references[r].id == pin) return at_reference(m, r);
    }
    return at_module_bus(m, pin);
  }

  std::string at_supply(const std::string& owner, const std::string& pin, const std::vector<PowerPin>& power,
                        const std::vector<GroundPin>& ground) const {
    const auto named = [&](const auto& each) { return each.pin == pin; };
    if (!loaded()) return "";
    if (std::any_of(power.begin(), power.end(), named)) return "feed:" + owner + "/" + pin;
    return std::any_of(ground.begin(), ground.end(), named) ? "ground:" + owner + "/" + pin : "";
  }

  std::string at_reference(std::size_t m, std::size_t r) const {
    const Module& module = network_.modules[m];
    const std::string id = module.id + "/" + module.references[r].id;
    if (kind_ == Kind::lamp) return "wire:" + id;
    if (!in_volts(kind_)) return "";
    std::vector<std::size_t> off;
    for (const LoadOff& each : then_.loads_off) {
      if (each.module == m && each.reference == r) off.push_back(each.load);
    }
    if (off.empty()) return "reference:" + id;
    if (off.size() == module.references[r].loads.size() && off.size() > 1) return "loads:" + id;
    return off.size() == 1 ? "load:" + id + "/" + module.references[r].loads[off.front()] : "";
  }

  std::string at_connector_bus(const std::string& pin) const {
    for (const auto& each : network_.diagnostic_connector.buses) {
      const bool high = each.pins.high == pin;
      if (!high && each.pins.low != pin) continue;
      const Bus& bus = network_.buses[each.bus];
      if (kind_ == Kind::ohms) return "ohms:" + bus.id + "@" + std::string(connector_id);
      if (!in_volts(kind_)) return "";
      return "volts:" + bus.id + "/" + (lines_of(bus.protocol) != 2 ? "bus" : high ? "high" : "low");
    }
    return "";
  }

  std::string at_module_bus(std::size_t m, const std::string& pin) const {
    const End end{End::Kind::module, m};
    if (kind_ != Kind::ohms) return "";
    for (const Bus& bus : network_.buses) {
      for (const Segment& segment : bus.segments) {
        const LinePins& pins = segment.from == end ? segment.from_pins : segment.to_pins;
        const bool here = segment.from == end || segment.to == end;
        if (here && (pins.high == pin || pins.low == pin)) return "ohms:" + bus.id + "@" + network_.modules[m].id;
      }
    }
    return "";
  }

  const Network& network_;
  const CaseReading& reading_;
  Kind kind_;
  const Situation& then_;
};

}  // namespace

std::string check_at(const Network& network, const CaseReading& reading, Reading::Kind kind, const Situation& then) {
  return Finder(network, reading, kind, then).find();
}

}  // namespace whichwire
