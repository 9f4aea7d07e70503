// Builds a network in a test, part by part and by id. Everything built with it is invented.
#pragma once

#include <stdexcept>
#include <string>
#include <whichwire/network.hpp>

namespace whichwire::test {

struct Building {
  Network network;

  /// Adds the module, or finds it.
  std::size_t module(const std::string& id) { return find_or_add(network.modules, id); }
  std::size_t point(const std::string& id) { return find_or_add(network.points, id); }

  Module& the_module(const std::string& id) { return network.modules[module(id)]; }

  std::size_t bus(const std::string& id, Protocol protocol, int bit_rate = 0) {
    const std::size_t index = find_or_add(network.buses, id);
    network.buses[index].protocol = protocol;
    network.buses[index].bit_rate = bit_rate;
    return index;
  }

  Bus& the_bus(const std::string& id) { return network.buses[known(network.buses, id)]; }

  /// `DLC`, a module that is there already, else a point.
  End end(const std::string& id) {
    if (id == "DLC") return {End::Kind::diagnostic_connector, nowhere};
    const std::size_t m = index_of(network.modules, id);
    if (m != nowhere) return {End::Kind::module, m};
    return {End::Kind::point, point(id)};
  }

  void segment(const std::string& bus_id, const std::string& id, const std::string& from, const std::string& to) {
    Segment segment;
    segment.id = id;
    segment.from = end(from);
    segment.to = end(to);
    the_bus(bus_id).segments.push_back(segment);
  }

  void terminator(const std::string& bus_id, const std::string& at) {
    the_bus(bus_id).terminators.push_back({end(at), 120.0});
  }

  void gateway(const std::string& module_id, std::initializer_list<std::string> buses) {
    Gateway gateway{module(module_id), {}};
    for (const std::string& id : buses) gateway.joins.push_back(known(network.buses, id));
    network.gateways.push_back(gateway);
  }

  /// Live in run and start; `always`: in every key state.
  std::size_t feed(const std::string& id, const std::string& from = "", bool always = false,
                   Feed::Kind kind = Feed::Kind::fuse) {
    const std::size_t above = from.empty() ? nowhere : known(network.feeds, from);
    const std::size_t index = find_or_add(network.feeds, id);
    Feed& feed = network.feeds[index];
    feed.kind = kind;
    feed.from = above;
    feed.live = {always, always, true, true};
    return index;
  }

  std::size_t ground(const std::string& id) { return find_or_add(network.grounds, id); }

  void power_pin(const std::string& module_id, const std::string& pin, const std::string& feed_id) {
    the_module(module_id).power.push_back({pin, feed_id.empty() ? nowhere : known(network.feeds, feed_id), ""});
  }

  void ground_pin(const std::string& module_id, const std::string& pin, const std::string& ground_id) {
    the_module(module_id).ground.push_back({pin, ground_id.empty() ? nowhere : known(network.grounds, ground_id), ""});
  }

  void reference(const std::string& module_id, const std::string& id) {
    Reference reference;
    reference.id = id;
    the_module(module_id).references.push_back(reference);
  }

  void connect(const std::string& bus_id, const std::string& high, const std::string& low) {
    network.diagnostic_connector.buses.push_back({known(network.buses, bus_id), {high, low}});
  }

 private:
  template <class T>
  static std::size_t known(const std::vector<T>& all, const std::string& id) {
    const std::size_t index = index_of(all, id);
    if (index == nowhere) throw std::logic_error("the test names a part that it did not build: " + id);
    return index;
  }

  template <class T>
  static std::size_t find_or_add(std::vector<T>& all, const std::string& id) {
    const std::size_t index = index_of(all, id);
    if (index != nowhere) return index;
    all.emplace_back().id = id;
    return all.size() - 1;
  }
};

}  // namespace whichwire::test
