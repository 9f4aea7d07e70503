// Jobs on the optical ring of the invented Veldric Quillon: light is missed at times, and a link and the module before
// it are dark alike.
#include <doctest/doctest.h>

#include "shipped.hpp"
#include "workshop.hpp"

namespace whichwire::test {

TEST_CASE("light at the plug of a ring is looked for once more where a link is to be condemned for it") {
  Workshop job({"open RNG-5"}, shipped("ring-saloon"));
  job.say("ring:RNG@RNG-5", "dark");
  job.work();
  INFO(job.ids() << "; " << told(job.assess()));
  CHECK(std::ranges::count(job.taken, "ring:RNG@RNG-5", &Taken::check) == 2);
  CHECK(job.assess().repairs.front().what == "RNG-5");
}

TEST_CASE("a broken link and a module that does not send are told apart by light from the module itself") {
  for (const auto& each : {std::pair("open RNG-5", "RNG-5"), {"dead NAV", "NAV"}}) {
    const auto fault = each.first;
    const auto repair = each.second;
    Workshop job({fault}, shipped("ring-saloon"));
    job.work();
    const Assessment now = job.assess();
    INFO(fault << ": " << job.ids() << "; " << told(now));
    CHECK(job.ids().find("sends:RNG/RNG-5") != std::string::npos);
    CHECK(now.decision.standing == Standing::proven);
    CHECK(now.decision.repair == repair);
  }
}

TEST_CASE("a module that lets the light through when it is dead is not looked at for light of its own") {
  Network network = shipped("ring-saloon");
  for (Module& module : network.modules) module.passes_when_dead = true;
  Workshop job({"open RNG-5"}, network);
  job.work();
  INFO(job.ids());
  CHECK(job.ids().find("ring:RNG@") != std::string::npos);
  CHECK(job.ids().find("sends:") == std::string::npos);
}

}  // namespace whichwire::test
