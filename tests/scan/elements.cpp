// What stands in a line, in its order.
#include "scan/elements.hpp"

#include <doctest/doctest.h>

#include "scan/van.hpp"

using namespace whichwire;

namespace {

std::string word_of(const LineElement& e, const TextLine& line) {
  const std::string raw(line.slice(e.first, e.last));
  switch (e.kind) {
    case LineElement::Kind::module: {
      std::string ids;
      for (const NameHit& hit : e.hits) ids += (ids.empty() ? "" : ",") + test::van().modules[hit.module].id;
      return "<" + ids + ">";
    }
    case LineElement::Kind::sense:
      return "(" + raw + ")";
    case LineElement::Kind::code:
      return text_of(e.code);
    case LineElement::Kind::own_code:
      return "own " + e.text;
    case LineElement::Kind::status:
      return "status " + std::to_string(static_cast<int>(e.value));
    case LineElement::Kind::volts:
      return std::to_string(static_cast<int>(e.value * 10)) + "/10 V";
    case LineElement::Kind::count:
      return std::to_string(static_cast<int>(e.value)) + " codes";
    case LineElement::Kind::stamp:
      return "at " + raw;
    case LineElement::Kind::number:
      return "number " + raw;
    case LineElement::Kind::bus:
      return "bus " + test::van().buses[e.index].id;
    case LineElement::Kind::function:
      return "function " + test::van().functions[e.index].id;
    case LineElement::Kind::unknown:
      return "?" + raw;
  }
  return {};
}

std::string found(std::string_view raw) {
  static const Lexicon lexicon(test::van());
  const TextLine line = text_line(raw);
  std::string all;
  for (const LineElement& element : elements_of(line, lexicon))
    all += (all.empty() ? "" : " ") + word_of(element, line);
  return all;
}

}  // namespace

TEST_CASE("the longest name or phrase wins") {
  CHECK(found("engine control module no response") == "<ECM> (no response)");
  CHECK(found("no response from ECM") == "(no response from) <ECM>");
  CHECK(found("not active, not currently active") == "(not active) (not currently active)");
  CHECK(found("door module, passenger side") == "<PDM>");
  CHECK(found("door module") == "<DDM,PDM>");
}

TEST_CASE("codes are found with failure type and status byte") {
  CHECK(found("U0100-87 [2F]") == "U0100-87 status 47");
  CHECK(found("U0100 (28)") == "U0100 status 40");
  CHECK(found("U0100-87-2F") == "U0100-87 status 47");
  CHECK(found("U0100 87 2F") == "U0100-87 status 47");
  CHECK(found("U0100 87") == "U0100-87");
  CHECK(found("U 0100 active") == "U0100 (active)");
  CHECK(found("U0100 12 times") == "U0100-12 (times)");
  CHECK(found("U0100 99 bottles") == "U0100 number 99 ?bottles");
  CHECK(found("status 2F") == "status 47");
  CHECK(found("SPN 639 | FMI 9 | active") == "SPN 639 FMI 9 (active)");
  CHECK(found("0xC10087") == "U0100-87");
}

TEST_CASE("a maker's own code is found as the network spells it") {
  CHECK(found("f3 12") == "own F3-12");
  CHECK(found("U1402") == "U1402");
}

TEST_CASE("counts of codes are no codes and no states") {
  CHECK(found("3 codes") == "3 codes");
  CHECK(found("Faults: 0") == "0 codes");
  CHECK(found("Trouble codes: none") == "0 codes");
  CHECK(found("2 stored") == "2 codes");
  CHECK(found("2 stored faults") == "2 codes");
  CHECK(found("fault 1 U0100") == "(fault) number 1 U0100");
}

TEST_CASE("voltages, dates and times are found in every usual writing") {
  CHECK(found("12,4 V") == "124/10 V");
  CHECK(found("12.4V 12V 12 volts") == "124/10 V 120/10 V 120/10 V");
  CHECK(found("99 V") == "number 99 ?V");
  CHECK(found("2026-03-02 09:14 02.03.26 3 March 2026") == "at 2026-03-02 at 09:14 at 02.03.26 at 3 March 2026");
}

TEST_CASE("a module is found by its address, in decimal or hexadecimal") {
  CHECK(found("SA 11") == "<ABS>");
  CHECK(found("address 0x0B") == "<ABS>");
  CHECK(found("address 200") == "<>");
  CHECK(found("address 300") == "(address) number 300");
}

TEST_CASE("a phrase runs over a colon, a name does not") {
  CHECK(found("Communication: failed") == "(Communication: failed)");
  CHECK(found("Module: engine control") == "<ECM>");
  CHECK(found("engine: control") == "?engine ?control");
}

TEST_CASE("buses and functions are found by id and name") {
  CHECK(found("Drive bus BDY Starter cranks") == "bus DRV bus BDY function crank");
}

TEST_CASE("a number with a point or comma is read exactly") {
  CHECK(decimal("12,4") == 12.4);
  CHECK(decimal("12.05") == 12.05);
  CHECK(decimal("12") == 12.0);
  CHECK_FALSE(decimal("12.").has_value());
  CHECK_FALSE(decimal("a").has_value());
  CHECK_FALSE(decimal("1.2.3").has_value());
}
