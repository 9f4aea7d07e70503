// See spice.hpp. Plain on purpose: strings for nodes, no sharing of code with lib/electrical.
#include "spice.hpp"

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <map>
#include <span>
#include <sstream>

#include "building.hpp"
#include "running.hpp"

namespace whichwire::test {
namespace {

std::string text(double value) {
  char buffer[40];
  std::snprintf(buffer, sizeof buffer, "%.12g", value);
  return buffer;
}

struct Deck {
  const SpiceCase& its;
  const ElectricalValues& values;
  double Interval::*limit;
  Mode mode;
  std::string prefix;
  std::size_t sender;
  std::ostringstream out = {};
  int count = 0;

  const Bus& bus() const { return its.network.buses[0]; }
  std::size_t lines() const { return static_cast<std::size_t>(lines_of(bus().protocol)); }

  const Interval* row(const std::string& what) const {
    for (const auto& each : values.rows) {
      if (each.what == what) return &each.value;
    }
    return nullptr;
  }
  double value(const std::string& what) const { return row(what)->*limit; }

  std::map<std::string, std::string> piece = {};

  std::string root(const std::string& node) {
    std::string& above = piece.try_emplace(node, node).first->second;
    return above == node ? node : above = root(above);
  }

  /// Ties what nothing joins to ground, or a one-way source alone, to it by a gigaohm: ngspice wants a way to ground.
  void tie_loose_pieces() {
    std::vector<std::string> nodes;
    for (const auto& [node, above] : piece) nodes.push_back(node);
    for (const std::string& node : nodes) {
      if (root(node) == node && root("0") != node) out << "r" << prefix << count++ << " " << node << " 0 1e9\n";
    }
  }

  void resistor(const std::string& a, const std::string& b, double ohms) {
    for (const std::string& node : {a, b}) root(node);
    if (std::isinf(ohms)) return;
    piece[root(a)] = root(b);
    out << "r" << prefix << count++ << " " << a << " " << b << " " << text(std::max(ohms, 1e-4)) << "\n";
  }

  void source(const std::string& a, const std::string& b, double volts, double ohms, double way) {
    for (const std::string& node : {a, b}) root(node);
    if (std::isinf(ohms)) return;
    if (way != 0) {  // a ramp of the volts that push the allowed way
      const std::string across = "v(" + a + (b == "0" ? ")" : ")-v(" + b + ")");
      const std::string push = way > 0 ? text(volts) + "-(" + across + ")" : across + "-(" + text(volts) + ")";
      out << "b" << prefix << count++ << " " << (way > 0 ? b + " " + a : a + " " + b) << " i=uramp(" << push << ")/"
          << text(ohms) << "\n";
      return;
    }
    piece[root(a)] = root(b);
    const std::string n = prefix + "x" + std::to_string(count++);
    out << "v" << n << " " << n << " " << b << " " << text(volts) << "\n";
    out << "r" << n << " " << n << " " << a << " " << text(ohms) << "\n";
  }

  std::string end(const End& e, std::size_t line) const {
    const char* kind = e.kind == End::Kind::module ? "q" : e.kind == End::Kind::point ? "s" : "c";
    const std::string index = e.kind == End::Kind::diagnostic_connector ? "" : std::to_string(e.index);
    return prefix + kind + index + "_" + std::to_string(line);
  }

  bool apart(const End& e) const {
    const auto in = [&](const std::vector<std::size_t>& all) {
      return std::count(all.begin(), all.end(), e.index) > 0;
    };
    return (e.kind == End::Kind::module && in(its.situation.unplugged)) ||
           (e.kind == End::Kind::point && in(its.situation.parted));
  }

  std::string plug(std::size_t segment, bool at_to, std::size_t line) const {
    const End& e = at_to ? bus().segments[segment].to : bus().segments[segment].from;
    if (!apart(e)) return end(e, line);
    return prefix + "p" + std::to_string(segment) + (at_to ? "t" : "f") + std::to_string(line);
  }

  static bool concerns(const Fault& fault, std::size_t line) {
    return fault.lines == Lines::both || (fault.lines == Lines::low) == (line == 1);
  }

