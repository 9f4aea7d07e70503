// Readings in the forms in which people type them.
#include <doctest/doctest.h>

#include <cmath>
#include <whichwire/reading.hpp>

namespace whichwire {
namespace {

std::string read(std::string_view text) {
  const ReadingResult result = read_reading(text);
  return result.reading ? text_of(*result.reading) : "refused";
}

}  // namespace

TEST_CASE("numbers with and without a unit, with a point or a comma") {
  CHECK(read("59.8") == "59.8");
  CHECK(read_reading("59.8").reading->kind == Reading::Kind::number);
  CHECK(read("59,8") == "59.8");
  CHECK(read(" 59,8 ohm ") == "59.8 ohm");
  CHECK(read("59.8 \xCE\xA9") == "59.8 ohm");
  CHECK(read("59.8\xE2\x84\xA6") == "59.8 ohm");
  CHECK(read("60R") == "60 ohm");
  CHECK(read("1.2 k\xCE\xA9") == "1.2 kohm");
  CHECK(read("1,2kOhm") == "1.2 kohm");
  CHECK(read("14 k") == "14 kohm");
  CHECK(read("4k7") == "4.7 kohm");
  CHECK(read("59R8") == "59.8 ohm");
  CHECK(read("2.2 M") == "2.2 Mohm");
  CHECK(read("12.3 V") == "12.3 V");
  CHECK(read("12,3V") == "12.3 V");
  CHECK(read("2450 mV") == "2.45 V");
  CHECK(read("-0.3 V") == "-0.3 V");
  CHECK(read("\xE2\x88\x92"
             "0,3 V") == "-0.3 V");
  CHECK(read("35 mA") == "0.035 A");
  CHECK(read(".5 V") == "0.5 V");
}

TEST_CASE("drops and ripple are volts of their own kind") {
  CHECK(read("0.31 V drop") == "0.31 V drop");
  CHECK(read("drop 310 mV") == "0.31 V drop");
  CHECK(read("0,08 V ac") == "0.08 V ac");
  CHECK(read("80 mV ripple") == "0.08 V ac");
}

TEST_CASE("an open circuit as meters show it") {
  for (const char* text : {"OL", "ol", "0L", "O.L", "O.L.", "open", "open line", "\xE2\x88\x9E"}) {
    CAPTURE(text);
    CHECK(read(text) == "OL");
  }
}

TEST_CASE("lamps, looks, light and wiggling in words") {
  CHECK(read("lamp bright") == "lamp bright");
  CHECK(read("Dim") == "lamp dim");
  CHECK(read("the lamp is dark") == "lamp dark");
  CHECK(read("lamp not lit") == "lamp dark");
  CHECK(read("seen corrosion") == "seen corrosion");
  CHECK(read("green pins") == "seen corrosion");
  CHECK(read("seen nothing") == "seen nothing");
  CHECK(read("no corrosion") == "seen nothing");
  CHECK(read("pin pushed back") == "seen pushed back");
  CHECK(read("wiggle changed it") == "wiggle changed it");
  CHECK(read("wiggle no change") == "wiggle changed nothing");
  CHECK(read("wiggled, steady") == "wiggle changed nothing");
  CHECK(read("wiggle changed nothing") == "wiggle changed nothing");
  CHECK(read("nothing changes") == "wiggle changed nothing");
  CHECK(read("light") == "light");
  CHECK(read("no light") == "no light");
}

TEST_CASE("what cannot be one reading is refused with a reason") {
  const auto error = [](std::string_view text) { return read_reading(text).error; };
  CHECK(error("1.234,5").starts_with("'1.234,5' is not one number: use one decimal point or comma"));
  CHECK(error("12.3 W").starts_with("'w' is not understood"));
  CHECK(error("lamp brihgt").find("did you mean 'bright'?") != std::string::npos);
  CHECK(error("12 V 3 V").starts_with("there are two numbers"));
  CHECK(error("12 V ohm").starts_with("there are two units"));
  CHECK(error("-4 ohm").starts_with("ohms below 0 show that there is voltage on the wire"));
  CHECK(error("lamp").starts_with("was the lamp bright, dim or dark?"));
  CHECK(error("wiggle").starts_with("did it change while it was moved?"));
  CHECK(error("seen").starts_with("what was seen?"));
  CHECK(error("").starts_with("this is no reading"));
  CHECK(error("3 ohm drop").starts_with("a drop is in volts"));
  CHECK(error(std::string(300, '1')).starts_with("a reading has at most 200 characters"));
  CHECK(error("12\x1b[31m V").find('\x1b') == std::string::npos);
}

TEST_CASE("a reading written out reads as itself") {
  for (const char* text :
       {"59.8 ohm", "1.2 kohm", "2.2 Mohm", "OL", "12.3 V", "0.31 V drop", "0.08 V ac", "0.035 A", "lamp dim",
        "seen water", "seen bent pin", "seen spread pin", "seen loose", "light", "no light", "wiggle changed it"}) {
    CHECK(read(text) == text);
  }
}

}  // namespace whichwire
