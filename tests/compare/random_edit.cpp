#include "compare/random_edit.hpp"

#include <algorithm>
#include <functional>

namespace whichwire::test {

namespace {

using Kind = Difference::Kind;
using Sort = Difference::Sort;
using Made = std::optional<Edit>;

struct EditKind {
  const char* name;
  std::function<Made(Dice&, Network&)> make;
};

constexpr bool wiring = true;

Edit changed(Kind kind, const std::string& part, const std::string& what, bool changes_wiring = false) {
  return {"", Sort::changed, kind, part, what, changes_wiring, ""};
}
Edit added(Kind kind, const std::string& part, bool changes_wiring = wiring) {
  return {"", Sort::only_in_b, kind, part, "", changes_wiring, ""};
}

template <class T>
T* any_of_these(Dice& dice, std::vector<T>& all) {
  return all.empty() ? nullptr : &all[dice.below(all.size())];
}

template <class T>
std::size_t another(Dice& dice, const std::vector<T>& all, std::size_t but) {
  return all.size() < 2
             ? nowhere
             : (but == nowhere ? dice.below(all.size()) : (but + dice.between(1, all.size() - 1)) % all.size());
}

std::string pin_part(const std::string& owner, const std::string& pin, const char* unnamed) {
  return owner + "/" + (pin.empty() ? unnamed : pin);
}

// Shortcuts: an edit of one module, bus, segment, feed … that there is.

EditKind on_module(const char* name, std::function<Made(Dice&, Network&, Module&)> make) {
  return {name, [make](Dice& dice, Network& network) -> Made {
            Module* module = any_of_these(dice, network.modules);
            return module == nullptr ? std::nullopt : make(dice, network, *module);
          }};
}

EditKind on_bus(const char* name, std::function<Made(Dice&, Network&, Bus&)> make) {
  return {name, [make](Dice& dice, Network& network) -> Made {
            Bus* bus = any_of_these(dice, network.buses);
            return bus == nullptr ? std::nullopt : make(dice, network, *bus);
          }};
}

EditKind on_segment(const char* name, std::function<Made(Dice&, Network&, Bus&, Segment&)> make) {
  return on_bus(name, [make](Dice& dice, Network& network, Bus& bus) -> Made {
    if (!bus.wired) return std::nullopt;  // its segments are made up
    return make(dice, network, bus, *any_of_these(dice, bus.segments));
  });
}

EditKind on_feed(const char* name, std::function<Made(Dice&, Network&, Feed&)> make) {
  return {name, [make](Dice& dice, Network& network) -> Made {
            Feed* feed = any_of_these(dice, network.feeds);
            return feed == nullptr ? std::nullopt : make(dice, network, *feed);
          }};
}

EditKind on_point(const char* name, std::function<Made(Point&)> make) {
  return {name, [make](Dice& dice, Network& network) -> Made {
            Point* point = any_of_these(dice, network.points);
            if (point == nullptr || point->kind == Point::Kind::hidden) return std::nullopt;
            return make(*point);
          }};
}

EditKind on_function(const char* name, std::function<Made(Dice&, Network&, Function&)> make) {
  return {name, [make](Dice& dice, Network& network) -> Made {
            Function* function = any_of_these(dice, network.functions);
            return function == nullptr ? std::nullopt : make(dice, network, *function);
          }};
}

template <class T>
Made rename(T& part, Kind kind) {
  const std::string before = part.id;
  part.id += "-new";
  return Edit{"", Sort::renamed, kind, before, "", false, part.id};
}

Made move(Place& place, Kind kind, const std::string& part) {
  place.where += ", moved";
  return changed(kind, part, "place");
}

std::vector<EditKind> of_modules() {
  return {
      on_module("module: name",
                [](Dice&, Network&, Module& m) -> Made {
                  m.name += " two";
                  return changed(Kind::module, m.id, "name");
                }),
      on_module("module: role",
                [](Dice&, Network&, Module& m) -> Made {
                  m.roles.push_back("towing");
                  return changed(Kind::module, m.id, "roles");
                }),
      on_module("module: other name",
                [](Dice&, Network&, Module& m) -> Made {
                  m.aliases.push_back("the box");
                  return changed(Kind::module, m.id, "other names");
                }),
      on_module("module: address",
                [](Dice&, Network&, Module& m) -> Made {
                  m.address = m.address.value_or(100) + 1;
                  return changed(Kind::module, m.id, "address");
                }),
      on_module("module: optional",
                [](Dice&, Network&, Module& m) -> Made {
                  m.optional = !m.optional;
                  return changed(Kind::module, m.id, "fitted", wiring);
                }),
      on_module("module: locked",
                [](Dice&, Network&, Module& m) -> Made {
                  m.locked = !m.locked;
                  return changed(Kind::module, m.id, "behind a locked gateway");
                }),
      on_module("module: passes when dead",
                [](Dice&, Network&, Module& m) -> Made {
                  m.passes_when_dead = !m.passes_when_dead;
                  return changed(Kind::module, m.id, "passes the ring on without supply", wiring);
                }),
      on_module("module: place", [](Dice&, Network&, Module& m) -> Made { return move(m.place, Kind::module, m.id); }),
      on_module("module: minutes",
                [](Dice&, Network&, Module& m) -> Made {
                  m.place.minutes = m.place.minutes.value_or(0) + 1;
                  return changed(Kind::module, m.id, "time to reach it");
                }),
      on_module("module: hazard",
                [](Dice&, Network&, Module& m) -> Made {
                  m.place.hazards.push_back("hot-too");
                  return changed(Kind::module, m.id, "hazards");
                }),
      on_module("module: renamed", [](Dice&, Network&, Module& m) -> Made { return rename(m, Kind::module); }),
      {"module: added",
       [](Dice&, Network& network) -> Made {
         Module module;
         module.id = "NEW";
         network.modules.push_back(module);
         return added(Kind::module, "NEW");
       }},
      on_module("module: listener added",
                [](Dice& dice, Network& network, Module& m) -> Made {
                  const std::size_t to = dice.below(network.modules.size());
                  if (!m.listens_to || std::count(m.listens_to->begin(), m.listens_to->end(), to) != 0)
                    return std::nullopt;
                  m.listens_to->push_back(to);
                  return changed(Kind::module, m.id, "listens to", wiring);
                }),
      on_module("module: listener removed",
                [](Dice&, Network&, Module& m) -> Made {
                  if (!m.listens_to || m.listens_to->empty()) return std::nullopt;
                  m.listens_to->pop_back();
                  return changed(Kind::module, m.id, "listens to", wiring);
                }),
      on_module("module: listeners not known",
                [](Dice&, Network&, Module& m) -> Made {
                  if (!m.listens_to) return std::nullopt;
                  m.listens_to.reset();
                  return changed(Kind::module, m.id, "listens to", wiring);
                }),
      on_module("module: code",
                [](Dice& dice, Network& network, Module& m) -> Made {
                  m.own_codes.push_back({"U3999", OwnCode::Says::lost, dice.below(network.modules.size())});
                  return changed(Kind::module, m.id, "codes");
                }),
      on_module("module: code of another subject",
                [](Dice& dice, Network& network, Module& m) -> Made {
                  OwnCode* code = any_of_these(dice, m.own_codes);
                  if (code == nullptr || code->says == OwnCode::Says::bus_fault) return std::nullopt;
                  code->subject = another(dice, network.modules, code->subject);
                  return changed(Kind::module, m.id, "codes");
                }),
  };
}

std::vector<EditKind> of_pins() {
  return {
      on_module("power pin: name",
                [](Dice& dice, Network&, Module& m) -> Made {
                  PowerPin* pin = any_of_these(dice, m.power);
                  if (pin == nullptr) return std::nullopt;
                  Edit edit = changed(Kind::module, pin_part(m.id, pin->pin, "feed"), "pin");
                  pin->pin = "Z-99";
                  edit.after = m.id + "/Z-99";
                  return edit;
                }),
      on_module("power pin: wire",
                [](Dice& dice, Network&, Module& m) -> Made {
                  PowerPin* pin = any_of_these(dice, m.power);
                  if (pin == nullptr) return std::nullopt;
                  pin->wire += "/XX";
                  return changed(Kind::module, pin_part(m.id, pin->pin, "feed"), "wire");
                }),
      on_module("power pin: feed",
                [](Dice& dice, Network& network, Module& m) -> Made {
                  PowerPin* pin = any_of_these(dice, m.power);
                  if (pin == nullptr || network.feeds.size() < 2) return std::nullopt;
                  pin->feed = another(dice, network.feeds, pin->feed);
                  return changed(Kind::module, pin_part(m.id, pin->pin, "feed"), "feed", wiring);
                }),
      on_module("power pin: added",
                [](Dice&, Network&, Module& m) -> Made {
                  m.power.push_back({"Z-98", nowhere, "XX"});
                  return added(Kind::module, m.id + "/Z-98");
                }),
      on_module("ground pin: ground",
                [](Dice& dice, Network& network, Module& m) -> Made {
                  GroundPin* pin = any_of_these(dice, m.ground);
                  if (pin == nullptr || network.grounds.size() < 2) return std::nullopt;
                  pin->ground = another(dice, network.grounds, pin->ground);
                  return changed(Kind::module, pin_part(m.id, pin->pin, "ground"), "ground", wiring);
                }),
      on_module("ground pin: added",
                [](Dice&, Network&, Module& m) -> Made {
                  m.ground.push_back({"Z-97", nowhere, "XX"});
                  return added(Kind::module, m.id + "/Z-97");
                }),
      on_module("reference: volts",
                [](Dice& dice, Network&, Module& m) -> Made {
                  Reference* reference = any_of_these(dice, m.references);
                  if (reference == nullptr) return std::nullopt;
                  reference->volts += 1;
                  return changed(Kind::module, m.id + "/" + reference->id, "volts");
                }),
      on_module("reference: load",
                [](Dice& dice, Network&, Module& m) -> Made {
                  Reference* reference = any_of_these(dice, m.references);
                  if (reference == nullptr) return std::nullopt;
                  reference->loads.push_back("another sensor");
                  return changed(Kind::module, m.id + "/" + reference->id, "loads");
                }),
      on_module("reference: renamed",
                [](Dice& dice, Network&, Module& m) -> Made {
                  Reference* reference = any_of_these(dice, m.references);
                  if (reference == nullptr || reference->pin.empty()) return std::nullopt;
                  const std::string before = m.id + "/" + reference->id;
                  reference->id += "-new";
                  return Edit{"", Sort::renamed, Kind::module, before, "", false, before + "-new"};
                }),
      on_module("reference: added",
                [](Dice&, Network&, Module& m) -> Made {
                  m.references.push_back({"5V-new", "Z-96", "", 5.0, {}});
                  return added(Kind::module, m.id + "/5V-new");
                }),
  };
}

std::vector<EditKind> of_buses() {
  return {
      on_bus("bus: name",
             [](Dice&, Network&, Bus& bus) -> Made {
               bus.name += " two";
               return changed(Kind::bus, bus.id, "name");
             }),
      on_bus("bus: bit rate",
             [](Dice&, Network&, Bus& bus) -> Made {
               bus.bit_rate += 1000;
               return changed(Kind::bus, bus.id, "bit rate", wiring);
             }),
      on_bus("bus: protocol",
             [](Dice&, Network&, Bus& bus) -> Made {
               bus.protocol = bus.protocol == Protocol::can_sw ? Protocol::k_line : Protocol::can_sw;
               return changed(Kind::bus, bus.id, "protocol", wiring);
             }),
      on_bus("bus: colour",
             [](Dice&, Network&, Bus& bus) -> Made {
               bus.high_colour += "/XX";
               return changed(Kind::bus, bus.id, "colour of the high line");
             }),
      on_bus("bus: called",
             [](Dice&, Network&, Bus& bus) -> Made {
               bus.called.push_back("bus-z");
               return changed(Kind::bus, bus.id, "called in codes");
             }),
      on_bus("bus: commander",
             [](Dice& dice, Network& network, Bus& bus) -> Made {
               bus.commander = another(dice, network.modules, bus.commander);
               return changed(Kind::bus, bus.id, "commander", wiring);
             }),
      on_bus("bus: renamed", [](Dice&, Network&, Bus& bus) -> Made { return rename(bus, Kind::bus); }),
      {"bus: added",
       [](Dice&, Network& network) -> Made {
         network.buses.emplace_back().id = "NEWBUS";
         return added(Kind::bus, "NEWBUS");
       }},
      on_bus("terminator: ohms",
             [](Dice& dice, Network& network, Bus& bus) -> Made {
               Terminator* terminator = any_of_these(dice, bus.terminators);
               if (terminator == nullptr) return std::nullopt;
               terminator->ohms += 60;
               return changed(Kind::terminator, bus.id + "@" + id_of(network, terminator->at), "ohms");
             }),
      on_bus("terminator: added",
             [](Dice& dice, Network& network, Bus& bus) -> Made {
               const End at{End::Kind::module, dice.below(network.modules.size())};
               bus.terminators.push_back({at, 120});
               return added(Kind::terminator, bus.id + "@" + id_of(network, at));
             }),
      {"gateway: joins",
       [](Dice& dice, Network& network) -> Made {
         Gateway* gateway = any_of_these(dice, network.gateways);
         const std::size_t bus = dice.below(network.buses.size());
         if (gateway == nullptr || std::count(gateway->joins.begin(), gateway->joins.end(), bus) != 0)
           return std::nullopt;
         gateway->joins.push_back(bus);
         return changed(Kind::gateway, network.modules[gateway->module].id, "joins", wiring);
       }},
  };
}

std::vector<EditKind> of_wiring() {
  return {
      on_segment("segment: length",
                 [](Dice&, Network&, Bus&, Segment& segment) -> Made {
                   segment.length_m = segment.length_m.value_or(0) + 0.5;
                   return changed(Kind::segment, segment.id, "length");
                 }),
      on_segment("segment: cross-section",
                 [](Dice&, Network&, Bus&, Segment& segment) -> Made {
                   segment.area_mm2 = segment.area_mm2.value_or(0) + 0.5;
                   return changed(Kind::segment, segment.id, "cross-section");
                 }),
      on_segment("segment: pins",
                 [](Dice&, Network& network, Bus&, Segment& segment) -> Made {
                   segment.to_pins.high = "Z-1";
                   return changed(Kind::segment, segment.id, "pins at " + id_of(network, segment.to));
                 }),
      on_segment("segment: end",
                 [](Dice& dice, Network& network, Bus&, Segment& segment) -> Made {
                   const End end{End::Kind::module, dice.below(network.modules.size())};
                   if (segment.to == end || segment.from == end) return std::nullopt;
                   segment.to = end;
                   return changed(Kind::segment, segment.id, "end", wiring);
                 }),
      on_segment("segment: turned round",
                 [](Dice&, Network&, Bus&, Segment& segment) -> Made {
                   std::swap(segment.from, segment.to);
                   std::swap(segment.from_pins, segment.to_pins);
                   segment.length_m = segment.length_m.value_or(0) + 0.25;  // else there is nothing to be found
                   return changed(Kind::segment, segment.id, "length");
                 }),
      on_segment("segment: renamed",
                 [](Dice&, Network&, Bus&, Segment& segment) -> Made { return rename(segment, Kind::segment); }),
      on_segment("segment: added",
                 [](Dice&, Network&, Bus& bus, Segment& segment) -> Made {
                   Segment more = segment;
                   more.id = "NEWSEG";
                   bus.segments.push_back(more);
                   return added(Kind::segment, "NEWSEG");
                 }),
      on_point("point: kind",
               [](Point& point) -> Made {
                 point.kind = point.kind == Point::Kind::splice ? Point::Kind::star : Point::Kind::splice;
                 return changed(Kind::point, point.id, "kind");
               }),
      on_point("point: place", [](Point& point) -> Made { return move(point.place, Kind::point, point.id); }),
      on_point("point: renamed", [](Point& point) -> Made { return rename(point, Kind::point); }),
      {"point: added",
       [](Dice&, Network& network) -> Made {
         network.points.emplace_back().id = "NEWPOINT";
         return added(Kind::point, "NEWPOINT", false);
       }},
  };
}

/// Whether anything tells the part from others but its id.
bool known_otherwise(const Network& network, const Feed& feed) {
  const auto index = static_cast<std::size_t>(&feed - network.feeds.data());
  const auto fed = [&](const PowerPin& pin) { return pin.feed == index; };
  return !feed.place.where.empty() ||
         std::any_of(network.modules.begin(), network.modules.end(),
                     [&](const Module& module) { return std::any_of(module.power.begin(), module.power.end(), fed); });
}

std::vector<EditKind> of_supply() {
  return {
      on_feed("feed: kind",
              [](Dice&, Network&, Feed& feed) -> Made {
                feed.kind = feed.kind == Feed::Kind::fuse ? Feed::Kind::relay : Feed::Kind::fuse;
                return changed(Kind::feed, feed.id, "kind");
              }),
      on_feed("feed: size",
              [](Dice&, Network&, Feed& feed) -> Made {
                feed.amps = feed.amps.value_or(0) + 5;
                return changed(Kind::feed, feed.id, "size");
              }),
      on_feed("feed: from",
              [](Dice&, Network&, Feed& feed) -> Made {
                if (feed.from == nowhere) return std::nullopt;
                feed.from = nowhere;
                return changed(Kind::feed, feed.id, "fed from", wiring);
              }),
      on_feed("feed: live",
              [](Dice&, Network&, Feed& feed) -> Made {
                feed.live[1] = !feed.live[1];
                return changed(Kind::feed, feed.id, "live with the key at", wiring);
              }),
      on_feed("feed: place", [](Dice&, Network&, Feed& feed) -> Made { return move(feed.place, Kind::feed, feed.id); }),
      on_feed("feed: renamed",
              [](Dice&, Network& network, Feed& feed) -> Made {
                return known_otherwise(network, feed) ? rename(feed, Kind::feed) : std::nullopt;
              }),
      {"feed: added",
       [](Dice&, Network& network) -> Made {
         network.feeds.emplace_back().id = "NEWFEED";
         return added(Kind::feed, "NEWFEED");
       }},
      {"ground: place",
       [](Dice& dice, Network& network) -> Made {
         Ground* ground = any_of_these(dice, network.grounds);
         return ground == nullptr ? std::nullopt : move(ground->place, Kind::ground, ground->id);
       }},
      {"ground: renamed",
       [](Dice& dice, Network& network) -> Made {
         Ground* ground = any_of_these(dice, network.grounds);
         return ground == nullptr ? std::nullopt : rename(*ground, Kind::ground);
       }},
      {"ground: added",
       [](Dice&, Network& network) -> Made {
         network.grounds.emplace_back().id = "NEWGROUND";
         return added(Kind::ground, "NEWGROUND");
       }},
      {"connector: pins",
       [](Dice& dice, Network& network) -> Made {
         auto* bus = any_of_these(dice, network.diagnostic_connector.buses);
         if (bus == nullptr) return std::nullopt;
         bus->pins.high = "99";
         return changed(Kind::connector, "DLC", "buses");
       }},
      {"connector: place",
       [](Dice&, Network& network) -> Made {
         return move(network.diagnostic_connector.place, Kind::connector, "DLC");
       }},
      {"connector: power pin added",
       [](Dice&, Network& network) -> Made {
         network.diagnostic_connector.power.push_back({"98", nowhere, ""});
         return added(Kind::connector, "DLC/98");
       }},
  };
}

std::vector<EditKind> of_the_rest() {
  return {
      {"vehicle: year",
       [](Dice&, Network& network) -> Made {
         ++network.vehicle.model_year;
         return changed(Kind::vehicle, "vehicle", "model year");
       }},
      {"vehicle: variant",
       [](Dice&, Network& network) -> Made {
         network.vehicle.variant += " sport";
         return changed(Kind::vehicle, "vehicle", "variant");
       }},
      on_function("function: name",
                  [](Dice&, Network&, Function& function) -> Made {
                    function.name += " two";
                    return changed(Kind::function, function.id, "name");
                  }),
      on_function("function: module",
                  [](Dice& dice, Network& network, Function& function) -> Made {
                    const std::size_t module = dice.below(network.modules.size());
                    if (std::count(function.modules.begin(), function.modules.end(), module) != 0) return std::nullopt;
                    function.modules.push_back(module);
                    return changed(Kind::function, function.id, "modules", wiring);
                  }),
      on_function("function: message",
                  [](Dice& dice, Network& network, Function& function) -> Made {
                    if (!function.messages.empty()) {
                      function.messages.pop_back();
                    } else {
                      function.messages.push_back({dice.below(network.modules.size()), 0});
                    }
                    return changed(Kind::function, function.id, "messages", wiring);
                  }),
      on_function("function: renamed",
                  [](Dice&, Network&, Function& function) -> Made { return rename(function, Kind::function); }),
      {"function: added",
       [](Dice&, Network& network) -> Made {
         network.functions.emplace_back().id = "new-function";
         return added(Kind::function, "new-function");
       }},
  };
}

const std::vector<EditKind>& all_edits() {
  static const std::vector<EditKind> all = [] {
    std::vector<EditKind> edits;
    for (const auto& group : {of_modules(), of_pins(), of_buses(), of_wiring(), of_supply(), of_the_rest()})
      edits.insert(edits.end(), group.begin(), group.end());
    return edits;
  }();
  return all;
}

}  // namespace

std::optional<Edit> random_edit(Dice& dice, Network& network) {
  const EditKind& kind = dice.one_of(all_edits());
  Made edit = kind.make(dice, network);
  if (edit) edit->name = kind.name;
  return edit;
}

std::size_t count_of_edits() { return all_edits().size(); }

}  // namespace whichwire::test
