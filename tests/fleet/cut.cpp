// What is the unit's own is cut out of a scan, and nothing else; what is cut out never makes two scans alike that are
// not.
#include "fleet/cut.hpp"

#include <doctest/doctest.h>

#include <whichwire/scan.hpp>

#include "fleet/units.hpp"

using namespace whichwire;

namespace {

const std::string plain =
    R"({"format":"whichwire.scan.v1","unit":"V-1","taken":"2026-03-02","battery_volts":12.53,"modules":[{"module":"ECM","answer":"yes"}]})";

std::string with(const std::string& from, const std::string& to) {
  std::string text = plain;
  const std::size_t at = text.find(from);
  REQUIRE(at != std::string::npos);
  return text.replace(at, from.size(), to);
}

bool alike(const std::string& a, const std::string& b) {
  const auto cut_a = cut(a), cut_b = cut(b);
  return cut_a && cut_b && cut_a->rest == cut_b->rest;
}

}  // namespace

TEST_CASE("scans that differ in unit, time and hundredths of a volt are alike") {
  CHECK(cut(plain)->unit == "V-1");
  CHECK(alike(plain, with("V-1", "another unit, 2")));
  const std::string other = with("V-1", "another unit, 2");
  CHECK(cut(other)->unit == "another unit, 2");
  CHECK(alike(plain, with("2026-03-02", "yesterday")));
  CHECK(alike(plain, with("12.53", "12.5999")));
}

TEST_CASE("scans that differ in anything else are not alike") {
  CHECK(!alike(plain, with("12.53", "12.63")));
  CHECK(!alike(plain, with("12.53", "11.53")));
  CHECK(!alike(plain, with("yes", "no")));
  CHECK(!alike(plain, with("ECM", "ECU")));
  CHECK(!alike(plain, with("\"taken\":\"2026-03-02\",", "")));
  CHECK(!alike(plain, with("\"modules\"", "\"key\":\"run\",\"modules\"")));
}

TEST_CASE("a unit inside a module or a text is no unit") {
  const std::string in_module = with("\"answer\":\"yes\"", "\"answer\":\"yes\",\"unit\":\"inner\"");
  const auto nested = cut(in_module);
  CHECK(nested->unit == "V-1");
  CHECK(nested->rest.find("inner") != std::string::npos);
  const std::string in_text = with("\"ECM\"", R"("a \",\"unit\":\"inner\"")");
  const auto quoted = cut(in_text);
  CHECK(quoted->unit == "V-1");
  CHECK(quoted->rest.find("inner") != std::string::npos);
}

TEST_CASE("what is not plain is not cut but read") {
  CHECK(!cut(with("V-1", "V\\u002d1")));
  CHECK(!cut(with("V-1", "   ")));
  CHECK(!cut(with("V-1", "")));
  CHECK(!cut(with("V-1", std::string(201, 'x'))));
  CHECK(!cut(with("V-1", "V\x01")));
  CHECK(!cut(with("V-1", "Zürich")));
  CHECK(!cut(with("\"V-1\"", "7")));
  CHECK(!cut(with("12.53", "1e1")));
  CHECK(!cut(with("12.53", "61.5")));
  CHECK(!cut(with("12.53", "012.5")));
  CHECK(!cut(with("12.53", "12.")));
  CHECK(!cut(with("\"modules\"", "/* \"unit\":\"x\" */\"modules\"")));
  CHECK(!cut(with("12.53", "\x02")));
  CHECK(!cut(plain.substr(0, plain.size() - 1)));
  CHECK(!cut(""));
  CHECK(!cut("[1]"));
}

TEST_CASE("whatever byte is changed: a text that is alike a good one is read without mistakes, and to the same") {
  const Network network = test::shipped("compact-car");
  const std::string good = test::unit_line(network, "V-17", {"dead ABS"});
  const auto rest = cut(good)->rest;
  const Scan scan = *read_scan(good, "good", &network).scan;
  std::size_t alike_count = 0;
  const std::string bytes = "\x01\x02\"\\{}[],:/ 0a\x7f\xc3";
  for (std::size_t at = 0; at < good.size(); ++at) {
    for (const char byte : bytes) {
      std::string changed = good;
      changed[at] = byte;
      const auto its = cut(changed);
      if (!its || its->rest != rest) continue;
      ++alike_count;
      CAPTURE(changed);
      ScanResult read = read_scan(changed, "good", &network);
      REQUIRE(read.scan.has_value());
      CHECK(read.scan->unit == its->unit);
      read.scan->unit = scan.unit;
      read.scan->battery_volts = scan.battery_volts;
      CHECK((*read.scan == scan));
    }
  }
  CHECK(alike_count > 20);
}
