#include "random_network.hpp"

#include <algorithm>

#include "building.hpp"
#include "plain_effects.hpp"

namespace whichwire::test {

namespace {

std::string name(const char* prefix, std::size_t number) { return std::string(prefix).append(std::to_string(number)); }

const std::vector<Protocol>& protocols() {
  // The common one more often, so that several of it meet.
  static const std::vector<Protocol> all = {
      Protocol::can_hs,    Protocol::can_hs,    Protocol::can_hs, Protocol::can_ft,     Protocol::can_sw,
      Protocol::j1850_vpw, Protocol::j1850_pwm, Protocol::k_line, Protocol::lin,        Protocol::lin,
      Protocol::j1708,     Protocol::flexray,   Protocol::ring,   Protocol::ethernet_t1};
  return all;
}

struct Maker {
  Dice& dice;
  Building building = {};
  std::vector<std::string> modules = {};

  Network& network() { return building.network; }

  void make_modules(std::size_t most) {
    const std::size_t count = dice.between(2, most);
    for (std::size_t m = 0; m < count; ++m) {
      modules.push_back(name("M", m));
      Module& module = building.the_module(modules.back());
      module.optional = dice.one_in(6);
      module.passes_when_dead = dice.one_in(4);
      for (std::size_t r = 0; dice.one_in(3 + r); ++r) {
        building.reference(modules.back(), name("R", r));
      }
    }
  }

  void make_supply() {
    std::vector<std::string> feeds, grounds;
    const std::size_t feed_count = dice.below(6), ground_count = dice.below(4);
    for (std::size_t f = 0; f < feed_count; ++f) {
      const std::string above = feeds.empty() || dice.one_in(3) ? "" : dice.one_of(feeds);
      feeds.push_back(name("F", f));
      building.feed(feeds.back(), above, dice.one_in(2), static_cast<Feed::Kind>(dice.below(4)));
      if (dice.one_in(8)) network().feeds.back().live[static_cast<std::size_t>(KeyState::start)] = false;
    }
    for (std::size_t g = 0; g < ground_count; ++g) {
      grounds.push_back(name("G", g));
      building.ground(grounds.back());
    }
    for (const std::string& module : modules) add_pins(building.the_module(module).power, feeds, network().feeds);
    for (const std::string& module : modules) add_pins(building.the_module(module).ground, grounds, network().grounds);
    add_pins(network().diagnostic_connector.power, feeds, network().feeds);
    add_pins(network().diagnostic_connector.ground, grounds, network().grounds);
  }

  /// None to three pins, one in four at a feed or ground without a name.
  template <class Pin, class Source>
  void add_pins(std::vector<Pin>& pins, const std::vector<std::string>& ids, const std::vector<Source>& sources) {
    const std::size_t count = dice.below(4);
    for (std::size_t p = 0; p < count; ++p) {
      const bool unnamed = ids.empty() || dice.one_in(4);
      pins.push_back({name(std::is_same_v<Pin, PowerPin> ? "p" : "g", p),
                      unnamed ? nowhere : index_of(sources, dice.one_of(ids)), ""});
    }
  }

