// What a scan would show under a set of faults, as a page and as `whichwire.prediction.v1`.
// Tests: tests/render/expected_scan.cpp.
#include "render/json.hpp"
#include "render/page.hpp"
#include "render/phrases.hpp"

namespace whichwire {

namespace {

using namespace render;
using About = Question::About;

std::string_view word_of(Level level) {
  switch (level) {
    case Level::up:
      return "up";
    case Level::was_unsure:
      return "was-unsure";
    case Level::was_down:
      return "was-down";
    case Level::unsure:
      return "unsure";
    case Level::down:
      return "down";
  }
  return "";
}

/// What was asked, in the network's words, of the questions about `about` at this level.
std::vector<std::string> names_at(const Forecast& forecast, About about, Level level) {
  const Network& network = forecast.network;
  std::vector<std::string> names;
  for (std::size_t i = 0; i < forecast.expected.questions.size(); ++i) {
    const Question& question = forecast.expected.questions[i];
    if (question.about != about || forecast.expected.levels[i] != level) continue;
    if (about == About::answers) names.push_back(network.modules[question.a].id);
    if (about == About::function) names.push_back(network.functions[question.a].name);
    if (about == About::hears) {
      names.push_back(network.modules[question.a].id + " from " + network.modules[question.b].id);
    }
    if (about == About::bus) names.push_back(network.buses[question.b].id + " at " + network.modules[question.a].id);
  }
  return names;
}

void list(Page& page, std::string_view what, const std::vector<std::string>& names) {
  if (!names.empty()) page.list(2, what, names);
}

void say_levels(Page& page, const Forecast& forecast, About about, std::string_view down, std::string_view unsure,
                std::string_view was) {
  list(page, down, names_at(forecast, about, Level::down));
  list(page, unsure, names_at(forecast, about, Level::unsure));
  auto earlier = names_at(forecast, about, Level::was_down);
  for (std::string& name : names_at(forecast, about, Level::was_unsure)) earlier.push_back(std::move(name));
  list(page, was, earlier);
}

void say_codes(Page& page, const Forecast& forecast) {
  bool any = false;
  for (const ModuleSeen& module : forecast.expected.scan.modules) {
    std::vector<std::string> codes;
    for (const CodeSeen& code : module.codes) {
      codes.push_back((code.written.empty() ? code.text : code.written) + " (" + std::string(word_for(code.state)) +
                      ")");
    }
    list(page, module.module, codes);
    any = any || !codes.empty();
  }
  if (!any) page.text(2, "none that the network description lets one expect");
}

Json asked_json(const Network& network, const Question& question) {
  const auto module = [&](std::size_t index) { return network.modules[index].id; };
  switch (question.about) {
    case About::answers:
      return {{"module", module(question.a)}};
    case About::hears:
      return {{"to", module(question.a)}, {"from", module(question.b)}};
    case About::bus:
      return {{"module", module(question.a)}, {"bus", network.buses[question.b].id}};
    case About::function:
      return {{"function", network.functions[question.a].id}};
    case About::fitted:
      break;  // no scan is asked to show it
  }
  return Json::object();
}

/// Messages and buses that work are left out: there are very many.
Json levels_json(const Forecast& forecast, About about, bool with_up) {
  Json json = Json::array();
  for (std::size_t i = 0; i < forecast.expected.questions.size(); ++i) {
    const Level level = forecast.expected.levels[i];
    if (forecast.expected.questions[i].about != about || (level == Level::up && !with_up)) continue;
    Json one = asked_json(forecast.network, forecast.expected.questions[i]);
    one["level"] = word_of(level);
    json.push_back(std::move(one));
  }
  return json;
}

}  // namespace

std::string text_of(const Forecast& forecast, const Look& look) {
  Page page(look);
  page.text(0, "With the key at " + std::string(word_for(forecast.expected.circumstances.key)) + " and:");
  for (const Fault& fault : forecast.faults) page.text(2, "- ", phrase_of(forecast.network, fault));
  if (forecast.faults.empty()) page.text(2, "- no fault");
  page.heading("A scan would show");
  list(page, "answering", names_at(forecast, About::answers, Level::up));
  say_levels(page, forecast, About::answers, "silent", "may or may not answer", "answering now, at times not");
  page.heading("Codes");
  say_codes(page, forecast);
  page.heading("Messages");
  say_levels(page, forecast, About::hears, "missed", "in doubt", "missed at times");
  say_levels(page, forecast, About::bus, "bus down", "bus disturbed", "bus down at times");
  page.heading("Functions");
  list(page, "work", names_at(forecast, About::function, Level::up));
  say_levels(page, forecast, About::function, "fail", "in doubt", "fail at times");
  if (forecast.network.functions.empty()) page.text(2, "none in the network description");
  return page.take();
}

std::string json_of(const Forecast& forecast) {
  const Json json = {{"format", "whichwire.prediction.v1"},
                     {"network", forecast.network.name},
                     {"faults", render::json_of(forecast.network, {forecast.faults.begin(), forecast.faults.end()})},
                     {"answers", levels_json(forecast, About::answers, true)},
                     {"messages", levels_json(forecast, About::hears, false)},
                     {"buses", levels_json(forecast, About::bus, false)},
                     {"functions", levels_json(forecast, About::function, true)},
                     {"scan", Json::parse(json_of(forecast.expected.scan))}};
  return dumped(json);
}

}  // namespace whichwire
