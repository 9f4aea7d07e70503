// A picture of 60 modules, crowded with feeds: layout and SVG.
#include <whichwire/svg.hpp>

#include "parts.hpp"
#include "table.hpp"
#include "timing.hpp"
#include "vehicle.hpp"

namespace whichwire::bench {

namespace {

void measure(const std::string& name, const NetworkResult& read) {
  if (!read.network) {
    print(name + ": refused");
    return;
  }
  std::size_t bytes = 0;
  const double milliseconds = median_ms([&] {
    const Picture picture = picture_of(*read.network, nullptr, {true});
    bytes = svg_of({*read.network, nullptr, picture}).size();
  });
  print({name + ": draw", "ms", milliseconds, "limit", 300});
  print({name + ": SVG", "kB", static_cast<double>(bytes) / 1000, "", 0});
}

}  // namespace

void measure_drawing() {
  measure("60 modules on 8 buses", read_network(vehicle_text(60, 8), "generated"));
  measure("electric-car.json, 60 modules", load_network(WHICHWIRE_SOURCE_DIR "/topologies/electric-car.json"));
}

}  // namespace whichwire::bench
