#include "draw/supplies.hpp"

#include <algorithm>
#include <cmath>

#include "draw/lettering.hpp"
#include "draw/notes.hpp"

namespace whichwire::draw {

namespace {

constexpr double row_height = 20, indent = 14, sign_width = 30, column = 380;
constexpr double mark_width = 120;  // kept free for what is suspected and probed

/// One line of the list.
struct Entry {
  Part part;
  int depth = 0;
  std::string id, text;
  std::vector<Note> notes;
};

/// The modules with such a pin, and the connector, each once.
template <class UsesIt>
std::string users_of(const Network& network, const UsesIt& uses_it) {
  std::string text;
  const auto add = [&](const std::string& id) { text += (text.empty() ? "" : ", ") + id; };
  for (const Module& module : network.modules)
    if (uses_it(module)) add(module.id);
  if (uses_it(network.diagnostic_connector)) add("DLC");
  return text;
}

std::string fed_by(const Network& network, std::size_t feed) {
  return users_of(network, [&](const auto& owner) {
    return std::ranges::any_of(owner.power, [&](const PowerPin& pin) { return pin.feed == feed; });
  });
}

std::string grounded_at(const Network& network, std::size_t ground) {
  return users_of(network, [&](const auto& owner) {
    return std::ranges::any_of(owner.ground, [&](const GroundPin& pin) { return pin.ground == ground; });
  });
}

bool wanted(const Drawing& drawing, const Part& part) {
  return drawing.options.feeds || !marks_at(drawing, part).empty();
}

std::string amps_of(const Feed& feed) {
  if (!feed.amps) return std::string(phrase_for(feed.kind));
  const auto whole = std::lround(*feed.amps * 10);
  const std::string tenth = whole % 10 == 0 ? "" : "." + std::to_string(whole % 10);
  return std::string(phrase_for(feed.kind)) + " " + std::to_string(whole / 10) + tenth + " A";
}

void add_feeds(const Drawing& drawing, std::size_t above, int depth, std::vector<Entry>& entries) {
  const Network& network = drawing.network;
  for (std::size_t i = 0; i < network.feeds.size(); ++i) {
    const Feed& feed = network.feeds[i];
    if (feed.from != above) continue;
    const Part part{Part::Kind::feed, i};
    const bool shown = wanted(drawing, part);
    if (shown) {
      const std::string fed = fed_by(network, i);
      entries.push_back(
          {part, depth, feed.id, amps_of(feed) + (fed.empty() ? "" : ": " + fed), marks_at(drawing, part)});
    }
    add_feeds(drawing, i, shown ? depth + 1 : depth, entries);
  }
}

std::vector<Entry> entries_of(const Drawing& drawing) {
  std::vector<Entry> entries;
  add_feeds(drawing, nowhere, 0, entries);
  for (std::size_t i = 0; i < drawing.network.grounds.size(); ++i) {
    const Part part{Part::Kind::ground, i};
    if (!wanted(drawing, part)) continue;
    entries.push_back(
        {part, 0, drawing.network.grounds[i].id, grounded_at(drawing.network, i), marks_at(drawing, part)});
  }
  return entries;
}

void add_sign(Thing& thing, const Entry& entry, double x, double y, const Network& network) {
  if (entry.part.kind == Part::Kind::ground) {
    thing.shapes.push_back(line(Ink::symbol, {{x + 12, y - 7}, {x + 12, y}}));
    for (int bar = 0; bar < 3; ++bar) {
      const double half = 8 - 2.7 * bar;
      thing.shapes.push_back(line(Ink::symbol, {{x + 12 - half, y + 3.0 * bar}, {x + 12 + half, y + 3.0 * bar}}));
    }
    return;
  }
  thing.shapes.push_back(line(Ink::symbol, {{x, y}, {x + 24, y}}));
  switch (network.feeds[entry.part.index].kind) {
    case Feed::Kind::fuse:
      thing.shapes.push_back(box(Ink::symbol, {x + 4, y - 4, 16, 8}));
      break;
    case Feed::Kind::relay:
      thing.shapes.push_back(box(Ink::symbol, {x + 4, y - 5, 16, 10}));
      thing.shapes.push_back(line(Ink::symbol, {{x + 8, y + 5}, {x + 16, y - 5}}));
      break;
    case Feed::Kind::fusible_link:
      thing.shapes.push_back(line(Ink::symbol, {{x + 4, y}, {x + 8, y - 5}, {x + 16, y + 5}, {x + 20, y}}));
      break;
    case Feed::Kind::switched:
      thing.shapes.push_back(line(Ink::blot, {{x + 6, y}, {x + 17, y}}));
      thing.shapes.push_back(line(Ink::symbol, {{x + 6, y}, {x + 17, y - 7}}));
      break;
  }
}

Thing drawn(const Drawing& drawing, const Entry& entry) {
  Thing thing{Thing::Role::box, entry.part, {}, {}};
  const double x = indent * std::min(entry.depth, 6);
  add_sign(thing, entry, x, row_height / 2, drawing.network);
  const double id_width = std::min(90.0, width_of(printable(entry.id), Lettering::tag));
  thing.words.push_back(
      {{x + sign_width, 3, id_width, 14}, fitted(entry.id, Lettering::tag, id_width), Lettering::tag});
  const double left = x + sign_width + id_width + 7;
  const double room = column - 16 - left - (entry.notes.empty() ? 0 : mark_width);
  const std::string text = fitted(entry.text, Lettering::note, room);
  if (!text.empty()) thing.words.push_back({{left, 3, width_of(text, Lettering::note), 14}, text, Lettering::note});
  return thing;
}

}  // namespace

Block supplies_of(const Drawing& drawing, double width) {
  const std::vector<Entry> entries = entries_of(drawing);
  Block block;
  if (entries.empty()) return block;
  Thing heading{Thing::Role::heading, {}, {}, {}};
  const std::string text = "Feeds and grounds";
  heading.words.push_back({{0, 0, width_of(text, Lettering::bus), 17}, text, Lettering::bus});
  block.things.push_back(std::move(heading));
  const auto columns = std::max<std::size_t>(1, static_cast<std::size_t>(width / column));
  double all = 0;
  for (const Entry& entry : entries) all += std::max(row_height, height_of(entry.notes) + 4);
  const double most = all / static_cast<double>(columns);
  double x = 0, y = 0;
  for (const Entry& entry : entries) {
    if (y >= most) {
      x += column;
      y = 0;
    }
    Block one;
    one.things.push_back(drawn(drawing, entry));
    if (!entry.notes.empty())
      one.things.push_back(notes_at(entry.part, entry.notes, {column - 16 - mark_width, 2}, mark_width));
    block.add(std::move(one), x, 24 + y);
    y += std::max(row_height, height_of(entry.notes) + 4);
  }
  return block;
}

}  // namespace whichwire::draw
