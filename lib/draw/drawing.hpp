// What all parts of the layout share: what is drawn, how, and what of it already has its place.
#pragma once

#include <vector>
#include <whichwire/picture.hpp>

namespace whichwire::draw {

constexpr double box_width = 116, box_height = 46;
constexpr double column_gap = 12;      ///< between boxes side by side
constexpr double clear_of_wire = 9;    ///< from an upright wire to what is said of it; clear of its halo
constexpr double connector_lead = 16;  ///< from an in-line connector to where its wires part
constexpr double margin = 24;          ///< around the picture, and on every sheet

struct Drawing {
  const Network& network;
  const Marks* marks;
  PictureOptions options;
  std::vector<std::size_t> home;  ///< by module: the bus that it is drawn on, or nowhere so far
  std::size_t connector_home = nowhere;
  std::vector<bool> bus_drawn;
  std::vector<bool> listed;     ///< by module: whether it is named in the line of a bus instead of drawn
  std::size_t spine = nowhere;  ///< the module that is drawn along its buses, or nowhere

  Drawing(const Network& its_network, const Marks* its_marks, const PictureOptions& its_options)
      : network(its_network),
        marks(its_marks),
        options(its_options),
        home(its_network.modules.size(), nowhere),
        bus_drawn(its_network.buses.size(), false),
        listed(its_network.modules.size(), false) {}

  bool narrow() const { return options.fit != PictureFit::screen; }
  /// How far a bus runs before it goes on in another row.
  double widest_row() const { return narrow() ? 690 : 1180; }
};

/// The ink of a bus's lines.
Ink ink_of(const Bus& bus);

/// What people call it: `CAN high speed`.
std::string protocol_name(Protocol protocol);

/// The bus as a heading says it: `DRV: Drivetrain bus (CAN high speed, 500 kbit/s)`.
std::string heading_of(const Bus& bus);

}  // namespace whichwire::draw
