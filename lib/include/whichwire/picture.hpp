// A network as a picture: what is drawn where, before anyone writes it as SVG. Lengths are in
// pixels of a page at its usual size; x grows to the right, y downward.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>
#include <whichwire/check.hpp>
#include <whichwire/compare.hpp>
#include <whichwire/findings.hpp>
#include <whichwire/network.hpp>
#include <whichwire/planner.hpp>
#include <whichwire/scan.hpp>

namespace whichwire {

/// A part of the vehicle that has a place in the picture.
struct Part {
  enum class Kind : std::uint8_t { none, module, connector, bus, segment, point, feed, ground };
  Kind kind = Kind::none;
  std::size_t index = nowhere;  ///< into the network's vector of that kind; of a segment into its bus's
  std::size_t bus = nowhere;    ///< of a segment
  friend bool operator==(const Part&, const Part&) = default;
};

/// How much is suspected of one thing at a part.
struct Suspicion {
  Part part;
  std::string what;        ///< short, as `A-27 open`; of one part no two say the same
  double probability = 0;  ///< sum over the faults that it stands for
};

/// A check of the plan at its place.
struct Probe {
  Part part;
  std::size_t number = 0;  ///< of the check in the plan, from 1
  std::string what;        ///< short: the pin, or how it is measured
};

/// In what a part differs from that of another network.
struct Distinction {
  enum class Kind : std::uint8_t { only_here, changed, renamed };
  Part part;
  Kind kind = Kind::changed;
  std::string what;  ///< short: what is changed and how it is here, or the name there
};

/// What a scan and its findings, or another network, say of the parts.
struct Marks {
  std::vector<std::optional<Answer>> answers;  ///< by module, nullopt: the scan does not speak of it; empty: no scan
  std::vector<Suspicion> suspicions;           ///< most probable first, those of at least one in a hundred
  std::vector<Probe> probes;
  std::string headline;  ///< the verdict with its probability, or how much differs; may be empty
  std::vector<Distinction> distinctions;
};

/// The part with this id, of those that a check is done at: `ECM`, `S310`, `F4`, `DLC`; `none` where there is none.
Part part_called(const Network& network, std::string_view id);

/// `most_checks`: how many checks of the plan are probes.
Marks marks_of(const Network& network, const Scan& scan, const Ranking& ranking, const Verdict& verdict,
               const CheckPlan& plan, std::size_t most_checks);

/// What a scan and the readings after it say of the parts; the next check is the only probe. Without `assessment`:
/// only which modules answer.
Marks marks_of(const Network& network, const Scan& scan, const Assessment* assessment);

/// What differs, for the picture of one of two networks. `in_b`: of the second.
Marks marks_of(const Network& network, const std::vector<Difference>& differences, bool in_b);

struct Spot {
  double x = 0, y = 0;
};

struct Rectangle {
  double x = 0, y = 0, width = 0, height = 0;
  double right() const { return x + width; }
  double bottom() const { return y + height; }
};

/// What a shape stands for; whoever writes the picture gives it its look.
enum class Ink : std::uint8_t {
  pair,          ///< bus of two lines
  single,        ///< bus of one line
  light,         ///< ring
  not_known,     ///< wiring that the network file leaves open
  supply,        ///< wire of feeds
  joint,         ///< splice
  coupling,      ///< inline connector
  outline,       ///< box of a module or connector
  torn_outline,  ///< box that shows a part which stands elsewhere
  spine,         ///< gateway along its buses
  symbol,
  resistor,
  blot,      ///< paper-coloured, breaks a line
  likely,    ///< suspected with at least one half
  possible,  ///< with at least one in ten
  remote,    ///< with at least one in a hundred
  likely_halo,
  possible_halo,
  remote_halo,
  probe,
  only_here,  ///< sign of what only one of two networks has
  changed,    ///< sign of what is not as in the other
  renamed,    ///< sign of what has another name in the other
  differs_halo,
};

struct Shape {
  enum class Form : std::uint8_t { line, box, disc };
  Form form = Form::line;
  Ink ink = Ink::symbol;
  std::vector<Spot> points;  ///< of a box two corners, of a disc its centre
  double radius = 0;         ///< of a disc, or of a box's corners
};

enum class Lettering : std::uint8_t { title, subtitle, bus, id, name, note, mark, tag, number };

/// One line of text, cut so that it fits into its rectangle in any usual typeface.
struct Words {
  Rectangle at;
  std::string text;
  Lettering lettering = Lettering::note;
  bool centred = false;
};

/// Shapes and words that belong to one part.
struct Thing {
  enum class Role : std::uint8_t { wire, joint, box, again, notes, heading, legend };
  /// What the scan says of a module; `plain` without a scan.
  enum class State : std::uint8_t { plain, answers, refuses, silent, not_fitted, not_reachable, not_seen };
  Role role = Role::notes;
  Part part;
  std::vector<Shape> shapes;
  std::vector<Words> words;
  State state = State::plain;
};

struct Picture {
  double width = 0, height = 0;
  std::vector<Thing> things;
  bool on_sheets = false;  ///< each as wide as it, in the proportions of A4
};

/// What a picture is laid out for: a screen; a column, as narrow as a page or a phone held upright; sheets of A4, one
/// below another, which cut no bus that one of them can hold.
enum class PictureFit : std::uint8_t { screen, column, sheets };

struct PictureOptions {
  bool feeds = false;    ///< feeds and grounds too; otherwise only those that are suspected or to be probed
  bool headings = true;  ///< the vehicle and the verdict above it
  PictureFit fit = PictureFit::screen;
  bool brief = false;  ///< where anything is marked: buses in which nothing is, as a line of names each
};

/// `marks` is null without a scan.
Picture picture_of(const Network& network, const Marks* marks = nullptr, const PictureOptions& options = {});

/// For a page that has headings of its own.
struct PagePictures {
  Picture whole;
  std::optional<Picture> brief;  ///< for paper and phones, where the whole would be too small to read
};
PagePictures pictures_for_page(const Network& network, const Marks* marks);

}  // namespace whichwire
