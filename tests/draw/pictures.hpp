// Networks to draw, and marks upon everything that they have.
#pragma once

#include <string>
#include <utility>
#include <vector>
#include <whichwire/picture.hpp>

#include "bench/vehicle.hpp"
#include "shipped.hpp"

namespace whichwire::test {

/// Every network of topologies/, and generated ones up to 60 modules.
inline std::vector<std::pair<std::string, Network>> networks_to_draw() {
  std::vector<std::pair<std::string, Network>> all;
  for (const std::string& name : shipped_names()) all.emplace_back(name, shipped(name));
  for (const auto& [modules, buses] :
       std::initializer_list<std::pair<std::size_t, std::size_t>>{{8, 2}, {30, 4}, {30, 8}, {60, 8}, {60, 20}})
    all.emplace_back(std::to_string(modules) + " modules on " + std::to_string(buses),
                     *read_network(bench::vehicle_text(modules, buses), "generated").network);
  return all;
}

/// Something suspected of every part, checks at every third: more than any findings would say at once.
inline Marks crowded_marks(const Network& network) {
  Marks marks;
  marks.headline = "Almost certainly a good deal more than one fault at once, as no vehicle ever had (99 %)";
  std::size_t turn = 0;
  const auto mark = [&](const Part& part, const std::string& what) {
    constexpr double shares[] = {0.62, 0.2, 0.04};
    marks.suspicions.push_back({part, what, shares[turn % 3]});
    if (turn % 3 == 1) marks.suspicions.push_back({part, "short high", 0.03});
    if (turn % 3 == 0) marks.probes.push_back({part, marks.probes.size() + 1, "volts-loaded"});
    ++turn;
  };
  for (std::size_t i = 0; i < network.modules.size(); ++i) {
    marks.answers.push_back(i % 4 == 3 ? std::nullopt : std::optional(static_cast<Answer>(i % 4)));
    mark({Part::Kind::module, i}, "A-27 open");
  }
  mark({Part::Kind::connector}, "16 open");
  for (std::size_t i = 0; i < network.points.size(); ++i) mark({Part::Kind::point, i}, "no resistor");
  for (std::size_t i = 0; i < network.feeds.size(); ++i) mark({Part::Kind::feed, i}, "open");
  for (std::size_t i = 0; i < network.grounds.size(); ++i) mark({Part::Kind::ground, i}, "open");
  for (std::size_t b = 0; b < network.buses.size(); ++b) {
    mark({Part::Kind::bus, b}, "added device");
    for (std::size_t i = 0; i < network.buses[b].segments.size(); ++i) mark({Part::Kind::segment, i, b}, "open high");
  }
  return marks;
}

/// A scan to which only the last module does not answer.
inline Marks one_silent(const Network& network) {
  Marks marks;
  marks.answers.assign(network.modules.size(), Answer::yes);
  marks.answers.back() = Answer::no;
  marks.suspicions = {{{Part::Kind::module, network.modules.size() - 1}, "itself", 0.6}};
  return marks;
}

}  // namespace whichwire::test
