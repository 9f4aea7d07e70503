#include "render/check_words.hpp"

namespace whichwire::render {

namespace {

std::string unit_of(const std::string& mode) {
  if (mode.starts_with("volts")) return " V";
  if (mode.starts_with("ohms")) return " ohms";
  if (mode.starts_with("amps")) return " A";
  return "";
}

std::string mode_phrase(const std::string& mode) {
  if (mode == "volts-loaded") return "meter on volts, with a load";
  if (mode.starts_with("volts")) return "meter on volts";
  if (mode.starts_with("ohms")) return "meter on ohms";
  if (mode == "light") return "a look for light";
  return mode;
}

}  // namespace

std::string range_phrase(const Expectation& expect, const std::string& mode) {
  if (expect.low && expect.high) return number(*expect.low) + " to " + number(*expect.high) + unit_of(mode);
  if (expect.low) return "above " + number(*expect.low) + unit_of(mode);
  if (expect.high) return "below " + number(*expect.high) + unit_of(mode);
  return "";
}

std::string outcome_phrase(const Expectation& expect, const std::string& mode) {
  const std::string range = range_phrase(expect, mode);
  return expect.outcome + (range.empty() ? "" : " (" + range + ")");
}

std::string at_phrase(const Check& check) {
  std::vector<std::string> at;
  if (!check.part.empty()) at.push_back(check.part);
  if (!check.connector.empty()) at.push_back("connector " + check.connector);
  if (!check.pin.empty()) at.push_back("pin " + check.pin);
  if (!check.wire.empty()) at.push_back("wire " + check.wire);
  if (!check.where.empty()) at.push_back(check.where);
  return joined(at, ", ");
}

std::string with_phrase(const Check& check) {
  std::string how = mode_phrase(check.mode);
  if (check.key) how += ", key " + std::string(word_for(*check.key));
  return how + "; about " + number(check.minutes) + " min";
}

void say_how(Page& page, const Check& check) {
  if (const std::string at = at_phrase(check); !at.empty()) page.text(2, "At: ", at);
  page.text(2, "With: ", with_phrase(check));
  for (const std::string& caution : check.cautions) page.text(2, "! ", caution);
}

}  // namespace whichwire::render
