// Every limit that the manual page states is the code's own: what is just as large is taken, what is one larger is not.
#include <doctest/doctest.h>

#include <filesystem>
#include <functional>
#include <map>
#include <regex>
#include <whichwire/casefile.hpp>
#include <whichwire/fault.hpp>
#include <whichwire/findings.hpp>
#include <whichwire/planner.hpp>
#include <whichwire/reading.hpp>
#include <whichwire/scan.hpp>

#include "compare/fit.hpp"
#include "effects/routes.hpp"
#include "fleet/numbers.hpp"
#include "locate/search.hpp"
#include "planner/numbers.hpp"
#include "running.hpp"

using namespace whichwire;

namespace {

using Size = std::size_t;

/// What the page's table says: a row is what is limited, its figure, and perhaps a unit.
std::map<std::string, Size> stated() {
  const std::string page = test::read_text(WHICHWIRE_SOURCE_DIR "/cli/whichwire.1");
  const Size begin = page.find(".Sh LIMITS");
  const std::string section = page.substr(begin, page.find(".Sh", begin + 1) - begin);
  const std::regex row("\n\\.It (.*) Ta ([0-9 ]*[0-9])( [KM]iB)?(?=\n)");
  std::map<std::string, Size> all;
  for (std::sregex_iterator at(section.begin(), section.end(), row), end; at != end; ++at) {
    std::string digits = (*at)[2];
    std::erase(digits, ' ');
    const Size unit = (*at)[3] == " MiB" ? 1024 * 1024 : (*at)[3] == " KiB" ? 1024 : 1;
    CHECK(all.emplace((*at)[1], std::stoul(digits) * unit).second);
  }
  return all;
}

std::string repeated(Size count, const std::function<std::string(Size)>& piece) {
  std::string all;
  for (Size i = 0; i < count; ++i) all += (i > 0 ? "," : "") + piece(i);
  return all;
}

/// `"a0":INSIDES,"a1":INSIDES …` in braces.
std::string map_of(Size count, const std::string& insides, const std::string& id = "a") {
  return "{" + repeated(count, [&](Size i) { return "\"" + id + std::to_string(i) + "\":" + insides; }) + "}";
}

std::string said(const std::vector<Mistake>& mistakes) {
  std::string all;
  for (const Mistake& mistake : mistakes) all += mistake.message + "\n";
  return all;
}

std::string of_text(const std::string& text) { return said(read_network(text, "limits").mistakes); }

/// Of a network with one module and bus, and more.
std::string of_network(const std::string& more) {
  return of_text(R"({"format":"whichwire.network.v1",)" + more +
                 R"(,"modules":{"M":{}},"buses":{"B":{"protocol":"can-hs","members":["M"]}}})");
}

std::string of_scan(const std::string& modules, const std::string& more = "") {
  const std::string text = R"({"format":"whichwire.scan.v1",)" + more + "\"modules\":[" + modules + "]}";
  return said(read_scan(text, "limits", nullptr).mistakes);
}

std::string of_pasted(const std::string& text) {
  static const Network network = *load_network(WHICHWIRE_SOURCE_DIR "/topologies/compact-car.json").network;
  const ScanResult result = read_pasted_scan(text, "limits", network);
  if (!result.mistakes.empty()) return said(result.mistakes);
  return result.lines.front().understood.empty() ? "not placed" : "";
}

const std::string time_and_entry = R"({"at":"2026-03-02T09:14:00Z","entry":)";
const std::string start =
    time_and_entry +
    R"("start","format":"whichwire.case.v1","network_name":"n","network":{"format":"whichwire.network.v1","modules":{"M":{}},)"
    R"("buses":{"B":{"protocol":"can-hs","members":["M"]}}}})"
    "\n";

std::string of_case(const std::string& entries) { return said(read_case(start + entries, "limits").mistakes); }

std::string of_rates(const std::string& text) { return said(read_rates(text, "limits").mistakes); }

/// A chain of so many networks, each of which extends the next.
std::string of_chain(Size files) {
  const std::string folder = test::scratch() + "/chain";
  std::filesystem::create_directories(folder);
  const auto path = [&](Size i) { return folder + "/" + std::to_string(i) + ".json"; };
  for (Size i = 0; i + 1 < files; ++i)
    test::write_text(path(i), R"({"format":"whichwire.network.v1","extends":")" + std::to_string(i + 1) + ".json\"}");
  test::write_text(path(files - 1), R"({"format":"whichwire.network.v1","modules":{"M":{}},"buses":{"B":)"
                                    R"({"protocol":"can-hs","members":["M"]}}})");
  return said(load_network(path(0)).mistakes);
}

