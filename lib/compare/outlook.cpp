#include "compare/outlook.hpp"

#include <algorithm>

#include "effects/compiled.hpp"

namespace whichwire {
namespace {

/// A mix of all bits (the finaliser of MurmurHash3 by Appleby, public domain).
std::uint64_t mixed(std::uint64_t value) {
  value = (value ^ (value >> 33)) * 0xff51afd7ed558ccdULL;
  value = (value ^ (value >> 33)) * 0xc4ceb9fe1a85ec53ULL;
  return value ^ (value >> 33);
}

std::uint64_t number_of(const Question& question) {
  return mixed((static_cast<std::uint64_t>(question.about) << 60) ^ mixed(question.a) ^ (mixed(question.b) << 1));
}

std::vector<bool> live_in(std::span<const Network* const> networks, KeyState key) {
  std::vector<bool> live;
  for (const Network* network : networks) {
    for (const Feed& feed : network->feeds) live.push_back(feed.live[static_cast<std::size_t>(key)]);
  }
  return live;
}

/// Whether it can take the tool's supply away.
bool feeds_the_tool(const Fault& fault) {
  return fault.part == PartKind::feed || fault.part == PartKind::ground ||
         fault.part == PartKind::connector_power_pin || fault.part == PartKind::connector_ground_pin;
}

}  // namespace

std::vector<KeyState> different_keys(std::span<const Network* const> networks) {
  std::vector<KeyState> keys;
  std::vector<std::vector<bool>> known;
  for (const KeyState key : {KeyState::run, KeyState::off, KeyState::accessory, KeyState::start}) {
    auto live = live_in(networks, key);
    if (std::find(known.begin(), known.end(), live) != known.end()) continue;
    known.push_back(std::move(live));
    keys.push_back(key);
  }
  return keys;
}

Outlook::Outlook(const Effects& effects, std::span<const KeyState> keys, const Rename& rename) {
  for (const KeyState key : keys) {
    for (const bool own_battery : {false, true}) {
      const Circumstances circumstances{key, own_battery};
      auto questions = expected_scan(effects, {}, circumstances).questions;
      std::vector<std::uint64_t> numbers;
      std::vector<std::uint8_t> never(effects.network().modules.size(), 1);
      for (const Question& question : questions) {
        numbers.push_back(number_of(rename ? rename(question) : question));
        if (question.about == Question::About::answers) never[question.a] = 0;
      }
      Predictor predictor(effects.compiled(), questions, circumstances);
      std::unordered_set<std::uint64_t> asked(numbers.begin(), numbers.end());
      scans_.push_back({circumstances, std::move(questions), std::move(numbers), std::move(asked), std::move(never),
                        std::move(predictor)});
    }
  }
}

std::uint64_t Outlook::key(std::size_t scan, const Raised& raised) const {
  return mixed(scans_[scan].numbers[raised.question] + static_cast<std::uint64_t>(raised.level));
}

const std::vector<Raised>& Outlook::shown(const Fault& fault, std::size_t scan) {
  OneScan& one = scans_[scan];
  if (fault.comes_and_goes) {
    one.predictor.left_behind(fault, shown_);
  } else {
    const Fault* only[] = {&fault};
    one.predictor.present(only, {}, shown_);
  }
  silent_ = one.never_answers;
  for (const Raised& raised : shown_) {
    const Question& question = one.questions[raised.question];
    if (question.about == Question::About::answers && raised.level == Level::down) silent_[question.a] = 1;
  }
  std::erase_if(shown_, [&](const Raised& raised) {
    const Question& question = one.questions[raised.question];
    const bool coded = question.about == Question::About::hears || question.about == Question::About::bus;
    return coded && silent_[question.a] != 0;
  });
  return shown_;
}

Print Outlook::print(const Fault& fault) {
  Print print;
  Print before;
  for (std::size_t scan = 0; scan < scans_.size(); ++scan) {
    // A tool with a battery of its own sees the same, unless the other one lost its supply.
    if (!scans_[scan].circumstances.tool_has_own_battery || feeds_the_tool(fault)) {
      before = {};
      for (const Raised& raised : shown(fault, scan)) {
        const std::uint64_t number = key(scan, raised);
        before.first += number;
        before.second += mixed(number ^ 0x9e3779b97f4a7c15ULL);
      }
    }
    print.first = mixed(print.first + before.first);
    print.second = mixed(print.second ^ before.second);
  }
  return print;
}

}  // namespace whichwire
