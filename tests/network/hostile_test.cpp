// Texts made to hurt: each is refused within a second and without much memory, and nothing raw is printed.
#include <sys/resource.h>

#include <ctime>

#include "network/reading.hpp"

using namespace whichwire;

namespace {

constexpr double most_seconds = 1.0 * WHICHWIRE_SLOWER;

/// What is said about the text; fails when that takes a second, or shows a control character.
std::string quickly_said(const std::string& text) {
  const std::clock_t start = std::clock();  // the process's own time: other work on the machine does not count
  const NetworkResult result = read_network(text, "hostile");
  const double seconds = static_cast<double>(std::clock() - start) / CLOCKS_PER_SEC;
  CHECK(seconds < most_seconds);
  CHECK_FALSE(result.network);
  CHECK(result.mistakes.size() <= 201);
  std::string all;
  for (const Mistake& mistake : result.mistakes) all += text_of(mistake);
  for (const char letter : all) {
    if (letter != '\n' && (static_cast<unsigned char>(letter) < 0x20 || letter == 0x7f))
      FAIL("a control character is printed");
  }
  CHECK(all.size() < 201 * 1000);
  return all;
}

std::string repeated(std::string_view piece, std::size_t count) {
  std::string all;
  all.reserve(piece.size() * count);
  for (std::size_t i = 0; i < count; ++i) all += piece;
  return all;
}

std::string numbered(std::string_view before, std::string_view after, std::size_t count) {
  std::string all;
  for (std::size_t i = 0; i < count; ++i)
    all += (i > 0 ? "," : "") + std::string(before) + std::to_string(i) + std::string(after);
  return all;
}

}  // namespace

