#include "render/shown_words.hpp"

#include <algorithm>

#include "render/page.hpp"
#include "render/phrases.hpp"

namespace whichwire::render {

namespace {

using About = Question::About;

struct Sort {
  About about;
  Level level;
  std::string_view words;
};

/// In the order in which they are worth reading.
constexpr Sort sorts[] = {
    {About::answers, Level::down, "silent"},
    {About::answers, Level::unsure, "may or may not answer"},
    {About::bus, Level::down, "bus down"},
    {About::bus, Level::unsure, "bus disturbed"},
    {About::hears, Level::down, "misses"},
    {About::hears, Level::unsure, "misses at times"},
    {About::function, Level::down, "fails"},
    {About::function, Level::unsure, "fails at times"},
    {About::bus, Level::was_down, "old code, bus was down"},
    {About::bus, Level::was_unsure, "old code, bus was disturbed"},
    {About::hears, Level::was_down, "old code, missed"},
    {About::hears, Level::was_unsure, "old code, missed at times"},
};

std::string name_of(const Network& network, const Question& question) {
  switch (question.about) {
    case About::answers:
      return network.modules[question.a].id;
    case About::hears:
      return network.modules[question.a].id + " of " + network.modules[question.b].id;
    case About::bus:
      return network.buses[question.b].id + " at " + network.modules[question.a].id;
    case About::function:
      return network.functions[question.a].name.empty() ? network.functions[question.a].id
                                                        : network.functions[question.a].name;
    case About::fitted:
      break;  // no scan is asked to show it
  }
  return "";
}

std::string_view word_of(Level level) {
  constexpr std::string_view words[] = {"up", "was-unsure", "was-down", "unsure", "down"};
  return words[static_cast<std::size_t>(level)];
}

std::string state_of(const Network& network, const Fault& fault) {
  const std::string bus = fault.bus == nowhere ? "" : network.buses[fault.bus].id;
  const bool pair = fault.part == PartKind::segment && lines_of(network.buses[fault.bus].protocol) == 2;
  const auto words = [&]() -> std::string {
    switch (fault.kind) {
      case FaultKind::dead:
        return "itself";
      case FaultKind::holds:
        return "holds " + bus + " down";
      case FaultKind::babbles:
        return "floods " + bus;
      case FaultKind::unconfigured:
        return "not programmed";
      case FaultKind::not_forwarding:
        return "passes nothing on";
      case FaultKind::port_dead:
        return "port on " + bus;
      case FaultKind::back_feeds:
        return "feed or ground lost, pushes current into " + bus;
      case FaultKind::not_fitted:
        return "not fitted";
      case FaultKind::open:
        return !pair ? "open" : fault.lines == Lines::both ? "both lines open" : "one line open";
      case FaultKind::short_circuit:
        return fault.to && fault.part != PartKind::segment ? "shorted to " + std::string(word_for(*fault.to))
                                                           : "shorted";
      case FaultKind::resistive:
        return "poor contact";
      case FaultKind::missing:
        return "missing";
      case FaultKind::extra:
        return "one terminator too many";
      case FaultKind::added_device:
        return "something added";
    }
    return "";
  };
  return words() + (fault.comes_and_goes ? " now and then" : "");
}

}  // namespace

std::vector<std::string> cut(std::vector<std::string> texts, std::size_t most) {
  if (texts.size() <= most + 1) return texts;  // one more fits as well as the words that there is one more
  const std::size_t more = texts.size() - most;
  texts.resize(most);
  texts.push_back("and " + std::to_string(more) + " more");
  return texts;
}

std::vector<std::string> phrases_of(const Network& network, std::span<const Shown> shown, std::size_t most) {
  std::vector<std::string> phrases;
  for (const Sort& sort : sorts) {
    std::vector<std::string> names;
    for (const Shown& one : shown) {
      if (one.question.about == sort.about && one.level == sort.level) names.push_back(name_of(network, one.question));
    }
    if (!names.empty()) phrases.push_back(std::string(sort.words) + ": " + joined(cut(std::move(names), most), ", "));
  }
  return phrases;
}

Json json_of(const Network& network, std::span<const Shown> shown) {
  Json json = Json::array();
  for (const Shown& one : shown) {
    const Question& question = one.question;
    Json entry = Json::object();
    switch (question.about) {
      case About::answers:
        entry["module"] = network.modules[question.a].id;
        break;
      case About::hears:
        entry["to"] = network.modules[question.a].id;
        entry["from"] = network.modules[question.b].id;
        break;
      case About::bus:
        entry["module"] = network.modules[question.a].id;
        entry["bus"] = network.buses[question.b].id;
        break;
      case About::function:
        entry["function"] = network.functions[question.a].id;
        break;
      case About::fitted:
        break;  // no scan is asked to show it
    }
    entry["level"] = word_of(one.level);
    json.push_back(std::move(entry));
  }
  return json;
}

std::string name_of_part(const Network& network, const Fault& fault) {
  std::string id = part_of(network, fault);
  switch (fault.part) {
    case PartKind::feed:
      return phrase_for(network.feeds[fault.owner]);
    case PartKind::ground:
      return "ground point " + id;
    case PartKind::terminator:
      return "terminator of " + network.buses[fault.bus].id + " at " + id;
    default:
      return id;
  }
}

std::vector<std::string> parts_of(const Network& network, const std::vector<Fault>& faults) {
  struct Part {
    std::string id;
    std::vector<std::string> states;
  };
  std::vector<Part> parts;
  for (const Fault& fault : faults) {
    const std::string id = name_of_part(network, fault), state = state_of(network, fault);
    auto found = std::find_if(parts.begin(), parts.end(), [&](const Part& part) { return part.id == id; });
    if (found == parts.end()) found = parts.insert(parts.end(), {id, {}});
    auto& states = found->states;
    if (std::find(states.begin(), states.end(), state) == states.end()) states.push_back(state);
  }
  std::vector<std::string> texts;
  texts.reserve(parts.size());
  for (const Part& part : parts) texts.push_back(part.id + " (" + joined(part.states, ", ") + ")");
  return texts;
}

}  // namespace whichwire::render