  double ohms(const PresentFault& each, const std::string& usual) const {
    return each.ohms ? (*each.ohms).*limit : value(usual);
  }

  bool has(FaultKind kind, std::size_t module) const {
    return std::any_of(its.faults.begin(), its.faults.end(), [&](const PresentFault& each) {
      return each.fault.kind == kind && each.fault.part == PartKind::module && each.fault.owner == module;
    });
  }

  bool lost(PartKind part, std::size_t module) const {
    return std::any_of(its.faults.begin(), its.faults.end(), [&](const PresentFault& each) {
      return each.fault.kind == FaultKind::open && each.fault.part == part && each.fault.owner == module;
    });
  }

  void segment(std::size_t s) {
    const Segment& segment = bus().segments[s];
    const double warm = 1 + value("wire.temperature-coefficient") * (value("wire.temperature") - 20);
    const double length = segment.length_m ? *segment.length_m * value("wire.length-share") : value("wire.length");
    // A thin wire has the more ohms.
    const Interval& areas = *row("wire.area");
    const double usual = limit == &Interval::low ? areas.high : limit == &Interval::high ? areas.low : areas.nominal;
    const double area = segment.area_mm2.value_or(usual);
    const double wire =
        value("wire.resistivity") / 1000 * value("wire.strand-factor") * warm * length / area + 2 * value("contact");
    std::vector<PresentFault> mine;
    for (const auto& each : its.faults) {
      if (each.fault.part == PartKind::segment && each.fault.item == s) mine.push_back(each);
    }
    const bool shorted = std::any_of(
        mine.begin(), mine.end(), [](const PresentFault& each) { return each.fault.kind == FaultKind::short_circuit; });
    const double half = limit == &Interval::low ? 0 : limit == &Interval::high ? wire : wire / 2;
    const std::string middle = prefix + "w" + std::to_string(s);
    bool any_open = false;
    std::vector<bool> opened(2, false), gapped(2, false);
    for (std::size_t l = 0; l < lines(); ++l) {
      double gap = 0;
      for (const auto& each : mine) {  // an open outweighs a joint
        if (each.fault.kind != FaultKind::open || !concerns(each.fault, l)) continue;
        opened[l] = gapped[l] = true;
        gap = each.ohms ? (*each.ohms).*limit : INFINITY;
      }
      for (const auto& each : mine) {
        if (each.fault.kind != FaultKind::resistive || opened[l]) continue;
        gapped[l] = true;
        gap = ohms(each, "joint");
      }
      any_open = any_open || opened[l];
      if (!shorted) {
        resistor(plug(s, false, l), plug(s, true, l), wire + gap);
        continue;
      }
      const std::string n = middle + "_" + std::to_string(l);
      resistor(plug(s, false, l), n, half);
      if (gapped[l]) resistor(n, n + "o", gap);
      resistor(gapped[l] ? n + "o" : n, plug(s, true, l), half);
    }
    for (const auto& each : mine) {
      if (each.fault.kind != FaultKind::short_circuit) continue;
      const double r = ohms(each, "short");
      const auto side = [&](std::size_t l, bool second) {
        return middle + "_" + std::to_string(l) + (second && gapped[l] ? "o" : "");
      };
      if (each.fault.to == ShortTo::other_line) {
        resistor(side(0, false), side(1, false), r);
        if (any_open) resistor(side(0, true), side(1, true), r);
        continue;
      }
      for (std::size_t l = 0; l < lines(); ++l) {
        if (!concerns(each.fault, l)) continue;
        const std::string other = each.fault.to == ShortTo::ground ? "0" : prefix + "rail";
        resistor(side(l, false), other, r);
        if (opened[l]) resistor(side(l, true), other, r);
      }
    }
  }

  const Interval* line_row(const std::string& state, const std::string& quantity, std::size_t line) const {
    const std::string key = std::string(word_for(bus().protocol)) + "." + state + "." + quantity;
    const Interval* own = row(key + (line == 0 ? ".high" : ".low"));
    return own != nullptr ? own : row(key);
  }

