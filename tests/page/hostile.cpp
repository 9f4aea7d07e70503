// Texts that would do harm, in every field of every format, into every output: nothing of them is taken for anything
// but text. The judges are Python's readers of XML and JSON, html5lib and CommonMark's own program.
#include <doctest/doctest.h>

#include <filesystem>
#include <set>
#include <whichwire/mistake.hpp>

#include "effort.hpp"
#include "judging.hpp"

using namespace whichwire::test;
using nlohmann::json;

namespace {

std::string with_escapes(const std::string& text) {
  const std::string quoted = json(text).dump();
  return quoted.substr(1, quoted.size() - 2);
}

/// As it stands in a file: escaped where it is text at all.
std::string as_in_file(const std::string& text) { return has(hostile_texts(), text) ? with_escapes(text) : text; }

/// What of it an id may hold.
std::string as_id(std::string text) {
  std::erase_if(text, [](char letter) { return letter == ' ' || letter == '/' || letter == ':'; });
  return text.substr(0, 40);
}

/// The file of every-field/, with what `field` and `id` give in place of each mark. Both are told its number, from 1;
/// `id` also the letters that tell this id from others.
template <class Field, class Id>
std::string filled(const std::string& file, const Field& field, const Id& id) {
  std::string all = read_text(WHICHWIRE_SOURCE_DIR "/tests/page/every-field/" + file);
  std::size_t number = 0;
  for (std::size_t at = all.find('@'); at != std::string::npos; at = all.find('@', at)) {
    const std::size_t end = all.find('@', at + 1);
    const std::string mark = all.substr(at + 1, end - at - 1);
    std::string instead = "@" + mark + "@";
    if (mark == "T") instead = field(++number);
    if (mark.starts_with("I-")) instead = id(++number, mark.substr(2));
    all.replace(at, end - at + 1, instead);
    at += instead.size();
  }
  return all;
}

/// With the text in every field: after each a number, so that no two are the same.
std::string filled(const std::string& file, const std::string& text) {
  return filled(
      file, [&](std::size_t number) { return with_escapes(text + std::to_string(number)); },
      [&](std::size_t, const std::string& own) { return with_escapes(as_id(text) + own); });
}

/// With the text, as it stands in JSON, in this one field only.
std::string filled_once(const std::string& file, const std::string& text, std::size_t only) {
  const auto here = [&](std::size_t number) { return number == only ? text : ""; };
  return filled(
      file, [&](std::size_t number) { return here(number) + std::to_string(number); },
      [&](std::size_t number, const std::string& own) { return here(number) + own; });
}

std::size_t fields_of(const std::string& file) {
  std::size_t fields = 0;
  filled(
      file, [&](std::size_t number) { return std::to_string(fields = number); },
      [&](std::size_t number, const std::string& own) { return fields = number, own; });
  return fields;
}

std::string on_one_line(std::string text) {
  std::erase(text, '\n');
  return text;
}

void put(std::string& all, const std::string& mark, const std::string& instead) {
  for (std::size_t at = all.find(mark); at != std::string::npos; at = all.find(mark, at + instead.size()))
    all.replace(at, mark.size(), instead);
}

/// The case whose network and scans are these.
std::string job_with(std::string job, const std::string& network, const std::string& scan) {
  put(job, "\"@NETWORK@\"", on_one_line(network));
  put(job, "\"@SCAN@\"", on_one_line(scan));
  return job;
}

/// Files with the text in every field, and a pasted summary made of it.
void write_inputs(const std::string& folder, const std::string& text) {
  const std::string network = filled("network.json", text), scan = filled("scan.json", text);
  write_text(folder + "/<i>network.json", network);
  write_text(folder + "/scan.json", scan);
  write_text(folder + "/job.jsonl", job_with(filled("case.jsonl", text), network, scan));
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
    {"fleet.txt", "fleet N S"},
    {"fleet.json", "fleet N S --as json"},
    {"fleet.csv", "fleet N S --as csv"},
    {"fleet.html", "fleet N S --html"},
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

/// Characters that no field may hold: as escapes where JSON has such, and as they are.
std::vector<std::string> refused_in_json() {
  std::vector<std::string> all;
  for (const std::string& text : hostile_bytes()) {
    if (has(hostile_texts(), text) || text.find("\ufffe") != std::string::npos) continue;
    all.push_back(text);
    if (text.find('\xff') == std::string::npos) all.push_back(with_escapes(text));
  }
  return all;
}

/// One file for each field of a format, with the text in that field.
std::string write_each_field(const std::string& text) {
  std::string names;
  const std::string network = filled("network.json", ""), scan = filled("scan.json", "");
  for (const std::string file : {"network.json", "scan.json", "case.jsonl"}) {
    for (std::size_t only = fields_of(file); only > 0; --only) {
      const std::string name = scratch() + "/" + std::to_string(only) + file;
      write_text(name, job_with(filled_once(file, text, only), network, scan));
      names += " " + name;
    }
  }
  return names;
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

TEST_CASE(
    "a control or turning character in any one field of a file is refused at its place, in words that can be shown" *
    doctest::skip(only_few())) {
  const std::string folder = scratch() + "/refused";
  std::filesystem::create_directory(folder);
  const std::vector<std::string> texts = refused_in_json();
  for (const std::string& text : texts) {
    CAPTURE(whichwire::printable(text));
    const Run said = run("whichwire check --json" + write_each_field(text));
    CHECK(said.status == 2);
    const json files = json::parse(said.out)["files"];
    CHECK(files.size() > 150);
    for (const json& file : files) {
      CAPTURE(file["file"]);
      CHECK((!file["mistakes"].empty() && file["mistakes"][0]["line"] > 0));
    }
    write_text(folder + "/" + std::to_string(&text - texts.data()) + ".json", said.out);
  }
  const json found = json::parse(run(WHICHWIRE_PYTHON " tests/page/judge.py " + folder).out);
  CHECK(found["judged"] == texts.size());
  CHECK(found["complaints"].dump() == "{}");
}

TEST_CASE("bytes that no file may hold are refused in words that can be shown" * doctest::skip(only_few())) {
  std::vector<std::string> texts = hostile_bytes();
  texts.erase(texts.begin(), texts.begin() + static_cast<std::ptrdiff_t>(hostile_texts().size()));
  const std::string folder = scratch() + "/said";
  std::filesystem::create_directory(folder);
  std::size_t count = 0;
  for (const std::string& text : texts) {
    const std::string network = scratch() + "/bytes.json", pasted = scratch() + "/bytes.txt";
    std::string in_json = R"({"format": "@", "extends": "@", "@": {}})", in_lines = "ECM no reply @\n@\n";
    put(in_json, "@", text);
    put(in_lines, "@", text);
    write_text(network, in_json);
    write_text(pasted, in_lines);
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

TEST_CASE("a text in a list of removals, and as the name of the base, is refused in words that can be shown" *
          doctest::skip(only_few())) {
  const std::string folder = scratch() + "/trims", base = scratch() + "/base.json", trim = scratch() + "/trim.json";
  std::filesystem::create_directory(folder);
  write_text(base, read_text(WHICHWIRE_SOURCE_DIR "/topologies/template-one-bus.json"));
  std::size_t count = 0;
  for (const std::string& text : hostile_bytes()) {
    const std::string removing = R"("extends": "base.json", "remove": [")";
    for (const std::string& rest :
         {removing + as_in_file(text) + R"("])", removing + "modules." + as_in_file(text) + R"("])",
          R"("extends": ")" + as_in_file(text) + R"(")"}) {
      write_text(trim, R"({"format": "whichwire.network.v1", )" + rest + "}");
      for (const Run& said : {run("whichwire check " + trim), run("whichwire check --json " + trim)}) {
        CHECK(said.status == 2);
        const std::string name = folder + "/" + std::to_string(++count);
        write_text(name + ".err.txt", said.err);
        write_text(name + (said.out.starts_with("{") ? ".json" : ".txt"), said.out);
      }
    }
  }
  const json found = json::parse(run(WHICHWIRE_PYTHON " tests/page/judge.py " + folder).out);
  CHECK(found["judged"] == 2 * count);
  CHECK(found["complaints"].dump() == "{}");
}