std::string of_file(Size bytes) {
  const std::string path = test::scratch() + "/any";
  test::write_text(path, "");
  std::filesystem::resize_file(path, bytes);
  return test::run("whichwire check " + path).out;
}

std::string filled(Size bytes, const std::string& begin) { return begin + std::string(bytes - begin.size(), ' '); }

/// What is refused, and the words that refuse it.
struct Limit {
  std::string refusal;
  std::function<std::string(Size)> said;
};

const std::string entries = "entries here; at most", characters = "characters; at most";

std::string name(Size n) { return "\"" + std::string(n, 'x') + "\""; }

std::string member(const std::string& key, const std::string& value) { return "\"" + key + "\":" + value; }

std::map<std::string, Limit> limits_of_networks() {
  return {
      {"text in JSON: bytes", {"too large to read", [](Size n) { return of_text(filled(n, "{}")); }}},
      {"text in JSON: brackets inside one another",
       {"nested deeper", [](Size n) { return of_text(std::string(n, '[') + std::string(n, ']')); }}},
      {"text in JSON: values",
       {"more than", [](Size n) { return of_text("[" + repeated(n - 1, [](Size) { return "1"; }) + "]"); }}},
      {"text in JSON: bytes of a key or text", {"bytes long; at most", [](Size n) { return of_text(name(n)); }}},
      {"network: files that extend one another", {"one too many", of_chain}},
      {"network: modules", {entries, [](Size n) { return of_text("{" + member("modules", map_of(n, "{}")) + "}"); }}},
      {"network: buses",
       {entries,
        [](Size n) {
          const std::string bus = R"({"protocol":"can-hs","members":["M"]})";
          return of_text(R"({"modules":{"M":{}},)" + member("buses", map_of(n, bus)) + "}");
        }}},
      {"network: segments of a bus",
       {entries,
        [](Size n) {
          const std::string segments = map_of(n, R"({"from":"M","to":"P"})");
          return of_text(R"({"modules":{"M":{}},"points":{"P":{"kind":"splice"}},)"
                         R"("buses":{"B":{"protocol":"can-hs","segments":)" +
                         segments + "}}}");
        }}},
      {"network: points",
       {entries, [](Size n) { return of_network(member("points", map_of(n, R"({"kind":"splice"})"))); }}},
      {"network: feeds", {entries, [](Size n) { return of_network(member("feeds", map_of(n, "{}"))); }}},
      {"network: grounds", {entries, [](Size n) { return of_network(member("grounds", map_of(n, "{}"))); }}},
      {"network: functions",
       {entries, [](Size n) { return of_network(member("functions", map_of(n, R"({"modules":["M"]})"))); }}},
      {"network: characters of an id",
       {characters, [](Size n) { return of_network(R"("grounds":{)" + name(n) + ":{}}"); }}},
      {"network: characters of a name",
       {characters, [](Size n) { return of_network(R"("grounds":{"G":{"where":)" + name(n) + "}}"); }}},
      {"network: characters of a note", {characters, [](Size n) { return of_network(member("note", name(n))); }}}};
}

std::map<std::string, Limit> limits_of_scans() {
  return {
      {"scan: modules",
       {entries,
        [](Size n) {
          return of_scan(
              repeated(n, [](Size i) { return R"({"answer":"yes","module":"m)" + std::to_string(i) + "\"}"; }));
        }}},
      {"scan: codes of a module",
       {entries,
        [](Size n) {
          const std::string codes = repeated(n, [](Size) { return R"({"code":"B1000"})"; });
          return of_scan(R"({"answer":"yes","module":"m","codes":[)" + codes + "]}");
        }}},
      {"scan: characters of a name", {characters, [](Size n) { return of_scan("", member("unit", name(n)) + ","); }}},
      {"scan: characters of a text",
       {characters, [](Size n) { return of_scan("", member("complaint", name(n)) + ","); }}},
      {"pasted text: bytes", {"bytes; at most", [](Size n) { return of_pasted(filled(n, "ECM no response\n")); }}},
      {"pasted text: bytes of a line",
       {"not placed", [](Size n) { return of_pasted(filled(n, "ECM no response") + "\nABS ok\n"); }}}};
}

