// The one place that decides which faults a network can have: the table "Faults a network can have" of the model.
// Which parts are there follows from the network, how often they fail from rates.csv.
// Each fault is present now, and, but for a module that is not fitted, also comes and goes.
// Tested in tests/faults/catalogue.cpp.
#include <algorithm>

#include "faults/rates.hpp"

namespace whichwire {

namespace {

/// Whether a fault that comes and goes is a matter of wires and contacts, which work loose, or of electronics.
enum class Nature : std::uint8_t { wiring, other };

bool one_of(Protocol protocol, std::initializer_list<Protocol> all) {
  return std::find(all.begin(), all.end(), protocol) != all.end();
}

class Catalogue {
 public:
  Catalogue(const Network& network, const Rates& rates)
      : network_(network),
        rates_(rates),
        wiring_factor_(odds_of(rates, "comes-and-goes.wiring")),
        other_factor_(odds_of(rates, "comes-and-goes.other")),
        buses_of_(network.modules.size(), 0) {
    for (const Bus& bus : network.buses) {
      members_.push_back(modules_on(bus));
      for (const std::size_t m : members_.back()) ++buses_of_[m];
    }
  }

  std::vector<Fault> make() {
    add_modules();
    add_gateways();
    add_pins();
    add_references();
    add_feeds_and_grounds();
    for (std::size_t bus = 0; bus < network_.buses.size(); ++bus) {
      add_segments(bus);
      add_terminators(bus);
      add_modules_on(bus);
    }
    add_connector();
    return std::move(faults_);
  }

 private:
  double odds(std::string_view what) const { return odds_of(rates_, what); }

  void add(Fault fault, double odds, Nature nature) {
    fault.odds = odds;
    faults_.push_back(fault);
    if (fault.kind == FaultKind::not_fitted) return;  // a vehicle does not lose and regain a module
    fault.comes_and_goes = true;
    fault.odds = odds * (nature == Nature::wiring ? wiring_factor_ : other_factor_);
    faults_.push_back(fault);
  }

  void add_modules() {
    const double dead = odds("dead"), unconfigured = odds("unconfigured"), not_fitted = odds("not-fitted");
    for (std::size_t m = 0; m < network_.modules.size(); ++m) {
      add({.kind = FaultKind::dead, .part = PartKind::module, .owner = m}, dead, Nature::other);
      add({.kind = FaultKind::unconfigured, .part = PartKind::module, .owner = m}, unconfigured, Nature::other);
      if (network_.modules[m].optional) {
        add({.kind = FaultKind::not_fitted, .part = PartKind::module, .owner = m}, not_fitted, Nature::other);
      }
    }
  }

  void add_gateways() {
    std::vector<std::size_t> modules;
    for (const Gateway& gateway : network_.gateways) modules.push_back(gateway.module);
    std::sort(modules.begin(), modules.end());
    modules.erase(std::unique(modules.begin(), modules.end()), modules.end());
    for (const std::size_t m : modules) {
      add({.kind = FaultKind::not_forwarding, .part = PartKind::module, .owner = m}, odds("not-forwarding"),
          Nature::other);
    }
  }

  /// One open wire for each listed pin; a list that is not known stands for one pin without a name.
  void add_open_pins(PartKind part, std::size_t owner, std::size_t listed, double odds) {
    if (listed == 0) add({.kind = FaultKind::open, .part = part, .owner = owner}, odds, Nature::wiring);
    for (std::size_t pin = 0; pin < listed; ++pin) {
      add({.kind = FaultKind::open, .part = part, .owner = owner, .item = pin}, odds, Nature::wiring);
    }
  }

  void add_pins() {
    const double power = odds("open.power-pin"), ground = odds("open.ground-pin");
    for (std::size_t m = 0; m < network_.modules.size(); ++m) {
      add_open_pins(PartKind::power_pin, m, network_.modules[m].power.size(), power);
      add_open_pins(PartKind::ground_pin, m, network_.modules[m].ground.size(), ground);
    }
  }

  void add_references() {
    const double open = odds("open.reference");
    const double grounded = odds("short.reference.ground"), supplied = odds("short.reference.supply");
    for (std::size_t m = 0; m < network_.modules.size(); ++m) {
      for (std::size_t r = 0; r < network_.modules[m].references.size(); ++r) {
        Fault fault{.kind = FaultKind::open, .part = PartKind::reference, .owner = m, .item = r};
        add(fault, open, Nature::wiring);
        fault.kind = FaultKind::short_circuit;
        fault.to = ShortTo::ground;
        add(fault, grounded, Nature::wiring);
        fault.to = ShortTo::supply;
        add(fault, supplied, Nature::wiring);
      }
    }
  }

  void add_feeds_and_grounds() {
    for (std::size_t f = 0; f < network_.feeds.size(); ++f) {
      const double open = odds("open.feed." + std::string(word_for(network_.feeds[f].kind)));
      add({.kind = FaultKind::open, .part = PartKind::feed, .owner = f}, open, Nature::wiring);
    }
    for (std::size_t g = 0; g < network_.grounds.size(); ++g) {
      add({.kind = FaultKind::open, .part = PartKind::ground, .owner = g}, odds("open.ground"), Nature::wiring);
    }
  }