  void level(const std::string& at, const std::string& common, const std::string& state, std::size_t line) {
    const Interval* r = line_row(state, "ohms", line);
    if (r == nullptr) return;
    const auto or_zero = [&](const char* quantity) {
      const Interval* found = line_row(state, quantity, line);
      return found == nullptr ? 0.0 : found->*limit;
    };
    if (mode == Mode::ohms) return resistor(at, common, r->*limit);
    const double battery = its.situation.battery_connected ? value("battery.volts") : 0;
    source(at, common, or_zero("volts") + or_zero("battery") * battery, r->*limit, or_zero("way"));
  }

  void module(std::size_t m) {
    if (has(FaultKind::not_fitted, m)) return;
    const End e{End::Kind::module, m};
    const bool on =
        !apart(e) && its.situation.battery_connected && !lost(PartKind::power_pin, m) && !lost(PartKind::ground_pin, m);
    const bool port = std::any_of(its.faults.begin(), its.faults.end(), [&](const PresentFault& each) {
      return each.fault.kind == FaultKind::port_dead && each.fault.owner == m;
    });
    const bool sound = !has(FaultKind::dead, m) && !port;
    const std::string common = apart(e) || lost(PartKind::ground_pin, m) ? prefix + "g" + std::to_string(m) : "0";
    const std::string awake = its.situation.asleep ? "asleep" : "rest";
    for (std::size_t l = 0; l < lines(); ++l) {
      if (on && sound && line_row(awake, "ohms", l) != nullptr) {
        level(end(e, l), common, awake, l);
      } else if (on && line_row(awake, "ohms", l) != nullptr) {
        // Dead with supply: taken as an input of usual ohms without bias; the limits reach from letting go to biasing.
        resistor(end(e, l), common, line_row(awake, "ohms", l)->nominal);
      } else {
        level(end(e, l), common, "off", l);
      }
      const Interval* pull_up = line_row("commander", "ohms", l);
      if (m != bus().commander || pull_up == nullptr) continue;
      const bool sure = on && sound && !its.situation.asleep;
      if (on && sound) {
        if (sure || limit != &Interval::high) level(end(e, l), common, "commander", l);
      } else if (limit != &Interval::high) {
        resistor(end(e, l), common, pull_up->*limit);
      }
    }
  }

  std::string connector(std::size_t line) {
    for (const auto& each : its.faults) {
      if (each.fault.part == PartKind::connector_bus_pin && concerns(each.fault, line))
        return prefix + "pin" + std::to_string(line);
    }
    return end({End::Kind::diagnostic_connector, nowhere}, line);
  }

  void bridge(const End& e, double ohms) { resistor(end(e, 0), lines() == 2 ? end(e, 1) : "0", ohms); }

  void disturb(const PresentFault& each) {
    const Fault& f = each.fault;
    const End connector_end{End::Kind::diagnostic_connector, nowhere}, module_end{End::Kind::module, f.owner};
    if (f.kind == FaultKind::extra) bridge(connector_end, ohms(each, "terminator.added"));
    if (f.kind == FaultKind::added_device) bridge(connector_end, ohms(each, "added-device"));
    if (f.kind == FaultKind::holds) bridge(module_end, ohms(each, "holds"));
    if (f.kind != FaultKind::back_feeds || apart(module_end)) return;
    for (std::size_t l = 0; l < lines(); ++l) resistor(end(module_end, l), prefix + "rail", ohms(each, "back-feed"));
  }

  std::string node(const Terminal& t) {
    if (t.kind == Terminal::Kind::battery_positive) return prefix + "rail";
    if (t.kind != Terminal::Kind::bus_line) return "0";
    const auto line = static_cast<std::size_t>(t.line);
    if (t.at.kind == End::Kind::diagnostic_connector) return connector(line);
    return t.in_part ? end(t.at, line) : plug(t.segment, bus().segments[t.segment].to == t.at, line);
  }

