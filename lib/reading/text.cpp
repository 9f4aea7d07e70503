// A reading in plain words and units. Tests: tests/reading/read_reading.cpp.
#include <array>
#include <cmath>
#include <cstdio>
#include <whichwire/reading.hpp>

namespace whichwire {
namespace {

std::string number(double value) {
  std::array<char, 32> buffer{};
  std::snprintf(buffer.data(), buffer.size(), "%.4g", value);
  return buffer.data();
}

std::string ohms(double value) {
  constexpr double kilo = 1e3, mega = 1e6;
  if (std::isinf(value)) return "OL";
  if (value >= mega) return number(value / mega) + " Mohm";
  return value >= kilo ? number(value / kilo) + " kohm" : number(value) + " ohm";
}

std::string_view word(Reading::Lamp lamp) {
  constexpr std::array<std::string_view, 3> words{"dark", "dim", "bright"};
  return words[static_cast<std::size_t>(lamp)];
}

std::string_view word(Reading::Seen seen) {
  constexpr std::array<std::string_view, 10> words{"nothing",     "corrosion", "water",  "bent pin", "spread pin",
                                                   "pushed back", "chafed",    "broken", "burnt",    "loose"};
  return words[static_cast<std::size_t>(seen)];
}

}  // namespace

std::string text_of(const Reading& reading) {
  switch (reading.kind) {
    case Reading::Kind::number:
      return number(reading.value);
    case Reading::Kind::ohms:
      return ohms(reading.value);
    case Reading::Kind::volts:
      return number(reading.value) + " V";
    case Reading::Kind::drop:
      return number(reading.value) + " V drop";
    case Reading::Kind::volts_ac:
      return number(reading.value) + " V ac";
    case Reading::Kind::amps:
      return number(reading.value) + " A";
    case Reading::Kind::lamp:
      return "lamp " + std::string(word(reading.lamp));
    case Reading::Kind::light:
      return reading.yes ? "light" : "no light";
    case Reading::Kind::seen:
      return "seen " + std::string(word(reading.seen));
    case Reading::Kind::wiggle:
      return reading.yes ? "wiggle changed it" : "wiggle changed nothing";
  }
  return "";
}

}  // namespace whichwire
