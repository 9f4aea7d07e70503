// The walker itself, on shapes of its own; the shape of networks is tested in tests/network/schema.
#include "network/shape.hpp"

#include <doctest/doctest.h>

using namespace whichwire;
using json::Shape;
using Kind = json::Shape::Kind;

namespace {

std::string said(std::string_view text, const Shape& shape, json::Extent extent = json::Extent::whole) {
  json::Complaints complaints;
  const auto value = json::parse(text, 0, complaints);
  REQUIRE(value);
  json::check_shape(*value, shape, {}, extent, complaints);
  std::string all;
  for (const Mistake& mistake : complaints.mistakes({{"f", text}})) all += mistake.path + ": " + mistake.message + "\n";
  return all;
}

constexpr Shape name{.kind = Kind::text, .most = 3};
constexpr Shape share{.kind = Kind::number, .low = 0, .high = 1, .above_low = true};
constexpr std::string_view keys[] = {"a", "b"};
constexpr json::Field fields[] = {{"a", &name, true}, {"b", &share}, {"c", &name, true, true}};
constexpr Shape record{.kind = Kind::record, .fields = fields};
constexpr Shape map{.kind = Kind::map, .least = 1, .most = 2, .each = &record, .key = &name};
constexpr Shape names{.kind = Kind::list, .least = 2, .most = 3, .unique = true, .each = &name};
constexpr Shape either{.kind = Kind::record, .fields = fields, .one_of = keys};

}  // namespace

TEST_CASE("a value above an open limit and at a closed one is in range") {
  CHECK(said("1", share) == "");
  CHECK(said("0.001", share) == "");
  CHECK(said("0", share) == ": 0 is out of range; above 0 and at most 1 is possible here\n");
  CHECK(said("1.001", share) == ": 1.001 is out of range; above 0 and at most 1 is possible here\n");
}

TEST_CASE("characters are counted, not bytes") {
  CHECK(said("\"äöü\"", name) == "");
  CHECK(said("\"äöüß\"", name) == ": this text has 4 characters; at most 3 are read\n");
}

TEST_CASE("a list says how few, how many and what stands twice") {
  CHECK(said("[\"a\", \"b\"]", names) == "");
  CHECK(said("[\"a\"]", names) == ": at least 2 entries are expected here\n");
  CHECK(said("[\"a\", \"b\", \"a\"]", names) == "[2]: `a` stands twice in this list\n");
  CHECK(said("[\"a\", \"b\", \"c\", \"d\"]", names) == ": there are 4 entries here; at most 3 are read\n");
}

TEST_CASE("a difference may leave keys out, but for those that are always there") {
  CHECK(said("{\"x\": {\"c\": \"1\"}}", map) == "x: the key `a` is missing\n");
  CHECK(said("{\"x\": {\"c\": \"1\"}}", map, json::Extent::difference) == "");
  CHECK(said("{\"x\": {}}", map, json::Extent::difference) == "x: the key `c` is missing\n");
  CHECK(said("{}", map) == ": at least one entry is expected here\n");
  CHECK(said("{}", map, json::Extent::difference) == "");
}

TEST_CASE("exactly one of several keys means not none and not two") {
  CHECK(said("{\"a\": \"1\", \"c\": \"1\"}", either) == "");
  CHECK(said("{\"a\": \"1\", \"b\": 1, \"c\": \"1\"}", either) ==
        ": exactly one of the keys `a` and `b` is expected here, not 2\n");
  CHECK(said("{\"c\": \"1\"}", either, json::Extent::difference) == "");
}

TEST_CASE("keys of a map have a shape too") {
  CHECK(said("{\"long\": {\"a\": \"1\", \"c\": \"1\"}}", map) ==
        "long: this text has 4 characters; at most 3 are read\n");
}
