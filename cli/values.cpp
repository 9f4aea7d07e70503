// Tests: tests/cli/command_line.cpp.
#include "values.hpp"

#include <algorithm>
#include <array>
#include <cstdio>
#include <cstdlib>

namespace whichwire::cli {

namespace {

constexpr std::array all_keys = {KeyState::off, KeyState::accessory, KeyState::run, KeyState::start};

std::string plain(double value) {
  char digits[32];
  std::snprintf(digits, sizeof digits, "%.7g", value);
  return digits;
}

std::string between_or_why(const std::string& text, double low, double high) {
  char* end = nullptr;
  const double value = std::strtod(text.c_str(), &end);
  if (text.empty() || *end != '\0') return text + " is not a number";
  if (value >= low && value <= high) return "";
  return text + " is not between " + plain(low) + " and " + plain(high);
}

}  // namespace

std::optional<KeyState> key_of(const std::string& word) {
  for (KeyState key : all_keys) {
    if (word_for(key) == word) return key;
  }
  return std::nullopt;
}

void ask_for_rates(CLI::App& command, std::string& path) {
  command.add_option("--rates", path, "a table of odds that overrides the built-in ones")->type_name("FILE");
}

CLI::Validator a_key_state() {
  return {[](std::string& text) -> std::string {
            if (key_of(text)) return "";
            std::string known;
            for (KeyState key : all_keys) known += (known.empty() ? "" : ", ") + std::string(word_for(key));
            return text + " is none of " + known;
          },
          ""};
}

CLI::Validator one_of(std::vector<std::string> words) {
  return {[words = std::move(words)](std::string& text) -> std::string {
            if (std::find(words.begin(), words.end(), text) != words.end()) return "";
            std::string known;
            for (const std::string& word : words) known += (known.empty() ? "" : ", ") + word;
            return text + " is none of " + known;
          },
          ""};
}

CLI::Validator between(double low, double high) {
  return {[low, high](std::string& text) { return between_or_why(text, low, high); }, ""};
}

}  // namespace whichwire::cli
