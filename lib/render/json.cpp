#include "render/json.hpp"

#include <cmath>

namespace whichwire::render {

namespace {

/// DEL and the C1 controls, which the JSON writer lets through and a terminal may obey.
std::string without_controls(const std::string& text) {
  std::string safe;
  safe.reserve(text.size());
  constexpr std::string_view digits = "0123456789abcdef";
  const auto escape = [&](unsigned byte) { safe.append("\\u00") += digits[byte >> 4U], safe += digits[byte & 15U]; };
  for (std::size_t i = 0; i < text.size(); ++i) {
    const auto byte = static_cast<unsigned char>(text[i]);
    const auto next = i + 1 < text.size() ? static_cast<unsigned char>(text[i + 1]) : 0U;
    if (byte == 0x7FU) {
      escape(byte);
    } else if (byte == 0xC2U && next >= 0x80U && next < 0xA0U) {
      escape(next);
      ++i;
    } else {
      safe += text[i];
    }
  }
  return safe;
}

/// Whether the fault's line is worth saying: a part of a bus that has two lines.
bool line_said(const Network& network, const Fault& fault) {
  const bool of_lines = fault.part == PartKind::segment || fault.part == PartKind::connector_bus_pin;
  return of_lines && lines_of(network.buses[fault.bus].protocol) == 2;
}

}  // namespace

std::string dumped(const Json& json) {
  return without_controls(json.dump(2, ' ', false, Json::error_handler_t::replace)) + "\n";
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

}  // namespace whichwire::render
