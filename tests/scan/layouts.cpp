// Pasted text in many layouts, all invented: NAME.txt gives the scan NAME.json, and NAME.read says line by line what
// was understood. Those in layouts/ are of van.json; those in summaries/NETWORK/ of a network that comes with the
// program, by names as people cut them short: there `!` marks lines to look at again. With WHICHWIRE_UPDATE=1 in the
// environment both are written anew; read them before you keep them.
#include <algorithm>
#include <cstdlib>
#include <vector>

#include "scan/van.hpp"
#include "shipped.hpp"

using namespace whichwire;

namespace {

std::vector<std::filesystem::path> texts_in(const char* folder) {
  std::vector<std::filesystem::path> files;
  for (const auto& entry : std::filesystem::recursive_directory_iterator(test::scan_folder() / folder))
    if (entry.path().extension() == ".txt") files.push_back(entry.path());
  std::ranges::sort(files);
  return files;
}

std::vector<std::filesystem::path> layouts() { return texts_in("layouts"); }

std::filesystem::path beside(std::filesystem::path file, const char* ending) { return file.replace_extension(ending); }

std::string lines_in_words(const ScanResult& result) {
  std::string all;
  for (const LineRead& line : result.lines) {
    const bool again = line.doubt != LineDoubt::none && !line.understood.empty();
    all +=
        std::to_string(line.line) + (again ? " ! " : "  ") + (line.understood.empty() ? "?" : line.understood) + "\n";
  }
  return all;
}

void update(const std::filesystem::path& path, const std::string& text) {
  if (std::getenv("WHICHWIRE_UPDATE") != nullptr) std::ofstream(path, std::ios::binary) << text;
}

void check_layout(const std::filesystem::path& file, const Network& network) {
  CAPTURE(file.filename().string());
  const ScanResult result = read_pasted_scan(test::file_text(file), "scan", network);
  REQUIRE(result.mistakes.empty());
  REQUIRE(result.scan.has_value());
  update(beside(file, ".json"), json_of(*result.scan));
  update(beside(file, ".read"), lines_in_words(result));
  CHECK(lines_in_words(result) == test::file_text(beside(file, ".read")));
  CHECK(json_of(*result.scan) == test::file_text(beside(file, ".json")));
}

}  // namespace

TEST_CASE("every layout gives its scan, and says line by line what was understood") {
  const auto files = layouts();
  CHECK(files.size() >= 50);
  for (const auto& file : files) check_layout(file, test::van());
}

TEST_CASE("every summary of a shipped network gives its scan, and says what is taken by a part of a name") {
  const auto files = texts_in("summaries");
  CHECK(files.size() >= 20);
  for (const auto& file : files) check_layout(file, test::shipped(file.parent_path().filename().string()));
}

TEST_CASE("the scan of every layout is the same when it is read back from JSON") {
  for (const auto& file : layouts()) {
    CAPTURE(file.filename().string());
    const ScanResult pasted = read_pasted_scan(test::file_text(file), "scan", test::van());
    const ScanResult again = read_scan(test::file_text(beside(file, ".json")), "scan", &test::van());
    REQUIRE(pasted.scan.has_value());
    REQUIRE(again.scan.has_value());
    CHECK((*again.scan == *pasted.scan));
  }
}

TEST_CASE("no line of any layout is dropped: each has its number and its text") {
  for (const auto& file : layouts()) {
    CAPTURE(file.filename().string());
    const std::string text = test::file_text(file);
    const ScanResult result = read_pasted_scan(text, "scan", test::van());
    const auto ends = std::ranges::count(text, '\n') + (text.ends_with('\n') ? 0 : 1);
    REQUIRE(static_cast<std::ptrdiff_t>(result.lines.size()) == ends);
    for (std::size_t i = 0; i < result.lines.size(); ++i) REQUIRE(result.lines[i].line == i + 1);
  }
}

TEST_CASE("letter case, Windows line ends and blank lines between do not change what a layout says") {
  for (const char* name : {"plain_table", "paragraphs", "bullets", "status_bytes", "truck_lines", "not_fitted_lists"}) {
    CAPTURE(name);
    const std::string text = test::file_text(test::scan_folder() / "layouts" / (std::string(name) + ".txt"));
    const Scan plain = test::pasted(text);
    std::string windows;
    std::string shouted;
    for (const char c : text) {
      windows += c == '\n' ? "\r\n" : std::string(1, c);
      shouted += static_cast<char>(c >= 'a' && c <= 'z' ? c - 'a' + 'A' : c);
    }
    CHECK((test::pasted(windows) == plain));
    Scan loud = test::pasted(shouted);
    REQUIRE(loud.modules.size() == plain.modules.size());
    for (std::size_t i = 0; i < loud.modules.size(); ++i) {
      CHECK(loud.modules[i].module == plain.modules[i].module);
      CHECK(loud.modules[i].answer == plain.modules[i].answer);
      CHECK(loud.modules[i].codes.size() == plain.modules[i].codes.size());
    }
  }
}
