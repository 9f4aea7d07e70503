// `whichwire.comparison.v1`. The schema is topologies/comparison.schema.json. Tests: tests/cli/compare.cpp.
#include <whichwire/render.hpp>

#include "render/json.hpp"
#include "render/shown_words.hpp"

namespace whichwire {

namespace {

using render::Json;

Json difference_json(const Difference& one) {
  Json json = {{"difference", word_for(one.sort)}, {"kind", word_for(one.kind)}, {"part", one.part}};
  if (!one.what.empty()) json["what"] = one.what;
  const bool values = one.sort == Difference::Sort::changed || one.sort == Difference::Sort::renamed;
  if (values) json["in_a"] = one.a;
  if (values) json["in_b"] = one.b;
  return json;
}

Json looks_json(const Compared& compared, const LooksDifferent& group) {
  std::vector<Fault> in_a, in_b;
  for (const auto& pair : group.faults) {
    in_a.push_back(pair.in_a);
    in_b.push_back(pair.in_b);
  }
  return {{"faults_in_a", render::json_of(compared.a, in_a)},
          {"faults_in_b", render::json_of(compared.b, in_b)},
          {"key", word_for(group.key)},
          {"only_in_a", render::json_of(compared.a, group.only_in_a)},
          {"only_in_b", render::json_of(compared.b, group.only_in_b)}};
}

Json told_json(const Network& a, const ToldApart& told) {
  Json groups = Json::array();
  for (const auto& group : told.groups) groups.push_back(render::json_of(a, group));
  return {{"told_apart_in", told.in_b ? "b" : "a"}, {"groups", std::move(groups)}};
}

std::string_view word_for(Fits::Strength strength) {
  switch (strength) {
    case Fits::Strength::none:
      return "none";
    case Fits::Strength::positive:
      return "positive";
    case Fits::Strength::strong:
      return "strong";
    case Fits::Strength::very_strong:
      return "very-strong";
    case Fits::Strength::not_known:
      return "not-known";
  }
  return "";
}

Json fit_json(const Fit& fit) {
  const Verdict& verdict = fit.verdict;
  return {{"log_probability", {{"low", render::rounded(fit.low)}, {"high", render::rounded(fit.high)}}},
          {"verdict",
           {{"class", word_for(verdict.verdict_class)},
            {"parts", verdict.parts},
            {"probability", render::rounded(verdict.probability)},
            {"headline", verdict.headline}}},
          {"answer_but_not_in_it", fit.strangers},
          {"in_it_but_silent", fit.missing},
          {"codes_not_placed", fit.codes_unknown}};
}

}  // namespace

std::string json_of(const Compared& compared) {
  const Comparison& found = compared.comparison;
  Json all_differences = Json::array(), looks = Json::array(), told_apart = Json::array();
  for (const Difference& one : found.differences) all_differences.push_back(difference_json(one));
  for (const LooksDifferent& group : found.looks_different) looks.push_back(looks_json(compared, group));
  for (const ToldApart& told : found.told_apart) told_apart.push_back(told_json(compared.a, told));
  Json json = {{"format", "whichwire.comparison.v1"},
               {"a", compared.a.name},
               {"b", compared.b.name},
               {"differences", std::move(all_differences)},
               {"faults",
                {{"in_both", found.faults_shared},
                 {"only_in_a", found.faults_only_in_a},
                 {"only_in_b", found.faults_only_in_b}}},
               {"looks_different", std::move(looks)},
               {"told_apart", std::move(told_apart)}};
  if (found.fits) {
    json["fits"] = {
        {"speaks_for", found.fits->strength == Fits::Strength::none || found.fits->strength == Fits::Strength::not_known
                           ? "neither"
                       : found.fits->for_b ? "b"
                                           : "a"},
        {"strength", word_for(found.fits->strength)},
        {"a", fit_json(found.fits->a)},
        {"b", fit_json(found.fits->b)}};
  }
  return render::dumped(json);
}

}  // namespace whichwire
