#include "vehicle.hpp"

#include <algorithm>
#include <nlohmann/json.hpp>
#include <vector>

namespace whichwire::bench {

namespace {

using nlohmann::json;

std::string numbered(const std::string& letters, std::size_t number) { return letters + std::to_string(number); }

class Vehicle {
 public:
  Vehicle(std::size_t modules, std::size_t buses) {
    text_["format"] = "whichwire.network.v1";
    text_["note"] = "Invented vehicle, generated: it exists nowhere.";
    text_["vehicle"] = {{"make", "Hollin"}, {"model", "Scar"}, {"model_year", 2020}};
    lay_out(modules, buses);
    for (auto& bus : buses_) wire(bus);
    supply();
    listen();
    const json at_connector = {{"DIAG", {{"high", "6"}, {"low", "14"}}}};
    text_["diagnostic_connector"] = {{"buses", at_connector},
                                     {"power", {{{"pin", "16"}, {"feed", "F0"}}}},
                                     {"ground", {{{"pin", "4"}, {"ground", "G0"}}}}};
  }

  std::string text() const { return text_.dump(2); }

 private:
  struct Bus {
    std::string id;
    std::string protocol;
    std::size_t head = 0;  ///< the module by which it hangs from the rest
    std::vector<std::size_t> modules;
  };

  std::string id(std::size_t module) const { return module == 0 ? "CGW" : numbered("M", module); }

  /// Half of the buses hang from the central gateway, the others from a module on one of those.
  void lay_out(std::size_t modules, std::size_t buses) {
    const std::size_t central = buses / 2;
    for (std::size_t b = 1; b < buses; ++b) {
      const bool lin = b > central && b % 5 < 3;
      buses_.push_back({numbered(lin ? "LIN" : "CAN", b), lin ? "lin" : b == 4 ? "can-ft" : "can-hs", 0, {}});
    }
    for (std::size_t m = 1; m < modules; ++m) buses_[(m - 1) % buses_.size()].modules.push_back(m);
    for (std::size_t b = central; b < buses_.size(); ++b) buses_[b].head = buses_[b - central].modules.back();
    modules_ = modules;
  }

  void wire(const Bus& bus) {
    const bool lin = bus.protocol == "lin";
    json wiring = {{"protocol", bus.protocol}, {"bit_rate", lin ? 19200 : bus.protocol == "can-ft" ? 125000 : 500000}};
    std::string before = id(bus.head);
    std::size_t segments = 0;
    const auto join = [&](const std::string& from, const std::string& to) {
      wiring["segments"][bus.id + "-" + std::to_string(++segments)] = {{"from", from}, {"to", to}};
    };
    for (std::size_t i = 0; i < bus.modules.size(); ++i) {
      if (i % 2 == 0 && i + 1 < bus.modules.size()) {
        const std::string splice = numbered("S-" + bus.id + "-", i / 2 + 1);
        text_["points"][splice] = {{"kind", i % 4 == 0 ? "splice" : "inline-connector"}, {"minutes", 5 + i}};
        join(before, splice);
        before = splice;
      }
      join(before, id(bus.modules[i]));
    }
    if (lin) wiring["commander"] = id(bus.head);
    if (!lin && bus.protocol == "can-hs")
      wiring["terminators"] = {{{"at", id(bus.head)}}, {{"at", id(bus.modules.back())}}};
    text_["buses"][bus.id] = wiring;
    auto& joins = text_["gateways"][id(bus.head)]["joins"];
    if (joins.empty()) joins.push_back(bus.head == 0 ? "DIAG" : bus_of(bus.head));
    joins.push_back(bus.id);
    text_["buses"]["DIAG"] = {
        {"protocol", "can-hs"}, {"bit_rate", 500000}, {"segments", {{"DIAG-1", {{"from", "DLC"}, {"to", "CGW"}}}}}};
  }

  std::string bus_of(std::size_t module) const {
    const auto its = std::find_if(buses_.begin(), buses_.end(), [&](const Bus& bus) {
      return std::count(bus.modules.begin(), bus.modules.end(), module) != 0;
    });
    return its->id;
  }

  void supply() {
    constexpr std::size_t users = 5;
    text_["feeds"]["IGN"] = {{"kind", "switch"}, {"from", "battery"}, {"live", {"run", "start"}}};
    for (std::size_t m = 0; m < modules_; ++m) {
      // Neighbours in place share, and they are on different buses.
      const std::string steady = numbered("F", m / users), switched = numbered("F", 500 + m / (users + 2));
      text_["feeds"][steady] = {{"kind", "fuse"}, {"from", "battery"}, {"minutes", 2}};
      text_["feeds"][switched] = {{"kind", "fuse"}, {"from", "IGN"}, {"minutes", 2}};
      const std::string ground = numbered("G", m / (users + 1));
      text_["grounds"][ground] = {{"minutes", 4}};
      json& module = text_["modules"][id(m)];
      module["name"] = numbered("Control module ", m);
      module["power"] = {{{"pin", "A-1"}, {"feed", steady}}, {{"pin", "A-2"}, {"feed", switched}}};
      module["ground"] = {{{"pin", "A-3"}, {"ground", ground}}};
      module["minutes"] = 3 + m % 12;
    }
  }

  /// Each to the next three on its bus and to its gateway; LIN responders to nobody.
  void listen() {
    for (const auto& bus : buses_) {
      for (std::size_t i = 0; i < bus.modules.size(); ++i) {
        auto& listens = text_["modules"][id(bus.modules[i])]["listens_to"] = json::array();
        if (bus.protocol == "lin") continue;
        listens.push_back(id(bus.head));
        for (std::size_t next = 1; next <= 3 && next < bus.modules.size(); ++next) {
          listens.push_back(id(bus.modules[(i + next) % bus.modules.size()]));
        }
      }
    }
  }

  json text_;
  std::vector<Bus> buses_;
  std::size_t modules_ = 0;
};

}  // namespace

std::string vehicle_text(std::size_t modules, std::size_t buses) { return Vehicle(modules, buses).text(); }

}  // namespace whichwire::bench
