#include "compare/differ.hpp"

#include <algorithm>
#include <charconv>

namespace whichwire {
namespace {

using Texts = Differ::Texts;

std::string joined(const Texts& all) {
  std::string text;
  for (const std::string& one : all) text += (text.empty() ? "" : ", ") + one;
  return text;
}

/// What of `list` is not in `other`, counting repeats; both sorted.
Texts without(const Texts& list, const Texts& other) {
  Texts left;
  std::set_difference(list.begin(), list.end(), other.begin(), other.end(), std::back_inserter(left));
  return left;
}

}  // namespace

std::string said(const std::string& text) { return text.empty() ? "not known" : text; }

std::string said(double number, const std::string& unit) {
  char digits[40];
  const auto end = std::to_chars(digits, digits + sizeof digits, number).ptr;
  return std::string(digits, end) + (unit.empty() ? "" : " " + unit);
}

std::string said(const std::optional<double>& number, const std::string& unit) {
  return number ? said(*number, unit) : "not known";
}

Differ::Differ(const Network& network_a, const Network& network_b)
    : a(network_a),
      b(network_b),
      match(whichwire::match(network_a, network_b)),
      modules_(inverse(match.modules, b.modules.size())),
      buses_(inverse(match.buses, b.buses.size())),
      points_(inverse(match.points, b.points.size())),
      feeds_(inverse(match.feeds, b.feeds.size())),
      grounds_(inverse(match.grounds, b.grounds.size())) {}

void Differ::only(Difference::Sort sort, Kind kind, const std::string& part, const std::string& what) {
  found.push_back({sort, kind, part, what, "", "", false});
}

void Differ::named(Kind kind, const std::string& id_a, const std::string& id_b) {
  if (id_a != id_b) found.push_back({Difference::Sort::renamed, kind, id_a, "", id_a, id_b, false});
}

void Differ::changed(Kind kind, const std::string& part, const std::string& what, const std::string& value_a,
                     const std::string& value_b) {
  if (value_a != value_b) found.push_back({Difference::Sort::changed, kind, part, what, value_a, value_b, false});
}

void Differ::changed(Kind kind, const std::string& part, const std::string& what, Texts list_a, Texts list_b) {
  std::sort(list_a.begin(), list_a.end());
  std::sort(list_b.begin(), list_b.end());
  if (list_a == list_b) return;
  found.push_back({Difference::Sort::changed, kind, part, what, joined(without(list_a, list_b)),
                   joined(without(list_b, list_a)), true});
}

void Differ::places(Kind kind, const std::string& part, const Place& place_a, const Place& place_b) {
  changed(kind, part, "place", said(place_a.where), said(place_b.where));
  changed(kind, part, "time to reach it", said(place_a.minutes, "min"), said(place_b.minutes, "min"));
  changed(kind, part, "hazards", place_a.hazards, place_b.hazards);
}

std::string Differ::end_of_b(const End& end) const {
  if (end.kind == End::Kind::module) return module_of_b(end.index);
  if (end.kind == End::Kind::point) return name(points_, a.points, b.points, end.index);
  return id_of(b, end);
}

std::vector<Difference> differences(const Network& a, const Network& b) {
  Differ differ(a, b);
  const auto vehicle = [&](const std::string& what, const std::string& of_a, const std::string& of_b) {
    differ.changed(Difference::Kind::vehicle, "vehicle", what, said(of_a), said(of_b));
  };
  const auto year = [](int number) { return number == 0 ? "" : std::to_string(number); };
  vehicle("maker", a.vehicle.make, b.vehicle.make);
  vehicle("model", a.vehicle.model, b.vehicle.model);
  vehicle("model year", year(a.vehicle.model_year), year(b.vehicle.model_year));
  vehicle("variant", a.vehicle.variant, b.vehicle.variant);
  differ_modules(differ);
  differ_wiring(differ);
  differ_supply(differ);
  return std::move(differ.found);
}

std::string_view word_for(Difference::Kind kind) {
  switch (kind) {
    case Difference::Kind::vehicle:
      return "vehicle";
    case Difference::Kind::module:
      return "module";
    case Difference::Kind::bus:
      return "bus";
    case Difference::Kind::segment:
      return "segment";
    case Difference::Kind::terminator:
      return "terminator";
    case Difference::Kind::gateway:
      return "gateway";
    case Difference::Kind::point:
      return "point";
    case Difference::Kind::feed:
      return "feed";
    case Difference::Kind::ground:
      return "ground";
    case Difference::Kind::connector:
      return "connector";
    case Difference::Kind::function:
      return "function";
  }
  return "";
}

std::string_view word_for(Difference::Sort sort) {
  switch (sort) {
    case Difference::Sort::only_in_a:
      return "only-in-a";
    case Difference::Sort::only_in_b:
      return "only-in-b";
    case Difference::Sort::renamed:
      return "renamed";
    case Difference::Sort::changed:
      return "changed";
  }
  return "";
}

}  // namespace whichwire