  void add_segments(std::size_t bus) {
    const Protocol protocol = network_.buses[bus].protocol;
    for (std::size_t s = 0; s < network_.buses[bus].segments.size(); ++s) {
      Fault part{.part = PartKind::segment, .owner = bus, .item = s, .bus = bus};
      if (protocol == Protocol::ring) {
        add_open(part, Lines::both, "open.segment.single");
        add_resistive(part);
      } else if (protocol == Protocol::ethernet_t1) {
        add_open(part, Lines::both, "open.segment.both");
        add_short(part, Lines::both, ShortTo::other_line);
      } else if (lines_of(protocol) == 1) {
        add_open(part, Lines::both, "open.segment.single");
        add_short(part, Lines::both, ShortTo::ground);
        add_short(part, Lines::both, ShortTo::supply);
        add_resistive(part);
      } else {
        add_open(part, Lines::high, "open.segment.high");
        add_open(part, Lines::low, "open.segment.low");
        add_open(part, Lines::both, "open.segment.both");
        for (const Lines line : {Lines::high, Lines::low}) {
          for (const ShortTo to : {ShortTo::ground, ShortTo::supply}) add_short(part, line, to);
        }
        add_short(part, Lines::both, ShortTo::other_line);
        add_resistive(part);
      }
    }
  }

  void add_open(Fault part, Lines lines, std::string_view rate) {
    part.kind = FaultKind::open;
    part.lines = lines;
    add(part, odds(rate), Nature::wiring);
  }

  void add_short(Fault part, Lines lines, ShortTo to) {
    part.kind = FaultKind::short_circuit;
    part.lines = lines;
    part.to = to;
    add(part, odds("short.segment." + std::string(word_for(to))), Nature::wiring);
  }

  void add_resistive(Fault part) {
    part.kind = FaultKind::resistive;
    add(part, odds("resistive.segment"), Nature::wiring);
  }

  void add_terminators(std::size_t bus) {
    const std::size_t listed = network_.buses[bus].terminators.size();
    for (std::size_t t = 0; t < listed; ++t) {
      add({.kind = FaultKind::missing, .part = PartKind::terminator, .owner = bus, .item = t, .bus = bus},
          odds("missing.terminator"), Nature::other);
    }
    if (listed > 0) {
      add({.kind = FaultKind::extra, .part = PartKind::bus, .owner = bus, .bus = bus}, odds("extra.terminator"),
          Nature::other);
    }
    if (one_of(network_.buses[bus].protocol, {Protocol::can_hs, Protocol::can_ft, Protocol::can_sw, Protocol::j1850_vpw,
                                              Protocol::j1850_pwm, Protocol::j1708})) {
      add({.kind = FaultKind::added_device, .part = PartKind::bus, .owner = bus, .bus = bus}, odds("added-device"),
          Nature::other);
    }
  }

  /// What a module does to one bus.
  void add_modules_on(std::size_t bus) {
    const Protocol protocol = network_.buses[bus].protocol;
    const bool holds = !one_of(protocol, {Protocol::ring, Protocol::ethernet_t1});
    const bool babbles = holds && protocol != Protocol::k_line;
    const bool back_feeds = one_of(protocol, {Protocol::can_hs, Protocol::can_sw, Protocol::j1850_vpw,
                                              Protocol::j1850_pwm, Protocol::can_ft, Protocol::lin});
    for (const std::size_t m : members_[bus]) {
      Fault fault{.part = PartKind::module, .owner = m, .bus = bus};
      const auto add_if = [&](bool there, FaultKind kind) {
        fault.kind = kind;
        if (there) add(fault, odds(word_for(kind)), Nature::other);
      };
      add_if(holds, FaultKind::holds);
      add_if(babbles, FaultKind::babbles);
      add_if(buses_of_[m] > 1, FaultKind::port_dead);
      add_if(back_feeds, FaultKind::back_feeds);
    }
  }

  void add_connector() {
    const DiagnosticConnector& connector = network_.diagnostic_connector;
    if (connector.buses.empty()) return;
    add_open_pins(PartKind::connector_power_pin, nowhere, connector.power.size(), odds("open.connector-power-pin"));
    add_open_pins(PartKind::connector_ground_pin, nowhere, connector.ground.size(), odds("open.connector-ground-pin"));
    const double open = odds("open.connector-bus-pin");
    for (std::size_t i = 0; i < connector.buses.size(); ++i) {
      Fault pin{.kind = FaultKind::open, .part = PartKind::connector_bus_pin, .item = i, .bus = connector.buses[i].bus};
      if (lines_of(network_.buses[pin.bus].protocol) == 1) {
        add(pin, open, Nature::wiring);
        continue;
      }
      for (const Lines line : {Lines::high, Lines::low}) {
        pin.lines = line;
        add(pin, open, Nature::wiring);
      }
    }
  }

  const Network& network_;
  const Rates& rates_;
  double wiring_factor_, other_factor_;
  std::vector<std::vector<std::size_t>> members_;  ///< modules of each bus
  std::vector<int> buses_of_;                      ///< how many buses each module is on
  std::vector<Fault> faults_;
};

}  // namespace

std::vector<Fault> faults_of(const Network& network, const Rates& rates) { return Catalogue(network, rates).make(); }

}  // namespace whichwire
