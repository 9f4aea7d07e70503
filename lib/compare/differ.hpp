// Writes differences down: what every sort of part has in common. Tests: tests/compare/edits.cpp.
#pragma once

#include <string>
#include <vector>
#include <whichwire/compare.hpp>

#include "compare/matching.hpp"

namespace whichwire {

/// Values in words; `not known` where there is none.
std::string said(const std::string& text);
std::string said(double number, const std::string& unit = "");
std::string said(const std::optional<double>& number, const std::string& unit = "");

class Differ {
 public:
  using Kind = Difference::Kind;
  using Texts = std::vector<std::string>;

  Differ(const Network& network_a, const Network& network_b);

  void only(Difference::Sort sort, Kind kind, const std::string& part, const std::string& what = "");
  /// Says that the ids differ, where they do.
  void named(Kind kind, const std::string& id_a, const std::string& id_b);
  void changed(Kind kind, const std::string& part, const std::string& what, const std::string& value_a,
               const std::string& value_b);
  /// What only one of two lists has, whatever their order.
  void changed(Kind kind, const std::string& part, const std::string& what, Texts list_a, Texts list_b);
  void places(Kind kind, const std::string& part, const Place& place_a, const Place& place_b);
  /// The parts of one list by their matching: names, and what only one network has. Calls `both(i, j)` for the others.
  template <class Part, class Both>
  void parts(Kind kind, const Map& map, const std::vector<Part>& list_a, const std::vector<Part>& list_b, Both both) {
    for (std::size_t i = 0; i < list_a.size(); ++i) {
      if (map[i] == nowhere) {
        only(Difference::Sort::only_in_a, kind, list_a[i].id, in_words(a, list_a[i]));
        continue;
      }
      named(kind, list_a[i].id, list_b[map[i]].id);
      both(list_a[i], list_b[map[i]], i);
    }
    for (const std::size_t j : only_in_b(map, list_b.size()))
      only(Difference::Sort::only_in_b, kind, list_b[j].id, in_words(b, list_b[j]));
  }

  /// Ids of B, in the words of A where A has the part.
  std::string module_of_b(std::size_t index) const { return name(modules_, a.modules, b.modules, index); }
  std::string bus_of_b(std::size_t index) const { return name(buses_, a.buses, b.buses, index); }
  std::string feed_of_b(std::size_t index) const { return name(feeds_, a.feeds, b.feeds, index); }
  std::string ground_of_b(std::size_t index) const { return name(grounds_, a.grounds, b.grounds, index); }
  std::string end_of_b(const End& end) const;

  const Network &a, &b;
  const Matching match;
  std::vector<Difference> found;

 private:
  template <class Part>
  static std::string name(const Map& to_a, const std::vector<Part>& of_a, const std::vector<Part>& of_b,
                          std::size_t index) {
    if (index == nowhere) return "";
    return to_a[index] == nowhere ? of_b[index].id : of_a[to_a[index]].id;
  }
  static std::string in_words(const Network&, const Module& module) { return module.name; }
  static std::string in_words(const Network&, const Bus& bus) { return bus.name; }
  static std::string in_words(const Network&, const Point& point) { return std::string(phrase_for(point.kind)); }
  static std::string in_words(const Network&, const Feed& feed) { return std::string(phrase_for(feed.kind)); }
  static std::string in_words(const Network&, const Ground&) { return "ground point"; }
  static std::string in_words(const Network&, const Function& function) { return function.name; }
  static std::string in_words(const Network&, const Reference&) { return "sensor supply"; }
  static std::string in_words(const Network& network, const Segment& segment) {
    return id_of(network, segment.from) + " to " + id_of(network, segment.to);
  }

  Map modules_, buses_, points_, feeds_, grounds_;  ///< by index of B: index of A
};

/// What differs in one sort of parts, each in a file of its own.
void differ_modules(Differ& differ);
void differ_wiring(Differ& differ);
void differ_supply(Differ& differ);

/// Pins of a module or of the diagnostic connector.
void differ_power(Differ& differ, Difference::Kind kind, const std::string& owner, const Map& map,
                  const std::vector<PowerPin>& list_a, const std::vector<PowerPin>& list_b);
void differ_ground(Differ& differ, Difference::Kind kind, const std::string& owner, const Map& map,
                   const std::vector<GroundPin>& list_a, const std::vector<GroundPin>& list_b);

}  // namespace whichwire
