// A network that is small to write and large to think through.
#include <doctest/doctest.h>

#include <ctime>
#include <whichwire/network.hpp>
#include <whichwire/prediction.hpp>

using namespace whichwire;

namespace {

/// So many gateways that all join the same so many buses; the tester is at the first bus. Only `Way`, from there as
/// well, leads on to the bus of `Behind`.
Network crowded(std::size_t gateways) {
  std::string modules, buses, all, names, joins;
  for (std::size_t i = 0; i < gateways; ++i) {
    const std::string number = std::to_string(i), comma = i > 0 ? "," : "";
    names.append(comma).append("\"G").append(number).append("\"");
    joins.append(comma).append("\"B").append(number).append("\"");
  }
  for (std::size_t i = 0; i < gateways; ++i) {
    const std::string number = std::to_string(i);
    modules.append("\"G").append(number).append("\":{},");
    buses.append("\"B").append(number).append(R"(":{"protocol":"can-hs","members":[)").append(names);
    buses.append(i == 0 ? R"(,"Way"]},)" : "]},");
    all.append("\"G").append(number).append("\":{\"joins\":[").append(joins).append("]},");
  }
  const NetworkResult result = read_network(
      R"({"format":"whichwire.network.v1","modules":{)" + modules + R"("Behind":{},"Way":{}},"buses":{)" + buses +
          R"("far":{"protocol":"can-hs","members":["Behind","Way"]}},"gateways":{)" + all +
          R"("Way":{"joins":["B0","far"]}},"diagnostic_connector":{"buses":{"B0":{"high":"6","low":"14"}}}})",
      "crowded");
  REQUIRE(result.network);
  return *result.network;
}

}  // namespace

TEST_CASE("however many ways there are between gateways, they are followed in time, and the only one out is found") {
  const std::clock_t start = std::clock();
  for (const std::size_t gateways : {2U, 5U, 12U, 40U}) {
    CAPTURE(gateways);
    const Network network = crowded(gateways);
    const Effects effects(network);
    const std::size_t behind = index_of(network.modules, "Behind"), last = gateways - 1;
    const std::vector<Question> questions = {{Question::About::answers, behind},
                                             {Question::About::answers, last},
                                             {Question::About::hears, behind, last},
                                             {Question::About::hears, last, behind}};
    const auto under = [&](const char* words) {
      const FaultResult fault = parse_fault(network, words);
      REQUIRE(fault.fault);
      return effects.predict({&*fault.fault, 1}, questions, {});
    };
    using enum Level;
    CHECK(effects.predict({}, questions, {}) == std::vector<Level>{up, up, up, up});
    CHECK(under("dead Way") == std::vector<Level>{down, up, down, down});
    CHECK(under("dead G0") == std::vector<Level>{up, up, up, up});
  }
  CHECK(static_cast<double>(std::clock() - start) / CLOCKS_PER_SEC < 2);
}