TEST_CASE("100 MB of brackets are refused for their size, and 4 MB for their depth") {
  CHECK(quickly_said(std::string(100'000'000, '[')) ==
        "hostile: the text is larger than 4194304 bytes; it is too large to read\n");
  CHECK(
      quickly_said(std::string(4'000'000, '[')).starts_with("hostile:1:65: brackets are nested deeper than 64 levels"));
  CHECK(quickly_said(repeated("{\"a\":", 800'000))
            .starts_with("hostile:1:321: brackets are nested deeper than 64 levels"));
}

TEST_CASE("a million modules are refused, for their bytes or for their number") {
  const std::string long_ids = test::network_text("\"modules\": {" + numbered("\"M", "\":{}", 1'000'000) + "}");
  CHECK(quickly_said(long_ids).find("it is too large to read") != std::string::npos);
  const std::string short_ids = test::network_text("\"modules\": {" + numbered("\"", "\":{}", 300'000) + "}");
  CHECK(quickly_said(short_ids).find("there are more than 100000 values in this text") != std::string::npos);
}

TEST_CASE("modules by the ten thousand are refused before anything is asked of them") {
  const std::string text = test::network_text("\"modules\": {" + numbered("\"M", "\":{}", 90'000) +
                                              "}, \"buses\": {\"B\": {\"protocol\": \"lin\", \"members\": [\"M1\"]}}");
  CHECK(quickly_said(text).find("there are 90000 entries here; at most 1000 are read") != std::string::npos);
}

TEST_CASE("an id of a megabyte is refused and not repeated") {
  const std::string id(1'000'000, 'M');
  const std::string said = quickly_said(test::network_text("\"modules\": {\"" + id + "\": {}}"));
  CHECK(said.find("this text is 1000000 bytes long; at most 65536 are read") != std::string::npos);
  CHECK(said.size() < 1000);
}

TEST_CASE("ids just short enough to be read, by the dozen, are cut in messages") {
  std::string modules;
  for (int i = 0; i < 200; ++i)
    modules += (i > 0 ? ", \"" : "\"") + std::string(60'000, 'M') + std::to_string(i) + "\": {\"nmae\": 1}";
  CHECK(quickly_said(test::network_text("\"modules\": {" + modules + "}")).size() < 300'000);
}

TEST_CASE("names with terminal escapes are refused, and shown harmless") {
  const std::string said = quickly_said(test::network_text(
      R"("modules": {"A": {"name": "\u001b]0;owned\u0007"}, "\u001b[2J": {}}, "buses": {"B": {"protocol": "lin", "members": ["A"]}})"));
  CHECK(said.find("`\\x1b` does not belong in a text") != std::string::npos);
  CHECK(quickly_said("{\"note\": \"\x1b[31m\"}").find("the control character `\\x1b`") != std::string::npos);
}

TEST_CASE("bytes that are not UTF-8 are named, a megabyte of them once") {
  CHECK(quickly_said(std::string(1'000'000, '\xff')).starts_with("hostile: the text is UTF-16") == false);
  CHECK(quickly_said("\"" + std::string(1'000'000, '\xc3')).starts_with("hostile:1:2: the byte `\\xc3` is not UTF-8"));
}

TEST_CASE("mistakes without number are counted, and the first 200 listed") {
  const std::string text = test::network_text("\"modules\": {\"A\": {" + numbered("\"k", "\":0", 90'000) + "}}");
  CHECK(quickly_said(text).find("more mistakes, which are not listed") != std::string::npos);
}

TEST_CASE("the same key ten thousands of times over is told as one kind of mistake, quickly") {
  const std::string said = quickly_said("{" + repeated("\"a\": 0,\n", 90'000) + "\"b\": 0}");
  CHECK(said.find("the key `a` stands twice in one object (the first is in line 1)") != std::string::npos);
  CHECK(said.find("more mistakes, which are not listed") != std::string::npos);
}

TEST_CASE("keys that differ only at their far ends, and lists of equal texts, take no longer") {
  std::string keys;
  for (int i = 0; i < 250; ++i)
    keys += (i > 0 ? ", \"" : "\"") + std::string(60'000, 'k') + std::to_string(i) + "\": 0";
  quickly_said("{" + keys + "}");
  quickly_said(test::network_text("\"modules\": {\"A\": {\"aliases\": [" + numbered("\"x", "\"", 90'000) + "]}}"));
}

TEST_CASE("four megabytes of line ends, of one line, of comments, of one token are read in time") {
  const std::size_t most = 4'194'000;
  quickly_said(repeated("\n", most) + "x");
  quickly_said(repeated("\t// remark\n", most / 11) + "x");
  quickly_said("{\"a\": 1 /*" + repeated("\n", most));
  quickly_said("{" + repeated(" ", most) + "\"a\": 1, \"a\": 2, \"a\": 3}");
  quickly_said(repeated("/**/", most / 4) + "[");
  quickly_said(repeated("/", most));
  quickly_said(std::string(most, '"'));
  quickly_said("\"" + repeated("\\", most));
  quickly_said("\"" + repeated("\\n", most / 2));
  quickly_said(repeated("[],", most / 3));
  quickly_said("[" + repeated("9", most));
  quickly_said("[" + repeated(",\n", most / 2));
}

TEST_CASE("a feed chain, a comb and a clique as large as allowed are judged in time") {
  std::string feeds = "\"F0\": {}";
  for (int i = 1; i < 2000; ++i)
    feeds += ", \"F" + std::to_string(i) + "\": {\"from\": \"F" + std::to_string(i - 1) + "\"}";
  std::string members;
  for (int i = 0; i < 1000; ++i) members += (i > 0 ? ", \"M" : "\"M") + std::to_string(i) + "\"";
  std::string buses;
  for (int i = 0; i < 200; ++i)
    buses += (i > 0 ? ", \"B" : "\"B") + std::to_string(i) + "\": {\"protocol\": \"can-hs\", \"members\": [" + members +
             "]}";
  quickly_said(test::network_text("\"modules\": {" + numbered("\"M", "\": {}", 1000) + ", \"LOST\": {}}, \"buses\": {" +
                                  buses + "}, \"feeds\": {" + feeds + "}"));
}

TEST_CASE("all of this stays below 256 mebibytes of memory, the largest text among them") {
  rusage use{};
  REQUIRE(getrusage(RUSAGE_SELF, &use) == 0);
  CHECK(use.ru_maxrss < 256 * 1024 * WHICHWIRE_SLOWER);  // kibibytes
}
