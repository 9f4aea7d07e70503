#include "draw/quiet.hpp"

#include <algorithm>
#include <map>

#include "draw/boxes.hpp"
#include "draw/branch.hpp"
#include "draw/legend.hpp"
#include "draw/lettering.hpp"
#include "draw/notes.hpp"
#include "draw/wiring.hpp"

namespace whichwire::draw {

namespace {

constexpr double piece = 26, indent = 36, line_step = 15;
constexpr std::size_t any_number = 100;

/// In the order of the network, as they are named everywhere.
std::vector<std::size_t> named_on(const Bus& bus) {
  std::vector<std::size_t> all = modules_on(bus);
  std::ranges::sort(all);
  return all;
}

bool loud(const Drawing& drawing, const Part& part) { return !marks_at(drawing, part).empty(); }

bool loud_module(const Drawing& drawing, std::size_t module) {
  const Thing::State state = state_of(drawing, module);
  return state == Thing::State::silent || state == Thing::State::refuses || loud(drawing, {Part::Kind::module, module});
}

bool loud_end(const Drawing& drawing, const End& end) {
  if (end.kind == End::Kind::module) return end.index != drawing.spine && loud_module(drawing, end.index);
  return loud(drawing, end.kind == End::Kind::point ? Part{Part::Kind::point, end.index} : Part{Part::Kind::connector});
}

bool is_quiet(const Drawing& drawing, std::size_t bus) {
  if (loud(drawing, {Part::Kind::bus, bus})) return false;
  const std::vector<Segment>& segments = drawing.network.buses[bus].segments;
  for (std::size_t i = 0; i < segments.size(); ++i)
    if (loud(drawing, {Part::Kind::segment, i, bus}) || loud_end(drawing, segments[i].from) ||
        loud_end(drawing, segments[i].to))
      return false;
  return true;
}

/// `answers: KAM, SCD; not in the scan: TRM`, without the module that the bus hangs from.
std::string names_of(const Drawing& drawing, std::size_t bus, std::size_t but) {
  const Bus& its = drawing.network.buses[bus];
  std::map<Thing::State, std::string> names;
  for (const std::size_t module : named_on(its)) {
    if (module == but) continue;
    std::string& list = names[state_of(drawing, module)];
    list += (list.empty() ? "" : ", ") + drawing.network.modules[module].id;
  }
  std::string text = has_end(its, {End::Kind::diagnostic_connector, nowhere}) ? "diagnostic connector" : "";
  for (const auto& [state, list] : names) {
    const std::string_view means = meaning_of(state);
    text.append(text.empty() ? "" : "; ").append(means).append(means.empty() ? "" : ": ").append(list);
  }
  return text;
}

}  // namespace

std::vector<bool> quiet_buses(const Drawing& drawing) {
  std::vector<bool> quiet;
  for (std::size_t bus = 0; bus < drawing.network.buses.size(); ++bus) quiet.push_back(is_quiet(drawing, bus));
  if (std::ranges::find(quiet, false) == quiet.end()) quiet.assign(quiet.size(), false);
  return quiet;
}

Block folded(Drawing& drawing, const std::vector<bool>& quiet, std::size_t bus, double width) {
  drawing.bus_drawn[bus] = true;
  const Bus& its = drawing.network.buses[bus];
  std::string hanging;
  for (const std::size_t module : named_on(its)) {
    drawing.listed[module] = true;
    for (const std::size_t below : hanging_buses(drawing, module)) {
      if (!quiet[below]) continue;
      drawing.bus_drawn[below] = true;
      for (const std::size_t one : modules_on(drawing.network.buses[below])) drawing.listed[one] = true;
      hanging +=
          (hanging.empty() ? "" : "; ") + drawing.network.buses[below].id + " " + names_of(drawing, below, module);
    }
  }
  Thing thing{Thing::Role::notes, {Part::Kind::bus, bus}, {line(ink_of(its), {{0, 7}, {piece, 7}})}, {}};
  double y = 0;
  for (const std::string& paragraph : {names_of(drawing, bus, drawing.spine), hanging}) {
    for (const std::string& text : lines_of(paragraph, Lettering::note, width - indent, any_number)) {
      thing.words.push_back({{indent, y, width_of(text, Lettering::note), line_step - 1}, text, Lettering::note});
      y += line_step;
    }
  }
  return {{std::move(thing)}};
}

}  // namespace whichwire::draw
