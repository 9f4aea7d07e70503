// Texts that would do harm, in every field of every format, into every output: nothing of them is taken for anything
// but text. The judges are Python's readers of XML and JSON, html5lib and CommonMark's own program.
#include <doctest/doctest.h>

#include <filesystem>
#include <set>

#include "effort.hpp"
#include "judging.hpp"

using namespace whichwire::test;
using nlohmann::json;

namespace {

std::string with_escapes(const std::string& text) {
  const std::string quoted = json(text).dump();
  return quoted.substr(1, quoted.size() - 2);
}

/// What of it an id may hold.
std::string as_id(std::string text) {
  std::erase_if(text, [](char letter) { return letter == ' ' || letter == '/' || letter == ':'; });
  return text.substr(0, 40);
}

/// The file of every-field/ with the text in place of each mark: after each text a number, so that no two are the same.
std::string filled(const std::string& file, const std::string& text) {
  std::string all = read_text(WHICHWIRE_SOURCE_DIR "/tests/page/every-field/" + file);
  std::size_t number = 0;
  for (std::size_t at = all.find('@'); at != std::string::npos; at = all.find('@', at)) {
    const std::size_t end = all.find('@', at + 1);
    const std::string mark = all.substr(at + 1, end - at - 1);
    std::string instead = "@" + mark + "@";
    if (mark == "T") instead = with_escapes(text + std::to_string(++number));
    if (mark.starts_with("I-")) instead = with_escapes(as_id(text) + mark.substr(2));
    all.replace(at, end - at + 1, instead);
    at += instead.size();
  }
  return all;
}

std::string on_one_line(std::string text) {
  std::erase(text, '\n');
  return text;
}

void put(std::string& all, const std::string& mark, const std::string& instead) {
  for (std::size_t at = all.find(mark); at != std::string::npos; at = all.find(mark, at + instead.size()))
    all.replace(at, mark.size(), instead);
}

/// Files with the text in every field, and a pasted summary made of it.
void write_inputs(const std::string& folder, const std::string& text) {
  const std::string network = filled("network.json", text), scan = filled("scan.json", text);
  std::string job = filled("case.jsonl", text);
  put(job, "\"@NETWORK@\"", on_one_line(network));
  put(job, "\"@SCAN@\"", on_one_line(scan));
  write_text(folder + "/<i>network.json", network);
  write_text(folder + "/scan.json", scan);
  write_text(folder + "/job.jsonl", job);
  write_text(folder + "/pasted.txt", "read out\nengine control no reply\n" + as_id(text) + "ECM no reply\n" + text +
                                         "\n" + as_id(text) + "TCM ok " + text + "\nunit: " + text + "\n");
}

struct Output {
  const char* file;
  const char* command;  ///< N, S, P, J, F: network, scan, pasted scan, case, a fault
};
constexpr Output outputs[] = {
    {"locate.txt", "locate N S --lines"},
    {"locate.json", "locate N S --json"},
    {"locate.html", "locate N S --html"},
    {"pasted.txt", "locate N P --lines"},
    {"pasted.json", "locate N P --json"},
    {"pasted.html", "locate N P --lines --html"},
    {"draw.svg", "draw N --feeds"},
    {"scan.svg", "draw N --feeds --scan S"},
    {"predict.txt", "predict N --fault F"},
    {"predict.json", "predict N --json"},
    {"expected.json", "predict N --scan-out -"},
    {"compare.txt", "compare N topologies/template-one-bus.json --all --scan S"},
    {"compare.json", "compare topologies/template-one-bus.json N --json --scan S"},
    {"compare.svg", "compare N topologies/template-one-bus.json --svg"},
    {"blind.txt", "blindspots N --all"},
    {"blind.json", "blindspots N --json"},
    {"check.txt", "check N S J"},
    {"check.json", "check N S J --json"},
    {"status.txt", "case status J"},
    {"status.json", "case status J --json"},
    {"next.txt", "case next J"},
    {"next.json", "case next J --json"},
    {"report.txt", "case report J"},
    {"report.md", "case report J --markdown"},
    {"report.html", "case report J --html"},
    {"customer.txt", "case report J --for customer"},
    {"customer.md", "case report J --for customer --markdown"},
    {"customer.html", "case report J --for customer --html"},
};

std::string in_shell(std::string word) {
  put(word, "'", "'\\''");
  return "'" + word + "'";
}

std::string spelled(const std::string& command, const std::string& inputs, const std::string& text) {
  std::string all = " " + command + " ";
  put(all, " N ", " '" + inputs + "/<i>network.json' ");
  put(all, " S ", " " + inputs + "/scan.json ");
  put(all, " P ", " " + inputs + "/pasted.txt ");
  put(all, " F ", " " + in_shell("dead " + as_id(text) + "ECM") + " ");
  put(all, " J ", " " + inputs + "/job.jsonl ");
  return "whichwire" + all;
}

/// All property names in a schema.
void add_keys(const json& schema, std::set<std::string>& keys) {
  if (schema.is_object() && schema.contains("properties"))
    for (const auto& property : schema["properties"].items()) keys.insert(property.key());
  if (schema.is_structured())
    for (const json& inside : schema) add_keys(inside, keys);
}

}  // namespace

