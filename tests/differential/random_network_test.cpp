// The generator of random networks makes what it promises.
#include "random_network.hpp"

#include <doctest/doctest.h>

#include <algorithm>
#include <set>

using namespace whichwire;
using test::Dice;

namespace {

std::set<std::size_t> members_of(const Bus& bus) {
  std::set<std::size_t> modules;
  for (const Segment& segment : bus.segments) {
    for (const End& end : {segment.from, segment.to}) {
      if (end.kind == End::Kind::module) modules.insert(end.index);
    }
  }
  return modules;
}

/// Points of the bus less its segments: 1 for a tree, 0 or less where there is a way round.
int points_less_segments(const Network& network, const Bus& bus) {
  std::set<std::string> points;
  for (const Segment& segment : bus.segments) {
    points.insert(id_of(network, segment.from));
    points.insert(id_of(network, segment.to));
  }
  return static_cast<int>(points.size()) - static_cast<int>(bus.segments.size());
}

}  // namespace

TEST_CASE("random networks have every module on a bus and every gateway on the buses that it joins") {
  for (std::uint64_t seed = 0; seed < 300; ++seed) {
    CAPTURE(seed);
    Dice dice(seed);
    const Network network = test::random_network(dice);
    std::set<std::size_t> on_some;
    for (const Bus& bus : network.buses) on_some.merge(members_of(bus));
    CHECK(on_some.size() == network.modules.size());
    CHECK(network.modules.size() >= 2);
    CHECK(network.modules.size() <= 8);
    for (const Gateway& gateway : network.gateways) {
      CHECK(gateway.joins.size() >= 2);
      for (const std::size_t bus : gateway.joins) CHECK(members_of(network.buses[bus]).contains(gateway.module));
    }
  }
}

TEST_CASE("random networks have everything in them that the rules speak of") {
  std::set<Protocol> protocols;
  int circles = 0, side_by_side = 0, hidden = 0, commanded = 0, at_connector = 0, shared_feed = 0, optional = 0;
  for (std::uint64_t seed = 0; seed < 300; ++seed) {
    Dice dice(seed);
    const Network network = test::random_network(dice);
    for (const Bus& bus : network.buses) {
      protocols.insert(bus.protocol);
      if (bus.protocol != Protocol::ring && points_less_segments(network, bus) < 1) ++circles;
      hidden += bus.wired ? 0 : 1;
      commanded += bus.commander == nowhere ? 0 : 1;
    }
    std::set<std::set<std::size_t>> joined;
    for (const Gateway& gateway : network.gateways) {
      if (!joined.insert({gateway.joins.begin(), gateway.joins.end()}).second) ++side_by_side;
    }
    at_connector += network.diagnostic_connector.buses.empty() ? 0 : 1;
    for (const Feed& feed : network.feeds) shared_feed += feed.from == nowhere ? 0 : 1;
    optional += std::any_of(network.modules.begin(), network.modules.end(), [](const Module& m) { return m.optional; });
  }
  CHECK(protocols.size() == 11);
  for (const int count : {circles, side_by_side, hidden, commanded, at_connector, shared_feed, optional}) {
    CHECK(count >= 20);
  }
}

TEST_CASE("the same seed gives the same network and the same faults") {
  Dice one(7), other(7);
  const Network network = test::random_network(one), again = test::random_network(other);
  CHECK(faults_of(network) == faults_of(again));
  CHECK(test::random_faults(one, faults_of(network), 3) == test::random_faults(other, faults_of(again), 3));
}
