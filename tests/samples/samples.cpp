// Every case of samples/ gives its expected page, and its five likeliest explanations as JSON. `WHICHWIRE_UPDATE=1
// test_samples` writes them anew: read each changed page against the case's story before you commit it.
#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <filesystem>
#include <nlohmann/json.hpp>

#include "effort.hpp"
#include "running.hpp"

using namespace whichwire::test;
using nlohmann::json;

namespace {

const std::string samples = WHICHWIRE_SOURCE_DIR "/samples";

std::vector<std::string> all_cases() {
  std::vector<std::string> folders;
  for (const auto& entry : std::filesystem::directory_iterator(samples)) {
    if (std::filesystem::exists(entry.path() / "command")) folders.push_back(entry.path().string());
  }
  std::sort(folders.begin(), folders.end());
  return folders;
}

std::string command_of(const std::string& folder) {
  std::string command = read_text(folder + "/command");
  while (!command.empty() && command.back() == '\n') command.pop_back();
  return command;
}

/// Where two documents differ, or nothing. Compilers round differently, and a search that was cut short may then end at
/// another set: numbers may differ in the last of six digits and by a hundredth part.
std::string difference(const json& a, const json& b, const std::string& path = "") {
  if (a.is_number() && b.is_number()) {
    const double allowed = 2.5e-6 + 0.01 * std::abs(b.get<double>());
    return std::abs(a.get<double>() - b.get<double>()) <= allowed ? "" : path + ": " + a.dump() + " is not " + b.dump();
  }
  if (a.type() != b.type() || a.size() != b.size()) return path + ": differs";
  if (!a.is_structured()) return a == b ? "" : path + ": " + a.dump() + " is not " + b.dump();
  for (auto one = a.begin(), other = b.begin(); one != a.end(); ++one, ++other) {
    const std::string key = a.is_object() ? one.key() : std::to_string(one - a.begin());
    if (a.is_object() && one.key() != other.key()) return path + "." + key + ": differs";
    const std::string found = difference(*one, *other, path + "." + key);
    if (!found.empty()) return found;
  }
  return "";
}

}  // namespace

TEST_CASE("every sample gives its expected page") {
  CHECK(all_cases().size() > 40);
  for (const std::string& folder : some_of(all_cases())) {
    CAPTURE(folder);
    const Run located = run(command_of(folder));
    CHECK(located.status == 0);
    CHECK(located.err == "");
    CHECK(located.out == golden(folder + "/expected.txt", located.out));
  }
}

TEST_CASE("every sample gives its expected JSON") {
  for (const std::string& folder : some_of(all_cases())) {
    CAPTURE(folder);
    const Run located = run(command_of(folder) + " --json --most 3");
    CHECK(located.status == 0);
    const std::string expected = golden(folder + "/expected.json", located.out);
    CHECK(difference(json::parse(located.out), json::parse(expected)) == "");
  }
}

TEST_CASE("every expected JSON is findings by the schema, says an independent validator") {
  const Run judged = run(WHICHWIRE_PYTHON
                         " -c 'import json,sys,jsonschema\n"
                         "judge=jsonschema.Draft202012Validator(json.load(open(sys.argv[1])))\n"
                         "for name in sys.argv[2:]: judge.validate(json.load(open(name)))\n"
                         "print(len(sys.argv)-2)' topologies/findings.schema.json samples/*/expected.json");
  CHECK(judged.err == "");
  CHECK(judged.out == std::to_string(all_cases().size()) + "\n");
}

TEST_CASE("no page is wider than 80 columns or says to replace a part") {
  for (const std::string& folder : all_cases()) {
    CAPTURE(folder);
    const std::string page = read_text(folder + "/expected.txt");
    std::size_t width = 0;
    std::size_t widest = 0;
    for (char byte : page) {
      const bool continues = (static_cast<unsigned char>(byte) & 0xC0U) == 0x80U;
      width = byte == '\n' ? 0 : width + (continues ? 0 : 1);
      widest = std::max(widest, width);
    }
    CHECK(widest > 0);
    CHECK(widest <= 80);
    CHECK(page.find("eplace ") == std::string::npos);
  }
}

TEST_CASE("the answer shown in the README is the sample's own") {
  const std::string readme = read_text(WHICHWIRE_SOURCE_DIR "/README.md");
  const std::size_t begin = readme.find("```text\n") + 8;
  const std::string shown = readme.substr(begin, readme.find("```", begin) - begin);
  CHECK(shown.size() > 400);
  CHECK(read_text(samples + "/01-one-silent/expected.txt").find(shown) != std::string::npos);
}