TEST_CASE("the files of every field hold every key of the formats") {
  for (const std::string format : {"network", "scan", "case"}) {
    const std::string file =
        read_text(WHICHWIRE_SOURCE_DIR "/tests/page/every-field/" + format + (format == "case" ? ".jsonl" : ".json"));
    std::set<std::string> keys;
    add_keys(json::parse(read_text(WHICHWIRE_SOURCE_DIR "/topologies/" + format + ".schema.json")), keys);
    CHECK(keys.size() > 15);
    for (const std::string& key : keys) {
      CAPTURE(key);
      const bool of_a_base = key == "extends" || key == "remove";
      CHECK((of_a_base || file.find("\"" + key + "\"") != std::string::npos));
    }
  }
}

TEST_CASE("a text in every field of every format does no harm in any output, and comes through" *
          doctest::skip(only_few())) {
  for (const std::string& text : some_of(hostile_texts())) {
    CAPTURE(text);
    const std::string inputs = scratch() + "/given", made = scratch() + "/made";
    for (const std::string& folder : {inputs, made}) {
      std::filesystem::remove_all(folder);
      std::filesystem::create_directory(folder);
    }
    write_inputs(inputs, text);
    for (const Output& output : outputs) {
      CAPTURE(std::string(output.file));
      const Run done = run(spelled(output.command, inputs, text));
      CHECK(done.err == "");
      CHECK(done.status == 0);
      write_text(made + "/" + output.file, done.out);
    }
    const Run judged = run(WHICHWIRE_PYTHON " tests/page/judge.py " + made);
    REQUIRE(judged.err == "");
    const json found = json::parse(judged.out);
    CHECK(found["judged"] == std::size(outputs));
    CHECK(found["complaints"].dump() == "{}");
    const json page = read_pages({read_text(made + "/locate.html")})[0];
    CHECK(page["text"].get<std::string>().find(text) != std::string::npos);
    CHECK(read_text(made + "/report.txt").find(as_id(text) + "ECM") != std::string::npos);
  }
}

TEST_CASE("bytes that no file may hold are refused in words that can be shown" * doctest::skip(only_few())) {
  std::vector<std::string> texts = hostile_bytes();
  texts.erase(texts.begin(), texts.begin() + static_cast<std::ptrdiff_t>(hostile_texts().size()));
  const std::string folder = scratch() + "/said";
  std::filesystem::create_directory(folder);
  std::size_t count = 0;
  for (const std::string& text : texts) {
    const std::string network = scratch() + "/bytes.json", pasted = scratch() + "/bytes.txt";
    write_text(network, "{\"format\": \"" + text + "\", \"" + text + "\": {}}");
    write_text(pasted, "ECM no reply " + text + "\n" + text + "\n");
    const std::string locate = "whichwire locate topologies/template-one-bus.json " + pasted;
    for (const Run& said : {run("whichwire check " + network), run("whichwire check --json " + network),
                            run(locate + " --lines"), run(locate + " --json"), run(locate + " --html --lines"),
                            run("whichwire codes '" + text.substr(0, text.find('\0')) + "'")}) {
      CHECK(said.status != 3);
      const std::string name = folder + "/" + std::to_string(++count);
      write_text(name + ".err.txt", said.err);
      const bool html = said.out.starts_with("<!DOCTYPE");
      write_text(name + (html ? ".html" : said.out.starts_with("{") ? ".json" : ".txt"), said.out);
    }
  }
  const json found = json::parse(run(WHICHWIRE_PYTHON " tests/page/judge.py " + folder).out);
  CHECK(found["judged"] == 2 * count);
  CHECK(found["complaints"].dump() == "{}");
}

TEST_CASE("a text in every column of a table of rates does no harm, taken or refused" * doctest::skip(only_few())) {
  const std::string folder = scratch() + "/rates", file = scratch() + "/rates.csv";
  std::filesystem::create_directory(folder);
  std::size_t count = 0, refused = 0;
  for (const std::string& text : hostile_bytes()) {
    for (std::size_t column = 0; column < 3; ++column) {
      std::vector<std::string> row = {"open.segment.high", "0.002", "common practice"};
      row[column] = text;
      write_text(file, "what,odds,source\n" + row[0] + "," + row[1] + "," + row[2] + "\n");
      const Run said =
          run("whichwire locate topologies/template-one-bus.json --html --rates " + file, "ECM no reply\n");
      CHECK(said.status != 3);
      refused += said.status == 2 ? 1 : 0;
      const std::string name = folder + "/" + std::to_string(++count);
      write_text(name + ".err.txt", said.err);
      write_text(name + (said.out.empty() ? ".txt" : ".html"), said.out);
    }
  }
  CHECK(refused > count / 2);
  CHECK(refused < count);  // a source may be any text
  const json found = json::parse(run(WHICHWIRE_PYTHON " tests/page/judge.py " + folder).out);
  CHECK(found["judged"] == 2 * count);
  CHECK(found["complaints"].dump() == "{}");
}