  void make_buses(std::size_t most) {
    const std::size_t count = dice.between(1, most);
    for (std::size_t b = 0; b < count; ++b) {
      Protocol protocol = dice.one_of(protocols());
      if (b == 0 && protocol == Protocol::ethernet_t1) protocol = Protocol::can_hs;  // it must have room for all
      const std::vector<int> rates = {0, 125'000, 250'000, 500'000, 1'000'000};
      building.bus(name("B", b), protocol, dice.one_of(rates));
    }
    std::vector<std::vector<std::string>> members(count);
    for (std::size_t b = 0; b < count; ++b) members[b] = members_for(network().buses[b].protocol);
    for (const std::string& module : modules) {  // every module is on a bus
      const auto has = [&](const auto& list) { return std::find(list.begin(), list.end(), module) != list.end(); };
      if (std::none_of(members.begin(), members.end(), has)) members[0].push_back(module);
    }
    for (std::size_t b = 0; b < count; ++b) wire(network().buses[b].id, members[b]);
  }

  std::vector<std::string> members_for(Protocol protocol) {
    std::vector<std::string> all = modules;
    dice.shuffle(all);
    const std::size_t least = protocol == Protocol::ring || protocol == Protocol::ethernet_t1 ? 2 : 1;
    const std::size_t count = protocol == Protocol::ethernet_t1 ? 2 : dice.between(least, all.size());
    all.resize(count);
    return all;
  }

  void wire(const std::string& bus, const std::vector<std::string>& members) {
    Bus& its = building.the_bus(bus);
    if (its.protocol == Protocol::ring) {
      wire_ring(bus, members);
    } else if (its.protocol == Protocol::ethernet_t1) {
      building.segment(bus, bus + "-0", members[0], members[1]);
    } else if (dice.one_in(4)) {
      wire_hidden(bus, members);
    } else {
      wire_tree(bus, members);
    }
    if (its.protocol == Protocol::lin && !dice.one_in(3)) its.commander = building.module(dice.one_of(members));
    add_terminators(its, members);
  }

  void wire_ring(const std::string& bus, const std::vector<std::string>& members) {
    for (std::size_t m = 0; m < members.size(); ++m) {
      building.segment(bus, bus + "-" + std::to_string(m), members[m], members[(m + 1) % members.size()]);
    }
  }

  bool at_connector(const std::string& bus) {
    if (!dice.one_in(2)) return false;
    const bool pair = lines_of(building.the_bus(bus).protocol) == 2;
    building.connect(bus, bus + "H", pair ? bus + "L" : "");
    return true;
  }

  void wire_hidden(const std::string& bus, const std::vector<std::string>& members) {
    const std::string centre = bus + ":centre";
    network().points[building.point(centre)].kind = Point::Kind::hidden;
    building.the_bus(bus).wired = false;
    for (const std::string& member : members) building.segment(bus, bus + ":" + member, centre, member);
    if (at_connector(bus)) building.segment(bus, bus + ":DLC", centre, "DLC");
  }

  /// A random tree over the members, some splices and the connector, and sometimes a wire more.
  void wire_tree(const std::string& bus, const std::vector<std::string>& members) {
    std::vector<std::string> ends = members;
    const std::size_t splices = members.size() < 2 ? 1 : dice.below(3);
    for (std::size_t s = 0; s < splices; ++s) ends.push_back(name((bus + ":S").c_str(), s));
    dice.shuffle(ends);
    if (at_connector(bus)) ends.push_back("DLC");
    std::size_t segment = 0;
    for (std::size_t e = 1; e < ends.size(); ++e) {
      building.segment(bus, bus + "-" + std::to_string(segment++), ends[dice.below(e)], ends[e]);
    }
    while (ends.size() > 2 && dice.one_in(3)) {
      const std::size_t a = dice.below(ends.size()), b = dice.below(ends.size());
      if (a != b) building.segment(bus, bus + "-" + std::to_string(segment++), ends[a], ends[b]);
    }
  }

  void add_terminators(Bus& bus, const std::vector<std::string>& members) {
    const bool usual = bus.protocol == Protocol::can_hs || bus.protocol == Protocol::flexray;
    if (bus.protocol == Protocol::ring || (!usual && !dice.one_in(8))) return;
    const std::size_t count = dice.below(4);
    for (std::size_t t = 0; t < count; ++t) bus.terminators.push_back({building.end(dice.one_of(members)), 120.0});
  }

  void make_gateways() {
    for (const std::string& module : modules) {
      std::vector<std::size_t> buses;
      for (std::size_t b = 0; b < network().buses.size(); ++b) {
        if (on_bus(building.module(module), b)) buses.push_back(b);
      }
      if (buses.size() < 2 || dice.one_in(3)) continue;
      dice.shuffle(buses);
      buses.resize(dice.between(2, buses.size()));
      network().gateways.push_back({building.module(module), buses});
    }
  }

  bool on_bus(std::size_t module, std::size_t bus) const {
    for (const Segment& segment : building.network.buses[bus].segments) {
      for (const End& end : {segment.from, segment.to}) {
        if (end.kind == End::Kind::module && end.index == module) return true;
      }
    }
    return false;
  }

  /// Two modules in three say whom they listen to.
  void make_listeners() {
    for (Module& module : network().modules) {
      if (dice.one_in(3)) continue;
      module.listens_to.emplace();
      for (std::size_t other = 0; other < modules.size(); ++other) {
        if (network().modules[other].id != module.id && dice.one_in(2)) module.listens_to->push_back(other);
      }
    }
  }

  void make_functions() {
    for (std::size_t f = 0; dice.one_in(2) && f < 3; ++f) {
      Function function{name("X", f), "", {}, {}};
      for (std::size_t m = dice.between(1, 2); m > 0; --m) function.modules.push_back(dice.below(modules.size()));
      const std::size_t from = dice.below(modules.size()), to = dice.below(modules.size());
      if (from != to) function.messages.push_back({from, to});
      network().functions.push_back(function);
    }
  }
};

/// Whether two faults have a bus, a module or a feed in common.
bool near(const Fault& a, const Fault& b) {
  if (a.bus != nowhere && b.bus != nowhere) return a.bus == b.bus;
  return a.part == b.part && a.owner == b.owner;
}

}  // namespace

Network random_network(Dice& dice, const Sizes& sizes) {
  Maker maker{dice};
  maker.make_modules(sizes.modules);
  maker.make_supply();
  maker.make_buses(sizes.buses);
  maker.make_gateways();
  maker.make_listeners();
  maker.make_functions();
  return maker.building.network;
}

Circumstances random_circumstances(Dice& dice) {
  Circumstances circumstances;
  if (dice.one_in(3)) circumstances.key = static_cast<KeyState>(dice.below(4));
  circumstances.tool_has_own_battery = dice.one_in(5);
  return circumstances;
}

std::vector<Question> all_questions(const Network& network) {
  std::vector<Question> all;
  for (std::size_t a = 0; a < network.modules.size(); ++a) {
    all.push_back({Question::About::answers, a});
    all.push_back({Question::About::fitted, a});
    for (std::size_t b = 0; b < network.modules.size(); ++b) all.push_back({Question::About::hears, a, b});
    for (std::size_t b = 0; b < network.buses.size(); ++b) all.push_back({Question::About::bus, a, b});
  }
  for (std::size_t f = 0; f < network.functions.size(); ++f) all.push_back({Question::About::function, f});
  return all;
}

std::vector<Question> random_questions(Dice& dice, const Network& network, KeyState key, std::size_t most) {
  std::vector<Question> all = all_questions(network);
  std::erase_if(all, [&](const Question& question) { return !plain_askable(network, question, key); });
  dice.shuffle(all);
  if (all.size() > most) all.resize(most);
  return all;
}

std::vector<Fault> random_faults(Dice& dice, const std::vector<Fault>& all, std::size_t count) {
  std::vector<Fault> chosen = {dice.one_of(all)};
  std::vector<Fault> pool = all;
  if (dice.one_in(2)) std::erase_if(pool, [&](const Fault& fault) { return !near(fault, chosen.front()); });
  dice.shuffle(pool);
  for (const Fault& fault : pool) {
    if (chosen.size() == count) break;
    if (fault != chosen.front()) chosen.push_back(fault);
  }
  return chosen;
}

}  // namespace whichwire::test