  std::string make() {
    const std::string rail = prefix + "rail";
    if (its.situation.battery_connected) {
      source(rail, "0", value("battery.volts"), value("battery.ohms"), 0);
    } else {
      resistor(rail, "0", value("battery.off-rail"));
    }
    for (std::size_t s = 0; s < bus().segments.size(); ++s) segment(s);
    for (std::size_t t = 0; t < bus().terminators.size() && lines() == 2; ++t) {
      const End& e = bus().terminators[t].at;
      const bool missing = std::any_of(its.faults.begin(), its.faults.end(), [&](const PresentFault& each) {
        return each.fault.kind == FaultKind::missing && each.fault.item == t;
      });
      if (missing || (e.kind == End::Kind::module && has(FaultKind::not_fitted, e.index))) continue;
      resistor(end(e, 0), end(e, 1), bus().terminators[t].ohms * value("terminator.share"));
    }
    for (std::size_t m = 0; m < its.network.modules.size(); ++m) module(m);
    for (const auto& each : its.faults) disturb(each);
    for (std::size_t l = 0; l < lines() && sender != nowhere; ++l)
      level(end({End::Kind::module, sender}, l), "0", "drive", l);
    const std::string red = node(its.red), black = node(its.black), meter = prefix + "m";
    if (mode == Mode::ohms) {
      out << "i" << prefix << " " << black << " " << red << " 1e-6\n";
    } else {
      resistor(red, black, value("meter.volts-ohms"));
    }
    for (const std::string& node : {red, black}) root(node);
    tie_loose_pieces();
    out << "e" << prefix << " " << meter << " 0 " << red << " " << black << " 1\n";
    return out.str();
  }
};

/// A random tree of splices with modules on stubs and in passing, at the diagnostic connector.
Network random_bus(Dice& dice, Protocol protocol) {
  Building made;
  made.bus("B", protocol, 250000);
  made.connect("B", "6", lines_of(protocol) == 2 ? "14" : "");
  const std::size_t modules = dice.between(2, 9), splices = dice.between(1, 6);
  for (std::size_t i = 0; i < modules; ++i) made.module("M" + std::to_string(i));
  std::vector<std::string> places{"DLC"};
  const auto join = [&](const std::string& id) {
    made.segment("B", "G" + std::to_string(made.the_bus("B").segments.size()), dice.one_of(places), id);
    Segment& segment = made.the_bus("B").segments.back();
    if (!dice.one_in(3)) segment.length_m = 0.1 + 6 * dice.fraction();
    if (!dice.one_in(3)) segment.area_mm2 = dice.one_of(std::vector<double>{0.22, 0.35, 0.5, 0.75});
  };
  for (std::size_t i = 0; i < splices; ++i) {
    made.point("S" + std::to_string(i));
    join("S" + std::to_string(i));
    places.push_back("S" + std::to_string(i));
  }
  for (std::size_t i = 0; i < modules; ++i) {
    made.the_module("M" + std::to_string(i)).optional = dice.one_in(4);
    join("M" + std::to_string(i));
    if (dice.one_in(3)) places.push_back("M" + std::to_string(i));  // the bus passes through it
  }
  if (dice.one_in(4)) made.segment("B", "GX", "S0", "M0");  // a way round
  if (lines_of(protocol) == 2 && protocol != Protocol::j1708) {
    for (std::size_t i = 0, count = dice.between(0, 3); i < count; ++i) {
      made.terminator("B", "M" + std::to_string(dice.below(modules)));
    }
    if (dice.one_in(4)) made.terminator("B", "S0");
  }
  if (protocol == Protocol::lin && !dice.one_in(3)) made.the_bus("B").commander = 0;
  return made.network;
}

Terminal random_terminal(Dice& dice, const SpiceCase& its) {
  const Bus& bus = its.network.buses[0];
  const Line line = lines_of(bus.protocol) == 2 && dice.one_in(2) ? Line::low : Line::high;
  if (dice.one_in(5)) return line_at(0, line, {End::Kind::diagnostic_connector, nowhere});
  if (dice.one_in(12)) return own_line(0, line, dice.below(its.network.modules.size()));
  const std::size_t s = dice.below(bus.segments.size());
  return line_at(0, line, dice.one_in(2) ? bus.segments[s].from : bus.segments[s].to, s);
}

}  // namespace

SpiceCase random_case(Dice& dice, Protocol protocol) {
  SpiceCase its{random_bus(dice, protocol), {}, {}, {}, {}};
  std::vector<Fault> all = faults_of(its.network);
  std::erase_if(all, [](const Fault& f) { return f.comes_and_goes; });
  dice.shuffle(all);
  all.resize(std::min(all.size(), dice.below(4)));
  for (const Fault& fault : all) {
    its.faults.push_back({fault});
    if (fault.part != PartKind::segment || !dice.one_in(2)) continue;
    const double ohms = std::pow(10.0, dice.fraction() * 4 - 1);
    if (fault.kind != FaultKind::open || dice.one_in(3))
      its.faults.back().ohms = Interval{ohms * 0.8, ohms, ohms * 1.3};
  }
  for (std::size_t m = 0; m < its.network.modules.size(); ++m) {
    if (dice.one_in(5)) its.situation.unplugged.push_back(m);
  }
  for (std::size_t p = 0; p < its.network.points.size(); ++p) {
    if (dice.one_in(8)) its.situation.parted.push_back(p);
  }
  its.red = random_terminal(dice, its);
  its.black = dice.one_in(3) ? battery_negative() : dice.one_in(8) ? battery_positive() : random_terminal(dice, its);
  return its;
}

std::vector<std::size_t> able(const SpiceCase& its) {
  std::vector<std::size_t> modules;
  const ElectricalValues& values = default_electrical_values();
  const Deck deck{its, values, &Interval::nominal, Mode::volts, "", nowhere};
  for (std::size_t m = 0; m < its.network.modules.size(); ++m) {
    const bool port = std::any_of(its.faults.begin(), its.faults.end(), [&](const PresentFault& each) {
      return each.fault.kind == FaultKind::port_dead && each.fault.owner == m;
    });
    const bool silent = port || deck.apart({End::Kind::module, m}) || deck.has(FaultKind::dead, m) ||
                        deck.has(FaultKind::unconfigured, m) || deck.has(FaultKind::not_fitted, m) ||
                        deck.lost(PartKind::power_pin, m) || deck.lost(PartKind::ground_pin, m);
    if (!silent) modules.push_back(m);
  }
  return modules;
}

std::string deck_of(const SpiceCase& its, const ElectricalValues& values, double Interval::*limit, Mode mode,
                    const std::string& prefix, std::size_t sender) {
  Deck deck{its, values, limit, mode, prefix, sender};
  return deck.make();
}

namespace {

/// One run; messages of ngspice go elsewhere, for they may come in the middle of a line.
std::vector<double> run_batch(std::span<const std::string> decks, std::span<const std::string> prefixes) {
  std::ostringstream all;
  all << "buses\n.options gmin=1e-15 pivtol=1e-20\n";
  for (const std::string& deck : decks) all << deck;
  all << ".control\nset numdgt=12\nop\n";
  for (const std::string& prefix : prefixes) all << "print v(" << prefix << "m)\n";
  all << ".endc\n.end\n";
  const std::string file = scratch() + "/buses.cir";
  write_text(file, all.str());
  const Run ran = run("ngspice -b '" + file + "'");
  std::vector<double> volts;
  std::istringstream lines(ran.out);
  for (std::string line; std::getline(lines, line);) {
    const std::size_t at = line.find("m) = ");
    if (line.starts_with("v(") && at != std::string::npos) volts.push_back(std::stod(line.substr(at + 5)));
  }
  if (volts.size() != prefixes.size()) MESSAGE(ran.err.substr(0, 2000));
  REQUIRE(volts.size() == prefixes.size());
  return volts;
}

}  // namespace

std::vector<double> run_ngspice(const std::vector<std::string>& decks, const std::vector<std::string>& prefixes) {
  constexpr std::size_t at_once = 60;  // its effort grows faster than the number of nodes
  std::vector<double> volts;
  for (std::size_t from = 0; from < decks.size(); from += at_once) {
    const std::size_t count = std::min(at_once, decks.size() - from);
    const std::vector<double> batch =
        run_batch(std::span(decks).subspan(from, count), std::span(prefixes).subspan(from, count));
    volts.insert(volts.end(), batch.begin(), batch.end());
  }
  return volts;
}

}  // namespace whichwire::test
