// Page: "Routes", "Questions", and part 2, "Faults that come and go".
#include "plain_effects.hpp"

#include <algorithm>

#include "plain_bus.hpp"

namespace whichwire::test {

namespace {

Level worse(Level a, Level b) { return std::max(a, b); }
Level better(Level a, Level b) { return std::min(a, b); }

/// A place where a route begins or ends: a module, or the tester.
struct Stop {
  std::size_t module = nowhere;  ///< nowhere: the tester
};

/// All routes from one stop to another, tried one by one.
struct RouteSearch {
  const PlainWorld& world;
  Stop to;
  bool k_line_carries;
  std::vector<std::size_t> buses, gateways = {};  ///< used so far
  bool found = false;
  Level best = Level::down;

  static std::size_t point(const PlainBus& bus, const Stop& stop) {
    return stop.module == nowhere ? bus.tester() : bus.point_of(stop.module);
  }

  /// The hop on `bus`; the ports of both ends count.
  Level hop(std::size_t bus, const Stop& from, const Stop& end) const {
    for (const Stop& stop : {from, end}) {
      if (stop.module != nowhere && world.port_dead(stop.module, bus)) return Level::down;
    }
    const PlainBus wiring(world, bus);
    return wiring.hop(point(wiring, from), point(wiring, end));
  }

  bool on(std::size_t bus, const Stop& stop) const { return point(PlainBus(world, bus), stop) != nowhere; }

  bool may_use(std::size_t bus) const {
    if (world.network.buses[bus].protocol == Protocol::k_line && !k_line_carries) return false;
    return std::find(buses.begin(), buses.end(), bus) == buses.end();
  }

  /// Goes on along `bus` from `from`; `so_far` is the level of the way there.
  void follow(std::size_t bus, const Stop& from, Level so_far) {
    if (!may_use(bus)) return;
    buses.push_back(bus);
    if (on(bus, to)) {
      found = true;
      best = better(best, worse(so_far, hop(bus, from, to)));
    }
    for (std::size_t g = 0; g < world.network.gateways.size(); ++g) {
      const Gateway& gateway = world.network.gateways[g];
      const bool joins = std::find(gateway.joins.begin(), gateway.joins.end(), bus) != gateway.joins.end();
      const bool used = std::find(gateways.begin(), gateways.end(), g) != gateways.end();
      if (!joins || used) continue;
      Level level = worse(so_far, worse(hop(bus, from, {gateway.module}), world.work_of(gateway.module)));
      if (world.has(FaultKind::not_forwarding, PartKind::module, gateway.module)) level = Level::down;
      gateways.push_back(g);
      for (const std::size_t next : gateway.joins) follow(next, {gateway.module}, level);
      gateways.pop_back();
    }
    buses.pop_back();
  }

  void start(const Stop& from) {
    for (std::size_t bus = 0; bus < world.network.buses.size(); ++bus) {
      if (on(bus, from)) follow(bus, from, Level::up);
    }
  }
};

RouteSearch routes(const PlainWorld& world, const Stop& from, const Stop& to, bool k_line_carries) {
  RouteSearch search{world, to, k_line_carries, {}};
  search.start(from);
  return search;
}

Level hears(const PlainWorld& world, std::size_t a, std::size_t b) {
  const Level lives = worse(world.life_of(a), world.life_of(b));
  return worse(lives, routes(world, {b}, {a}, false).best);
}

Level function_works(const PlainWorld& world, const Function& function) {
  Level level = Level::up;
  for (const std::size_t module : function.modules) level = worse(level, world.work_of(module));
  for (const auto& message : function.messages) level = worse(level, hears(world, message.to, message.from));
  return level;
}

Level answer(const PlainWorld& world, const Question& question) {
  switch (question.about) {
    case Question::About::answers:
      return worse(worse(world.supply_of_tester(), world.work_of(question.a)),
                   routes(world, {}, {question.a}, true).best);
    case Question::About::hears:
      return hears(world, question.a, question.b);
    case Question::About::bus:
      return PlainBus(world, question.b).seen_by(question.a);
    case Question::About::function:
      return function_works(world, world.network.functions[question.a]);
    case Question::About::fitted:
      return world.has(FaultKind::not_fitted, PartKind::module, question.a) ? Level::down : Level::up;
  }
  return Level::down;
}

/// What the fault left behind on its own occasion, where it was the only one.
Level left_behind(const Network& network, Fault fault, const Question& question, const Circumstances& circumstances) {
  if (question.about != Question::About::hears && question.about != Question::About::bus) return Level::up;
  fault.comes_and_goes = false;
  const PlainWorld world{network, {&fault, 1}, circumstances};
  if (world.life_of(question.a) == Level::down) return Level::up;
  const Level level = answer(world, question);
  if (level == Level::unsure) return Level::was_unsure;
  return level == Level::down ? Level::was_down : Level::up;
}

}  // namespace

std::vector<Level> plain_predict(const Network& network, std::span<const Fault> faults,
                                 std::span<const Question> questions, const Circumstances& circumstances) {
  std::vector<Fault> present;
  for (const Fault& fault : faults) {
    if (!fault.comes_and_goes) present.push_back(fault);
  }
  std::vector<Level> levels;
  for (const Question& question : questions) {
    Level level = answer(PlainWorld{network, present, circumstances}, question);
    for (const Fault& fault : faults) {
      if (fault.comes_and_goes) level = worse(level, left_behind(network, fault, question, circumstances));
    }
    levels.push_back(level);
  }
  return levels;
}

bool plain_askable(const Network& network, const Question& question, KeyState key) {
  const PlainWorld whole{network, {}, {key, false}};
  const auto awake = [&](std::size_t module) { return !plain_asleep(network, module, key); };
  switch (question.about) {
    case Question::About::answers:
      return awake(question.a) && routes(whole, {}, {question.a}, true).found;
    case Question::About::hears:
      return question.a != question.b && awake(question.a) && awake(question.b) &&
             routes(whole, {question.b}, {question.a}, false).found;
    case Question::About::bus:
      return awake(question.a) && PlainBus(whole, question.b).point_of(question.a) != nowhere;
    case Question::About::function: {
      const Function& function = network.functions[question.a];
      const auto messages_pass = [&](const Function::Message& message) {
        return plain_askable(network, {Question::About::hears, message.to, message.from}, key);
      };
      return std::all_of(function.modules.begin(), function.modules.end(), awake) &&
             std::all_of(function.messages.begin(), function.messages.end(), messages_pass);
    }
    case Question::About::fitted:
      return true;
  }
  return false;
}

}  // namespace whichwire::test
