// From faults to the scan they would give: the inverse of reading one, free of chance.
// Tests: tests/render/expected_scan.cpp; for every shipped network the scan is located again in tests/samples.
#include <algorithm>
#include <map>
#include <string>
#include <utility>
#include <whichwire/expected_scan.hpp>

namespace whichwire {

namespace {

/// The lowest standard code that says `kind` of a subject. Generic network codes lie in U0001 to U3FFF, those that
/// speak of one module or bus below U0400.
const Code* code_for(CodeKind kind, const std::string& subject) {
  static const auto table = [] {
    std::map<std::pair<CodeKind, std::string>, Code> lowest;
    for (std::uint32_t number = 1; number < 0x400; ++number) {
      const Code code{'U', number, std::nullopt};
      const CodeMeaning meaning = meaning_of(code);
      if (!meaning.subject.empty()) lowest.try_emplace({meaning.kind, meaning.subject}, code);
    }
    return lowest;
  }();
  const auto found = table.find({kind, subject});
  return found == table.end() ? nullptr : &found->second;
}

CodeSeen seen_as(const Code& code, CodeState state) {
  CodeSeen seen;
  seen.written = text_of(code);
  seen.code = code;
  seen.state = state;
  return seen;
}

/// The maker's own code of `reporter` that says so.
const OwnCode* own_code_for(const Module& reporter, OwnCode::Says says, std::size_t subject) {
  const auto found = std::find_if(reporter.own_codes.begin(), reporter.own_codes.end(),
                                  [&](const OwnCode& own) { return own.says == says && own.subject == subject; });
  return found == reporter.own_codes.end() ? nullptr : &*found;
}

CodeSeen seen_as(const OwnCode& own, CodeState state) {
  CodeSeen seen;
  seen.written = own.code;
  seen.code = parse_code(own.code);
  seen.state = state;
  return seen;
}

/// A code that the reporter stores about a module it misses: its maker's own, a standard one, or a sentence.
CodeSeen lost_code(const Network& network, std::size_t reporter, std::size_t missed, CodeState state) {
  const Module& from = network.modules[missed];
  const OwnCode* own = own_code_for(network.modules[reporter], OwnCode::Says::lost, missed);
  if (own != nullptr) return seen_as(*own, state);
  for (const std::string& role : from.roles) {
    if (const Code* code = code_for(CodeKind::lost_communication, role)) return seen_as(*code, state);
  }
  if (from.address) {
    // SAE J1939-73: suspect parameter number 2000 + n speaks of source address n; failure mode 9 is an abnormal update
    // rate.
    const Code code{'S', static_cast<std::uint32_t>(2000 + *from.address), std::uint8_t{9}};
    if (meaning_of(code).kind == CodeKind::lost_communication) return seen_as(code, state);
  }
  CodeSeen sentence;
  sentence.state = state;
  sentence.text = "no messages from " + from.id;
  sentence.misses = from.id;
  return sentence;
}

std::optional<CodeSeen> bus_code(const Network& network, std::size_t reporter, std::size_t bus, CodeState state) {
  const OwnCode* own = own_code_for(network.modules[reporter], OwnCode::Says::bus_fault, bus);
  if (own != nullptr) return seen_as(*own, state);
  for (const std::string& subject : network.buses[bus].called) {
    if (const Code* code = code_for(CodeKind::bus_fault, subject)) return seen_as(*code, state);
  }
  return std::nullopt;
}

bool on_bus(const Bus& bus, std::size_t module) {
  const End end{End::Kind::module, module};
  return std::any_of(bus.segments.begin(), bus.segments.end(),
                     [&](const Segment& segment) { return segment.from == end || segment.to == end; });
}

std::vector<Question> questions_of(const Effects& effects, KeyState key) {
  const Network& network = effects.network();
  std::vector<Question> questions;
  const auto ask = [&](Question::About about, std::size_t a, std::size_t b = nowhere) {
    const Question question{about, a, b};
    if (effects.answerable(question)) questions.push_back(question);
  };
  for (std::size_t module = 0; module < network.modules.size(); ++module) {
    if (!effects.awake(module, key)) continue;
    ask(Question::About::answers, module);
    for (std::size_t from : network.modules[module].listens_to.value_or(std::vector<std::size_t>{})) {
      if (effects.awake(from, key)) ask(Question::About::hears, module, from);
    }
    for (std::size_t bus = 0; bus < network.buses.size(); ++bus) {
      if (on_bus(network.buses[bus], module)) ask(Question::About::bus, module, bus);
    }
  }
  for (std::size_t function = 0; function < network.functions.size(); ++function) {
    ask(Question::About::function, function);
  }
  return questions;
}

/// The state of a code that follows from a level, or nullopt where none is expected.
std::optional<CodeState> state_after(Level level) {
  if (level == Level::down) return CodeState::current;
  if (level == Level::was_down) return CodeState::history;
  return std::nullopt;
}

void add_code(const Network& network, const Question& question, Level level, ModuleSeen& reporter) {
  const auto state = state_after(level);
  if (!state || reporter.answer != Answer::yes) return;
  if (question.about == Question::About::hears) {
    reporter.codes.push_back(lost_code(network, question.a, question.b, *state));
  } else if (auto code = bus_code(network, question.a, question.b, *state)) {
    reporter.codes.push_back(std::move(*code));
  }
}

}  // namespace

ExpectedScan expected_scan(const Effects& effects, std::span<const Fault> faults, const Circumstances& circumstances) {
  const Network& network = effects.network();
  ExpectedScan expected;
  expected.circumstances = circumstances;
  expected.questions = questions_of(effects, circumstances.key);
  expected.levels = effects.predict(faults, expected.questions, circumstances);
  Scan& scan = expected.scan;
  scan.key = circumstances.key;
  scan.key_stated = true;
  scan.tool_has_own_battery = circumstances.tool_has_own_battery;
  for (const Module& module : network.modules) scan.modules.push_back({module.id, Answer::not_polled, {}});
  for (std::size_t i = 0; i < expected.questions.size(); ++i) {
    const Question& question = expected.questions[i];
    const bool down = expected.levels[i] == Level::down;
    switch (question.about) {
      case Question::About::answers:
        scan.modules[question.a].answer = down ? Answer::no : Answer::yes;
        break;
      case Question::About::function:
        scan.functions.push_back({network.functions[question.a].id, !down});
        break;
      case Question::About::hears:
      case Question::About::bus:
        add_code(network, question, expected.levels[i], scan.modules[question.a]);
        break;
      case Question::About::fitted:
        break;  // a scan shows it by the module's answer alone
    }
  }
  return expected;
}

}  // namespace whichwire