std::map<std::string, Limit> limits_of_the_rest() {
  return {{"case: bytes",
           {"a case is at most", [](Size n) { return said(read_case(std::string(n, '\n'), "limits").mistakes); }}},
          {"case: entries",
           {"a case has at most",
            [](Size n) {
              std::string notes;
              for (Size i = 1; i < n; ++i) notes += time_and_entry + R"("note","text":"n"})" + "\n";
              return of_case(notes);
            }}},
          {"case: characters of a reading",
           {"a reading has at most", [](Size n) { return read_reading(std::string(n, '1')).error; }}},
          {"case: characters of a note",
           {characters, [](Size n) { return of_case(time_and_entry + R"("note","text":)" + name(n) + "}\n"); }}},
          {"rates: bytes",
           {"larger than",
            [](Size n) {
              std::string text;
              while (text.size() + 1000 < n) text += "#" + std::string(998, ' ') + "\n";
              return of_rates(filled(n, text));
            }}},
          {"rates: lines", {"lines", [](Size n) { return of_rates(std::string(n, '\n')); }}},
          {"rates: bytes of a line",
           {"this line is longer", [](Size n) { return of_rates("#" + std::string(n - 1, ' ')); }}},
          {"fleet: bytes of a scan",
           {"longer than|too large",
            [](Size n) { return test::run("whichwire fleet topologies --as ndjson", filled(n, "{}") + "\n").out; }}},
          {"any file: bytes", {"larger than 256 MiB", of_file}}};
}

std::map<std::string, Limit> limits() {
  auto all = limits_of_networks();
  all.merge(limits_of_scans());
  all.merge(limits_of_the_rest());
  return all;
}

Size mistakes_listed() {
  const std::string unknown = "{" + repeated(1000, [](Size i) { return "\"k" + std::to_string(i) + "\":1"; }) + "}";
  return read_network(R"({"format":"whichwire.network.v1","modules":)" + unknown + "}", "limits").mistakes.size() - 1;
}

std::map<std::string, Size> bounds_of_work() {
  const auto planner = [](const char* what) { return static_cast<Size>(number_of(default_planner_numbers(), what)); };
  return {{"search: units of work", search::Effort().most_work},
          {"case next, all faults weighed anew: units of work", search::Effort().most_work * planner("anew-effort")},
          {"search for the network that a scan fits: units of work", most_work_of_fit},
          {"search: explanations listed", LocateOptions().most_explanations},
          {"case next: sets of faults kept", planner("most-suspects")},
          {"case next: checks weighed", planner("most-tests")},
          {"routes of a message, the shortest first", most_routes},
          {"fleet: bytes remembered", static_cast<Size>(fleet_number("remembered-bytes"))},
          {"mistakes listed of a text", mistakes_listed()}};
}

}  // namespace

TEST_CASE("what is as large as the manual page allows is not refused for it, what is one larger is") {
  const auto figures = stated();
  for (const auto& row : limits()) {
    const std::string& what = row.first;
    const Limit& limit = row.second;
    CAPTURE(what);
    REQUIRE(figures.contains(what));
    const std::regex refusal(limit.refusal);
    const std::string at = limit.said(figures.at(what)), beyond = limit.said(figures.at(what) + 1);
    CAPTURE(at);
    CAPTURE(beyond);
    CHECK_FALSE(std::regex_search(at, refusal));
    CHECK(std::regex_search(beyond, refusal));
  }
}

TEST_CASE("work is bounded where the manual page says it is, and it states no limit that is not tested") {
  const auto figures = stated(), bounds = bounds_of_work();
  for (const auto& bound : bounds) {
    const std::string& what = bound.first;
    CAPTURE(what);
    REQUIRE(figures.contains(what));
    CHECK(figures.at(what) == bound.second);
  }
  CHECK(figures.size() == limits().size() + bounds.size());
}
