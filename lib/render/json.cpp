#include "render/json.hpp"

#include <cmath>
#include <cstdio>

#include "network/utf8.hpp"

namespace whichwire::render {

namespace {

/// Escapes what the JSON writer lets through and a terminal may obey: DEL, C1 controls, marks that turn the writing.
/// The line feeds of the indent are the writer's own and stay; a plane above the first takes a pair of escapes.
std::string without_controls(const std::string& text) {
  std::string safe;
  safe.reserve(text.size());
  const auto escape = [&safe](unsigned unit) {
    char digits[8];
    std::snprintf(digits, sizeof digits, "\\u%04x", unit & 0xFFFFU);
    safe += digits;
  };
  for (std::size_t i = 0; i < text.size();) {
    const utf8::Character character = utf8::at(text, i);
    const auto code = static_cast<unsigned>(character.code);
    if (code == '\n' || !utf8::harmful(character.code)) {
      safe.append(text, i, character.length);
    } else if (code < 0x10000U) {
      escape(code);
    } else {
      escape(0xD800U + ((code - 0x10000U) >> 10U));
      escape(0xDC00U + ((code - 0x10000U) & 0x3FFU));
    }
    i += character.length;
  }
  return safe;
}

/// Whether the fault's line is worth saying: a part of a bus that has two lines.
bool line_said(const Network& network, const Fault& fault) {
  const bool of_lines = fault.part == PartKind::segment || fault.part == PartKind::connector_bus_pin;
  return of_lines && lines_of(network.buses[fault.bus].protocol) == 2;
}

/// The value unless it is empty.
void put(Json& json, const char* key, const std::string& value) {
  if (!value.empty()) json[key] = value;
}

Json expectation_json(const Expectation& expect) {
  Json json = {{"if", expect.outcome}};
  if (expect.low) json["low"] = rounded(*expect.low);
  if (expect.high) json["high"] = rounded(*expect.high);
  return json;
}

}  // namespace

std::string dumped(const Json& json) {
  return without_controls(json.dump(2, ' ', false, Json::error_handler_t::replace)) + "\n";
}

std::string on_one_line(const Json& json) {
  return without_controls(json.dump(-1, ' ', false, Json::error_handler_t::replace));
}

double rounded(double probability) { return std::round(probability * 1e6) / 1e6; }

Json json_of(const Network& network, const Fault& fault) {
  Json json = {{"fault", word_for(fault.kind)}, {"part", part_of(network, fault)}};
  if (line_said(network, fault)) json["line"] = word_for(fault.lines);
  if (fault.to) json["to"] = word_for(*fault.to);
  if (fault.bus != nowhere && fault.part != PartKind::segment && fault.part != PartKind::bus) {
    json["bus"] = network.buses[fault.bus].id;
  }
  if (fault.comes_and_goes) json["comes_and_goes"] = true;
  return json;
}

Json json_of(const Network& network, const std::vector<Fault>& faults) {
  Json json = Json::array();
  for (const Fault& fault : faults) json.push_back(json_of(network, fault));
  return json;
}

Json json_of(const Check& check) {
  Json at = Json::object();
  put(at, "part", check.part);
  put(at, "pin", check.pin);
  put(at, "wire", check.wire);
  Json json = {{"id", check.id}, {"measure", check.measure}, {"at", std::move(at)}, {"mode", check.mode}};
  if (check.key) json["key"] = word_for(*check.key);
  Json expect = Json::array();
  for (const Expectation& one : check.expect) expect.push_back(expectation_json(one));
  json["expect"] = std::move(expect);
  json["minutes"] = rounded(check.minutes);
  json["gain_bits"] = rounded(check.gain_bits);
  json["cautions"] = check.cautions;
  return json;
}

}  // namespace whichwire::render
