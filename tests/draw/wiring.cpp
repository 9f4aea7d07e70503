#include "draw/wiring.hpp"

#include <doctest/doctest.h>

#include "building.hpp"

using namespace whichwire;
using namespace whichwire::draw;

namespace {

/// ECM - S1 - S2 - IPC with ABS at S1 and BCM - RAD at S2. All invented.
test::Building trunk() {
  test::Building made;
  for (const char* id : {"ECM", "ABS", "BCM", "RAD", "IPC"}) made.module(id);
  made.bus("CAN", Protocol::can_hs);
  made.segment("CAN", "C1", "ECM", "S1");
  made.segment("CAN", "C2", "S1", "ABS");
  made.segment("CAN", "C3", "S1", "S2");
  made.segment("CAN", "C4", "S2", "BCM");
  made.segment("CAN", "C5", "BCM", "RAD");
  made.segment("CAN", "C6", "S2", "IPC");
  return made;
}

std::string ids(const Network& network, const std::vector<const Node*>& way) {
  std::string text;
  for (const Node* node : way) text += id_of(network, node->end) + " ";
  return text;
}

}  // namespace

TEST_CASE("the main line runs from terminator to terminator") {
  test::Building made = trunk();
  made.terminator("CAN", "ECM");
  made.terminator("CAN", "IPC");
  const Bus& bus = made.network.buses[0];
  const Node tree = tree_from(bus, beginning_of(bus, nullptr));
  CHECK(ids(made.network, longest_way(bus, tree)) == "ECM S1 S2 IPC ");
}

TEST_CASE("without terminators it is the longest way") {
  const test::Building made = trunk();
  const Bus& bus = made.network.buses[0];
  const Node tree = tree_from(bus, beginning_of(bus, nullptr));
  const std::string way = ids(made.network, longest_way(bus, tree));
  CHECK((way == "ECM S1 S2 BCM RAD " || way == "RAD BCM S2 S1 ECM " || way == "RAD BCM S2 S1 ABS "));
}

TEST_CASE("it begins where it is wished to, unless it has two ends of its own and passes by") {
  test::Building made = trunk();
  const End abs = made.end("ABS");
  CHECK(beginning_of(made.network.buses[0], &abs) == abs);
  made.terminator("CAN", "ECM");
  made.terminator("CAN", "IPC");
  CHECK(beginning_of(made.network.buses[0], &abs) == made.end("ECM"));
}

TEST_CASE("a loop is cut once: every segment is in the tree, the closing one leads to a second place of its end") {
  test::Building made = trunk();
  made.segment("CAN", "C7", "IPC", "ECM");
  const Bus& bus = made.network.buses[0];
  const Node tree = tree_from(bus, made.end("ECM"));
  std::size_t segments = 0, again = 0;
  const auto count = [&](const auto& self, const Node& node) -> void {
    for (const Node& child : node.children) {
      ++segments;
      again += child.again ? 1 : 0;
      self(self, child);
    }
  };
  count(count, tree);
  CHECK(segments == 7);
  CHECK(again == 1);
}
