// What can break in a network: the table "Faults a network can have" of the model, row by row.
#include <doctest/doctest.h>

#include <algorithm>
#include <set>
#include <whichwire/fault.hpp>

#include "every_part.hpp"

using namespace whichwire;
using test::network_with_every_part;

namespace {

/// The words of every fault.
std::set<std::string> texts_of(const Network& network) {
  std::set<std::string> texts;
  for (const Fault& fault : faults_of(network)) texts.insert(text_of(network, fault));
  return texts;
}

/// Of the faults that begin with `kind`, those that are present now.
std::set<std::string> present(const std::set<std::string>& texts, const std::string& kind) {
  std::set<std::string> result;
  for (const std::string& text : texts) {
    if (text.starts_with(kind + " ") && !text.ends_with(" comes-and-goes")) result.insert(text);
  }
  return result;
}

/// The faults of one segment that are present now, without its id: `open high`, `short ground`.
std::set<std::string> of_segment(const std::set<std::string>& texts, const std::string& id) {
  std::set<std::string> result;
  for (const std::string& text : texts) {
    const std::size_t at = text.find(" " + id);
    const bool whole =
        at != std::string::npos && (at + id.size() + 1 == text.size() || text[at + id.size() + 1] == ' ');
    if (!whole || text.ends_with(" comes-and-goes")) continue;
    result.insert(text.substr(0, at) + text.substr(at + id.size() + 1));
  }
  return result;
}

using Texts = std::set<std::string>;

}  // namespace

TEST_CASE("a segment of two lines can have each line open or shorted, both, and be corroded") {
  const Texts texts = texts_of(network_with_every_part());
  for (const char* id : {"DRV-2", "FT-1", "PWM-1", "J17-1", "FLX-1"}) {
    CAPTURE(id);
    CHECK(of_segment(texts, id) == Texts{"open high", "open low", "open", "short high ground", "short high supply",
                                         "short low ground", "short low supply", "short other-line", "resistive"});
  }
}

TEST_CASE("a segment of one line can be open, shorted to ground or supply, and corroded") {
  const Texts texts = texts_of(network_with_every_part());
  for (const char* id : {"SW-1", "VPW-1", "KL-1", "LIN-1"}) {
    CAPTURE(id);
    CHECK(of_segment(texts, id) == Texts{"open", "short ground", "short supply", "resistive"});
  }
}

TEST_CASE("a segment of a ring can be open or weak, a point-to-point link open or shorted") {
  const Texts texts = texts_of(network_with_every_part());
  CHECK(of_segment(texts, "RNG-2") == Texts{"open", "resistive"});
  CHECK(of_segment(texts, "T1-1") == Texts{"open", "short other-line"});
}

TEST_CASE("a bus whose wiring is not known has the same faults in its stubs") {
  Network network = network_with_every_part();
  const Texts wired = texts_of(network);
  for (Bus& bus : network.buses) bus.wired = false;
  CHECK(texts_of(network) == wired);
}

TEST_CASE("every module can be dead or not programmed, and only an optional one not fitted") {
  const Network network = network_with_every_part();
  const Texts texts = texts_of(network);
  CHECK(present(texts, "dead").size() == network.modules.size());
  CHECK(present(texts, "unconfigured").size() == network.modules.size());
  CHECK(present(texts, "not-fitted") == Texts{"not-fitted TOW"});
}

TEST_CASE("a module can hold a bus of electrical wires, and babble where modules speak unasked") {
  const Texts texts = texts_of(network_with_every_part());
  CHECK(present(texts, "holds") == Texts{"holds GWM DRV", "holds ECM DRV",  "holds TCM DRV", "holds TOW DRV",
                                         "holds GWM FT",  "holds XFT FT",   "holds GWM SW",  "holds XSW SW",
                                         "holds GWM VPW", "holds XVPW VPW", "holds GWM PWM", "holds XPWM PWM",
                                         "holds GWM KL",  "holds XKL KL",   "holds GWM LIN", "holds XLIN LIN",
                                         "holds GWM J17", "holds XJ17 J17", "holds GWM FLX", "holds XFLX FLX"});
  CHECK(present(texts, "babbles").size() == present(texts, "holds").size() - 2);
  CHECK_FALSE(texts.contains("babbles XKL KL"));
}

