// Ids, gateways, the diagnostic connector, functions and the vehicle. Tested in tests/network/rest_test.cpp.
#include <unordered_map>

#include "network/draft.hpp"

namespace whichwire {

using json::Trail;
using json::Value;

void build_ids(Draft& draft) {
  const Trail root;
  const auto learn = [&](std::string_view map, Ids::Sort sort, std::vector<const json::Member*>* places) {
    const Trail all = root / map;
    std::size_t i = 0;
    for (const json::Member& member : json::members_in(draft.root, map)) {
      draft.ids.add(sort, i++, member, all / member.key);
      if (places != nullptr) places->push_back(&member);
    }
  };
  learn("modules", Ids::Sort::module, &draft.modules);
  learn("points", Ids::Sort::point, nullptr);
  learn("buses", Ids::Sort::bus, &draft.buses);
  learn("feeds", Ids::Sort::feed, &draft.feeds);
  learn("grounds", Ids::Sort::ground, nullptr);
  const Trail buses = root / "buses";
  for (const json::Member* bus : draft.buses) {
    const Trail one = buses / bus->key;
    const Trail all = one / "segments";
    std::size_t i = 0;
    for (const json::Member& segment : json::members_in(bus->value, "segments")) {
      draft.ids.add(Ids::Sort::segment, i++, segment, all / segment.key);
    }
  }
  draft.network.modules.resize(draft.modules.size());
  draft.network.feeds.resize(draft.feeds.size());
}

void build_gateways(Draft& draft) {
  const Trail root;
  const Trail all = root / "gateways";
  for (const json::Member& member : json::members_in(draft.root, "gateways")) {
    const Trail trail = all / member.key;
    Gateway gateway;
    gateway.module = draft.ids.find(Ids::Sort::module, member.key, member.spot, trail);
    const Trail joins = trail / "joins";
    const std::vector<Value>& buses = json::items_in(member.value, "joins");
    for (std::size_t i = 0; i < buses.size(); ++i)
      gateway.joins.push_back(draft.ids.find(Ids::Sort::bus, buses[i], joins / i));
    if (buses.size() == 1) {
      draft.say(buses[0].spot, joins, json::in_quotes(member.key) + " joins one bus; a gateway joins at least two");
    }
    draft.network.gateways.push_back(std::move(gateway));
  }
}

namespace {

/// `DLC/PIN` names one thing, so no pin may have two uses.
void connector_pins_once(Draft& draft, const Value& value, const Trail& trail) {
  std::unordered_map<std::string_view, json::Spot> seen;
  const auto add = [&](const Value& owner, std::string_view key, const Trail& here) {
    const Value* const pin = json::find(owner, key);
    if (pin == nullptr || pin->text.empty()) return;
    const auto [first, fresh] = seen.try_emplace(pin->text, pin->spot);
    if (!fresh)
      draft.complaints.add(pin->spot, here / key, "the pin " + json::in_quotes(pin->text) + " is in use already",
                           first->second);
  };
  const Trail buses = trail / "buses";
  for (const json::Member& bus : json::members_in(value, "buses")) {
    const Trail one = buses / bus.key;
    add(bus.value, "high", one);
    add(bus.value, "low", one);
  }
  for (const std::string_view key : {"power", "ground"}) {
    const Trail list = trail / key;
    std::size_t i = 0;
    for (const Value& item : json::items_in(value, key)) add(item, "pin", list / i++);
  }
}

}  // namespace

void build_connector(Draft& draft) {
  const Trail root;
  const Trail trail = root / "diagnostic_connector";
  const Value* const value = json::find(draft.root, "diagnostic_connector");
  if (value == nullptr) return;
  DiagnosticConnector& connector = draft.network.diagnostic_connector;
  connector.power = power_pins(draft, *value, trail);
  connector.ground = ground_pins(draft, *value, trail);
  connector.place = place_of(*value);
  const Trail buses = trail / "buses";
  for (const json::Member& member : json::members_in(*value, "buses")) {
    const Trail one = buses / member.key;
    const std::size_t bus = draft.ids.find(Ids::Sort::bus, member.key, member.spot, one);
    if (bus == nowhere) continue;
    connector.buses.push_back({bus, line_pins(member.value)});
    refuse_low_line(draft, draft.network.buses[bus], member.value, one);
  }
  connector_pins_once(draft, *value, trail);
}

void build_functions(Draft& draft) {
  const Trail root;
  const Trail all = root / "functions";
  for (const json::Member& member : json::members_in(draft.root, "functions")) {
    const Trail trail = all / member.key;
    Function function;
    function.id = member.key;
    function.name = json::text_in(member.value, "name");
    const Trail modules = trail / "modules";
    std::size_t i = 0;
    for (const Value& module : json::items_in(member.value, "modules")) {
      function.modules.push_back(draft.ids.find(Ids::Sort::module, module, modules / i++));
    }
    const Trail messages = trail / "messages";
    i = 0;
    for (const Value& message : json::items_in(member.value, "messages")) {
      const Trail one = messages / i++;
      const Value* const from = json::find(message, "from");
      const Value* const to = json::find(message, "to");
      if (from == nullptr || to == nullptr) continue;
      const std::size_t sender = draft.ids.find(Ids::Sort::module, *from, one / "from");
      const std::size_t receiver = draft.ids.find(Ids::Sort::module, *to, one / "to");
      if (sender == receiver && sender != nowhere)
        draft.say(to->spot, one / "to", "the message goes from " + json::in_quotes(to->text) + " to itself");
      function.messages.push_back({sender, receiver});
    }
    draft.network.functions.push_back(std::move(function));
  }
}

void build_vehicle(Draft& draft) {
  draft.network.note = json::text_in(draft.root, "note");
  const Value* const value = json::find(draft.root, "vehicle");
  if (value == nullptr) return;
  Vehicle& vehicle = draft.network.vehicle;
  vehicle.make = json::text_in(*value, "make");
  vehicle.model = json::text_in(*value, "model");
  vehicle.variant = json::text_in(*value, "variant");
  vehicle.model_year = json::whole_in(*value, "model_year").value_or(0);
}

}  // namespace whichwire
