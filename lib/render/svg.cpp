// Writes a picture as SVG: first the wires, then what stands on them. Shape and pattern say all that colour says.
#include "render/svg.hpp"

#include <algorithm>
#include <array>
#include <set>

#include "draw/sheets.hpp"
#include "render/markup.hpp"
#include "render/svg_words.hpp"

namespace whichwire {

namespace data {
extern const std::string_view picture_css;
}

namespace render {

namespace {

std::string_view class_of(Ink ink) {
  constexpr std::array names = {"pair",        "single",  "light",        "not-known", "supply",      "joint",
                                "coupling",    "outline", "torn-outline", "spine",     "symbol",      "resistor",
                                "blot",        "likely",  "possible",     "remote",    "likely-halo", "possible-halo",
                                "remote-halo", "probe",   "differs",      "differs",   "differs",     "differs-halo"};
  return names.at(static_cast<std::size_t>(ink));
}

std::string_view class_of(Thing::State state) {
  constexpr std::array names = {"", " answers", " refuses", " silent", " not-fitted", " not-reachable", " not-seen"};
  return names.at(static_cast<std::size_t>(state));
}

std::string_view class_of(Thing::Role role) {
  constexpr std::array names = {"wire", "joint-at", "box", "again", "notes", "heading", "legend"};
  return names.at(static_cast<std::size_t>(role));
}

std::string_view class_of(Lettering lettering) {
  constexpr std::array names = {"title", "subtitle", "bus", "id", "name", "note", "mark", "tag", "number"};
  return names.at(static_cast<std::size_t>(lettering));
}

std::string attribute(std::string_view name, const std::string& value) {
  return std::string(" ").append(name).append("=\"").append(value).append("\"");
}

void write_line(std::string& out, const Shape& shape, std::string_view name) {
  std::string points;
  for (const Spot& spot : shape.points)
    points += (points.empty() ? "" : " ") + coordinate(spot.x) + "," + coordinate(spot.y);
  out += "<polyline" + attribute("class", std::string(name)) + attribute("points", points) + "/>";
}

void write(std::string& out, const Shape& shape) {
  const std::string name(class_of(shape.ink));
  switch (shape.form) {
    case Shape::Form::line:
      write_line(out, shape, name);
      if (shape.ink == Ink::pair) write_line(out, shape, "pair-core");
      break;
    case Shape::Form::box: {
      const Spot a = shape.points[0], b = shape.points[1];
      out += "<rect" + attribute("class", name) + attribute("x", coordinate(std::min(a.x, b.x))) +
             attribute("y", coordinate(std::min(a.y, b.y))) + attribute("width", coordinate(std::abs(b.x - a.x))) +
             attribute("height", coordinate(std::abs(b.y - a.y)));
      if (shape.radius > 0) out += attribute("rx", coordinate(shape.radius));
      out += "/>";
      break;
    }
    case Shape::Form::disc:
      out += "<circle" + attribute("class", name) + attribute("cx", coordinate(shape.points[0].x)) +
             attribute("cy", coordinate(shape.points[0].y)) + attribute("r", coordinate(shape.radius)) + "/>";
      break;
  }
}

void write(std::string& out, const Words& words) {
  const double x = words.centred ? words.at.x + words.at.width / 2 : words.at.x;
  const double baseline = words.at.y + words.at.height * 0.77;
  out += "<text" + attribute("class", "t-" + std::string(class_of(words.lettering))) + attribute("x", coordinate(x)) +
         attribute("y", coordinate(baseline)) + ">" + escaped_markup(words.text) + "</text>";
}

std::string_view kind_of(const Part& part) {
  constexpr std::array names = {"", " module", " connector", " bus", " segment", " point", " feed", " ground"};
  return names.at(static_cast<std::size_t>(part.kind));
}

std::string checks_at(const Drawn& drawn, const Part& part) {
  std::string numbers;
  if (drawn.marks == nullptr || part.kind == Part::Kind::none) return numbers;
  for (const Probe& probe : drawn.marks->probes)
    if (probe.part == part) numbers += (numbers.empty() ? "" : " ") + std::to_string(probe.number);
  return numbers;
}

std::string id_of(const Part& part) {
  std::string id(kind_of(part).substr(1));
  if (part.bus != nowhere) id += "-" + std::to_string(part.bus);
  return part.index == nowhere ? id : id + "-" + std::to_string(part.index);
}

bool shows(const Thing& thing, const Part& part) {
  return thing.part == part && part.kind != Part::Kind::none && !(thing.shapes.empty() && thing.words.empty());
}

void write(std::string& out, const Drawn& drawn, const Thing& thing, bool with_id) {
  if (thing.shapes.empty() && thing.words.empty()) return;
  std::string name(class_of(thing.role));
  name.append(kind_of(thing.part)).append(class_of(thing.state));
  out += "<g" + attribute("class", name);
  if (with_id) out += attribute("id", id_of(thing.part));
  const std::string part = part_name(drawn.network, thing.part);
  if (!part.empty()) out += attribute("data-part", escaped_markup(part));
  const std::string checks = checks_at(drawn, thing.part);
  if (!checks.empty()) out += attribute("data-check", checks);
  out += ">";
  const std::string title = title_of(drawn, thing);
  if (!title.empty() && thing.role != Thing::Role::legend) out += "<title>" + escaped_markup(title) + "</title>";
  for (const Shape& shape : thing.shapes) write(out, shape);
  for (const Words& words : thing.words) write(out, words);
  out += "</g>\n";
}

constexpr std::string_view patterns =
    "<defs>"
    "<pattern id=\"p-possible\" width=\"4\" height=\"4\" patternUnits=\"userSpaceOnUse\" "
    "patternTransform=\"rotate(45)\">"
    "<rect class=\"paper\" width=\"4\" height=\"4\"/><line class=\"p-line\" x1=\"1\" y1=\"0\" x2=\"1\" "
    "y2=\"4\"/></pattern>"
    "<pattern id=\"p-unseen\" width=\"6\" height=\"6\" patternUnits=\"userSpaceOnUse\">"
    "<rect class=\"paper\" width=\"6\" height=\"6\"/><line class=\"p-faint\" x1=\"0\" y1=\"3\" x2=\"3\" "
    "y2=\"3\"/></pattern>"
    "<pattern id=\"p-spine\" width=\"9\" height=\"9\" patternUnits=\"userSpaceOnUse\">"
    "<rect class=\"paper\" width=\"9\" height=\"9\"/><line class=\"p-faint\" x1=\"0\" y1=\"0\" x2=\"0\" "
    "y2=\"9\"/></pattern>"
    "</defs>\n";

struct Size {
  double width = 0, height = 0;
};

/// The first thing that a reading voice finds.
struct Titles {
  std::string title, description;
};

/// The element's begin, in a file all that the things refer to, and the paper.
std::string begin_svg(const Size& size, const Titles& titles, SvgFor what, bool sheets) {
  const std::string width = coordinate(size.width), height = coordinate(size.height);
  const std::string name = what == SvgFor::beside ? "brief" : "picture";
  std::string out = "<svg xmlns=\"http://www.w3.org/2000/svg\" class=\"picture\" role=\"img\"" +
                    attribute("aria-labelledby", name + "-title " + name + "-description") +
                    attribute("viewBox", "0 0 " + width + " " + height) + attribute("width", width) +
                    attribute("height", height) + ">\n";
  out += "<title" + attribute("id", name + "-title") + ">" + escaped_markup(titles.title) + "</title>\n";
  out += "<desc" + attribute("id", name + "-description") + ">" + escaped_markup(titles.description) + "</desc>\n";
  if (what == SvgFor::file) {
    out.append("<style>\n").append(picture_style()).append(sheets ? "@page { size: A4; }\n" : "");
    out.append("</style>\n").append(patterns);
  }
  return out + "<rect class=\"paper\"" + attribute("width", width) + attribute("height", height) + "/>\n";
}

/// Wires first, then what stands on them.
std::string things_of(const Drawn& drawn, SvgFor what) {
  std::vector<const Thing*> things;
  for (const Thing& thing : drawn.picture.things) things.push_back(&thing);
  std::ranges::stable_sort(things, {}, [](const Thing* thing) { return thing->role; });
  std::string out;
  std::set<std::string> ids;
  for (const Thing* thing : things) {
    const bool first = what == SvgFor::page && shows(*thing, thing->part) && ids.insert(id_of(thing->part)).second;
    write(out, drawn, *thing, first);
  }
  return out;
}

/// Where a picture goes in one of two.
struct Place {
  double x = 0, y = 0, scale = 1;
};
struct Places {
  Place first, second;
  Size size;
};

Places side_by_side(const Picture& a, const Picture& b) {
  return {{}, {a.width}, {a.width + b.width, std::max(a.height, b.height)}};
}

/// Each as wide as its sheets; the second begins on a sheet of its own.
Places on_sheets(const Picture& a, const Picture& b) {
  const double width = std::max(a.width, b.width), of_a = width / a.width, of_b = width / b.width;
  const double down = draw::Sheets(width).next(a.height * of_a);
  return {{0, 0, of_a}, {0, down, of_b}, {width, down + b.height * of_b}};
}

std::string transform(const Place& place) {
  std::string how;
  if (place.x != 0 || place.y != 0) how = "translate(" + coordinate(place.x) + " " + coordinate(place.y) + ")";
  if (place.scale != 1) how += (how.empty() ? "" : " ") + ("scale(" + std::to_string(place.scale) + ")");
  return how.empty() ? "" : attribute("transform", how);
}

}  // namespace

std::string svg_patterns() {
  return "<svg class=\"picture patterns\" width=\"0\" height=\"0\" aria-hidden=\"true\">" + std::string(patterns) +
         "</svg>\n";
}

std::string_view picture_style() { return data::picture_css; }

std::string link_to(const Drawn& drawn, const Part& part) {
  const bool shown = std::ranges::any_of(drawn.picture.things, [&](const Thing& thing) { return shows(thing, part); });
  return shown ? id_of(part) : "";
}

std::string svg_element(const Drawn& drawn, SvgFor what) {
  const Vehicle& vehicle = drawn.network.vehicle;
  return begin_svg({drawn.picture.width, drawn.picture.height},
                   {"Network of " + vehicle.make + " " + vehicle.model, description_of(drawn)}, what,
                   drawn.picture.on_sheets) +
         things_of(drawn, what) + "</svg>\n";
}

}  // namespace render

Drawn drawn_for_page(const Network& network, const Marks* marks, const PagePictures& pictures) {
  return {network, marks, pictures.whole, pictures.brief ? &*pictures.brief : nullptr};
}

std::string svg_of(const Drawn& drawn) {
  return "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n" + render::svg_element(drawn, render::SvgFor::file);
}

std::string svg_of(const Drawn& a, const Drawn& b, Together how) {
  using namespace render;
  const bool sheets = how == Together::on_sheets;
  const Places places = sheets ? on_sheets(a.picture, b.picture) : side_by_side(a.picture, b.picture);
  const auto name = [](const Drawn& drawn) {
    return drawn.network.vehicle.make + " " + drawn.network.vehicle.model + " " + drawn.network.vehicle.variant;
  };
  const Titles titles{
      std::string("Two networks ") + (sheets ? "one below the other: " : "side by side: ") + name(a) + " and " +
          name(b),
      (sheets ? "Above: " : "Left: ") + description_of(a) + (sheets ? " Below: " : " Right: ") + description_of(b)};
  std::string out = "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n" +
                    begin_svg(places.size, titles, SvgFor::file, sheets) + "<g class=\"first\"" +
                    transform(places.first) + ">\n" + things_of(a, SvgFor::file) + "</g>\n";
  if (!sheets) {
    const std::string right = coordinate(places.second.x);
    out += "<line class=\"between\"" + attribute("x1", right) + attribute("y1", "24") + attribute("x2", right) +
           attribute("y2", coordinate(places.size.height - 24)) + "/>\n";
  }
  return out + "<g class=\"second\"" + transform(places.second) + ">\n" + things_of(b, SvgFor::file) + "</g>\n</svg>\n";
}

}  // namespace whichwire