TEST_CASE("only a module on two buses can have one dead port, and only a gateway fail to forward") {
  const Network network = network_with_every_part();
  const Texts texts = texts_of(network);
  CHECK(present(texts, "port-dead").size() == network.buses.size());  // GWM alone is on several: on all
  CHECK(texts.contains("port-dead GWM LIN"));
  CHECK_FALSE(texts.contains("port-dead ECM DRV"));
  CHECK(present(texts, "not-forwarding") == Texts{"not-forwarding GWM"});
}

TEST_CASE("a module without supply can push current into the buses whose levels it can move") {
  const Texts texts = texts_of(network_with_every_part());
  CHECK(present(texts, "back-feeds") == Texts{"back-feeds GWM DRV", "back-feeds ECM DRV", "back-feeds TCM DRV",
                                              "back-feeds TOW DRV", "back-feeds GWM FT", "back-feeds XFT FT",
                                              "back-feeds GWM SW", "back-feeds XSW SW", "back-feeds GWM VPW",
                                              "back-feeds XVPW VPW", "back-feeds GWM PWM", "back-feeds XPWM PWM",
                                              "back-feeds GWM LIN", "back-feeds XLIN LIN"});
}

TEST_CASE("every listed pin wire can be open, and a module without listed pins has one of each") {
  const Texts texts = texts_of(network_with_every_part());
  for (const char* text :
       {"open ECM/A-3", "open ECM/A-27", "open ECM/A-1", "open ECM/B-40", "open TCM/feed", "open TCM/ground"}) {
    CAPTURE(text);
    CHECK(texts.contains(text));
  }
  CHECK_FALSE(texts.contains("open ECM/feed"));
  CHECK_FALSE(texts.contains("open ECM/ground"));
}

TEST_CASE("a reference can be open, or shorted to ground or supply") {
  const Texts texts = texts_of(network_with_every_part());
  for (const char* text : {"open ECM/5V-1", "short ECM/5V-1 ground", "short ECM/5V-1 supply"}) {
    CAPTURE(text);
    CHECK(texts.contains(text));
  }
}

TEST_CASE("every feed and every ground point can be open") {
  const Texts texts = texts_of(network_with_every_part());
  for (const char* text : {"open LINK", "open IGN", "open K1", "open F11", "open G12"}) {
    CAPTURE(text);
    CHECK(texts.contains(text));
  }
}

TEST_CASE("terminators can be missing, one can be added where any are listed, and a device be tapped in") {
  const Texts texts = texts_of(network_with_every_part());
  CHECK(present(texts, "missing") == Texts{"missing GWM DRV", "missing ECM DRV"});
  CHECK(present(texts, "extra") == Texts{"extra DRV"});
  CHECK(present(texts, "added-device") == Texts{"added-device DRV", "added-device FT", "added-device SW",
                                                "added-device VPW", "added-device PWM", "added-device J17"});
}

TEST_CASE("the pins of the diagnostic connector can each be open") {
  const Texts texts = texts_of(network_with_every_part());
  for (const char* text : {"open DLC/6", "open DLC/14", "open DLC/7", "open DLC/16", "open DLC/4"}) {
    CAPTURE(text);
    CHECK(texts.contains(text));
  }
}

TEST_CASE("a diagnostic connector of unknown pins has a feed and a ground of its own") {
  Network network = network_with_every_part();
  network.diagnostic_connector.power.clear();
  network.diagnostic_connector.ground.clear();
  const Texts texts = texts_of(network);
  CHECK(texts.contains("open DLC/feed"));
  CHECK(texts.contains("open DLC/ground"));
  network.diagnostic_connector.buses.clear();
  CHECK_FALSE(texts_of(network).contains("open DLC/feed"));
}

TEST_CASE("every fault but that of a module not fitted also comes and goes, less often") {
  const std::vector<Fault> faults = faults_of(network_with_every_part());
  for (const Fault& fault : faults) {
    if (fault.comes_and_goes) continue;
    Fault twin = fault;
    twin.comes_and_goes = true;
    const auto same = [&](const Fault& other) {
      twin.odds = other.odds;
      return other == twin;
    };
    const auto found = std::find_if(faults.begin(), faults.end(), same);
    CHECK((found != faults.end()) == (fault.kind != FaultKind::not_fitted));
    if (found != faults.end()) CHECK(found->odds < fault.odds);
  }
}

TEST_CASE("no fault is listed twice, and every one has odds above zero") {
  const Network network = network_with_every_part();
  const std::vector<Fault> faults = faults_of(network);
  CHECK(texts_of(network).size() == faults.size());
  CHECK(std::all_of(faults.begin(), faults.end(), [](const Fault& fault) { return fault.odds > 0; }));
}
