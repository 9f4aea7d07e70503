// `whichwire.findings.v1`. The schema is topologies/findings.schema.json.
// Tests: tests/render/findings_json.cpp, samples/*/expected.json.
#include <cmath>

#include "render/json.hpp"
#include "whichwire/render.hpp"

namespace whichwire {

namespace {

using render::Json;
using render::rounded;

Json texts_of(const Ranking& ranking, const std::vector<std::size_t>& which) {
  Json json = Json::array();
  for (std::size_t index : which) json.push_back(ranking.evidence[index].text);
  return json;
}

Json explanation_json(const Network& network, const Ranking& ranking, const Explanation& explanation) {
  Json alike = Json::array();
  for (const auto& faults : explanation.alike) alike.push_back(render::json_of(network, faults));
  Json leaves = texts_of(ranking, explanation.leaves);
  for (Json& text : texts_of(ranking, explanation.contradicts)) leaves.push_back(std::move(text));
  return {{"probability", rounded(explanation.probability.low)},
          {"faults", render::json_of(network, explanation.faults)},
          {"alike", std::move(alike)},
          {"explains", texts_of(ranking, explanation.explains)},
          {"leaves", std::move(leaves)}};
}

/// Lines that were not placed, and modules that the network does not know.
Json not_understood_json(const Findings& findings) {
  Json json = Json::array();
  for (const LineRead& line : findings.lines) {
    if (line.understood.empty() || line.doubt == LineDoubt::not_taken)
      json.push_back("line " + std::to_string(line.line) + ": " + line.text);
  }
  for (const ModuleSeen& seen : findings.scan.modules) {
    if (index_of(findings.network.modules, seen.module) == nowhere) {
      json.push_back("module not in this network: " + seen.module);
    }
  }
  return json;
}

}  // namespace

std::string json_of(const Findings& findings) {
  const auto& [network, scan, lines, ranking, verdict, plan] = findings;
  Json explanations = Json::array();
  for (const Explanation& one : ranking.explanations) explanations.push_back(explanation_json(network, ranking, one));
  Json checks = Json::array();
  for (const Check& check : plan.checks) checks.push_back(render::json_of(check));
  const Json json = {{"format", "whichwire.findings.v1"},
                     {"network", network.name},
                     {"scan", scan.name},
                     {"verdict",
                      {{"class", word_for(verdict.verdict_class)},
                       {"parts", verdict.parts},
                       {"probability", rounded(verdict.probability)},
                       {"headline", verdict.headline}}},
                     {"explanations", std::move(explanations)},
                     // A bound, so it is never rounded down.
                     {"outside", std::ceil(ranking.outside * 1e6) / 1e6},
                     {"checks", std::move(checks)},
                     {"not_understood", not_understood_json(findings)}};
  return render::dumped(json);
}

}  // namespace whichwire
