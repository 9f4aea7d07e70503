#include <doctest/doctest.h>

#include <nlohmann/json.hpp>

#include "running.hpp"

using namespace whichwire::test;

namespace {

const std::string locate_car = "whichwire locate topologies/compact-car.json ";
const std::string pasted =
    "ECM no reply\nTCM ok U0100 current\nABS ok U0100-87 current\nBCM ok\nIPC ok U0100 current\n";

}  // namespace

TEST_CASE("a summary on standard input is located, whether or not it is asked for by a dash") {
  const Run bare = run(locate_car, pasted);
  CHECK(bare.status == 0);
  CHECK(bare.err == "");
  CHECK(bare.out.find("1 silent: ECM\n") != std::string::npos);
  const Run dash = run(locate_car + "-", pasted);
  CHECK(dash.out == bare.out);
}

TEST_CASE("with --exit-code a fault gives 1, a vehicle in order 0") {
  CHECK(run(locate_car + "--exit-code", pasted).status == 1);
  const std::string fine = run("whichwire predict topologies/compact-car.json --scan-out -").out;
  CHECK(run(locate_car + "- --exit-code", fine).status == 0);
}

TEST_CASE("lines that cannot be placed are shown; with --lines all are") {
  const Run some = run(locate_car, pasted + "xyzzy plugh\n");
  CHECK(some.out.find("1 line not understood:\n    line 6: xyzzy plugh\n") != std::string::npos);
  CHECK(some.out.find("line 1: ECM no reply") == std::string::npos);
  const Run all = run(locate_car + "--lines", pasted + "xyzzy plugh\n");
  CHECK(all.out.find("line 1: ECM no reply\n      = ") != std::string::npos);
}

TEST_CASE("findings as JSON name verdict, explanations and checks") {
  const auto json = nlohmann::json::parse(run(locate_car + "--json", pasted).out);
  CHECK(json["format"] == "whichwire.findings.v1");
  CHECK(json["verdict"]["class"] == "module");
  CHECK(json["verdict"]["parts"] == nlohmann::json::parse(R"(["ECM"])"));
  CHECK(json["outside"].get<double>() <= 1e-4);
  CHECK(json["checks"].size() >= 3);
}

TEST_CASE("a network or scan with mistakes is refused with all of them on standard error") {
  const std::string bad = scratch() + "/bad.json";
  write_text(bad, "{\n  \"format\": \"whichwire.scan.v1\",\n  \"kee\": \"run\",\n  \"modules\": 3\n}\n");
  const Run refused = run(locate_car + bad);
  CHECK(refused.status == 2);
  CHECK(refused.out == "");
  CHECK(refused.err.find(bad + ":3:3: ") != std::string::npos);
  CHECK(refused.err.find(bad + ":4:") != std::string::npos);
  CHECK(run("whichwire locate " + bad, pasted).status == 2);
}

TEST_CASE("rates of one's own change the answer, and wrong ones are refused") {
  const std::string rates = scratch() + "/rates.csv";
  write_text(rates, "what,odds,source\nded,0.5,mine\n");
  const Run refused = run(locate_car + "--rates " + rates, pasted);
  CHECK(refused.status == 2);
  CHECK(refused.err.find(rates + ":2:") != std::string::npos);
}

TEST_CASE("the key state of the command line stands over the assumed one") {
  const Run asked = run(locate_car + "--key off", pasted);
  CHECK(asked.out.find("key off\n") != std::string::npos);
  CHECK(run(locate_car, pasted).out.find("key run (assumed)\n") != std::string::npos);
}
