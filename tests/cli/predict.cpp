#include <doctest/doctest.h>

#include <nlohmann/json.hpp>

#include "running.hpp"

using namespace whichwire::test;

namespace {

const std::string predict_car = "whichwire predict topologies/compact-car.json ";

}  // namespace

TEST_CASE("a dead module is silent in the predicted scan and its partners miss it") {
  const Run asked = run(predict_car + "--fault 'dead ECM'");
  CHECK(asked.status == 0);
  CHECK(asked.err == "");
  CHECK(asked.out == golden(WHICHWIRE_SOURCE_DIR "/tests/cli/golden/predict.txt", asked.out));
  const auto json = nlohmann::json::parse(run(predict_car + "--fault 'dead ECM' --json").out);
  CHECK(json["format"] == "whichwire.prediction.v1");
  CHECK(json["answers"][0]["module"] == "ECM");
  CHECK(json["answers"][0]["level"] == "down");
}

TEST_CASE("the predicted scan can be written and located again") {
  const std::string scan = scratch() + "/scan.json";
  CHECK(run(predict_car + "--fault 'open F1' --scan-out " + scan).status == 0);
  CHECK(read_text(scan) == run(predict_car + "--fault 'open F1' --scan-out -").out);
  CHECK(run("whichwire check " + scan + " --network topologies/compact-car.json").status == 0);
  const auto found = nlohmann::json::parse(run("whichwire locate topologies/compact-car.json --json " + scan).out);
  const std::string first = found["explanations"][0].dump();
  CHECK(first.find(R"({"fault":"open","part":"F1"})") != std::string::npos);
}

TEST_CASE("words that are no fault of this network are refused, all at once") {
  const Run refused = run(predict_car + "--fault 'ded ECM' --fault 'dead EMC' --fault 'dead ABS'");
  CHECK(refused.status == 2);
  CHECK(refused.out == "");
  CHECK(refused.err.find("--fault 'ded ECM': ") != std::string::npos);
  CHECK(refused.err.find("--fault 'dead EMC': ") != std::string::npos);
  CHECK(refused.err.find("did you mean") != std::string::npos);
  CHECK(refused.err.find("dead ABS") == std::string::npos);
}
