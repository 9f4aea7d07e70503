// Modules with their pins, references, own codes and whom they listen to. Tested in tests/network/modules_test.cpp.
#include <algorithm>
#include <unordered_map>

#include "network/draft.hpp"

namespace whichwire {

namespace {

using json::Trail;
using json::Value;

std::vector<Reference> references_of(const Value& module) {
  std::vector<Reference> references;
  for (const json::Member& member : json::members_in(module, "references")) {
    references.push_back({member.key, json::text_in(member.value, "pin"), json::text_in(member.value, "wire"),
                          json::number_in(member.value, "volts").value_or(5.0), json::texts_in(member.value, "loads")});
  }
  return references;
}

/// A module that this one speaks of; itself is a mistake.
std::size_t other_module(Draft& draft, std::size_t self, const Value& text, const Trail& trail) {
  const std::size_t index = draft.ids.find(Ids::Sort::module, text, trail);
  if (index == self)
    draft.say(text.spot, trail, json::in_quotes(text.text) + " is the module itself; another one is expected here");
  return index;
}

void own_codes(Draft& draft, std::size_t self, const Value& value, const Trail& trail) {
  const Trail codes = trail / "codes";
  for (const json::Member& member : json::members_in(value, "codes")) {
    const Trail one = codes / member.key;
    for (const json::Member& says : member.value.members) {
      OwnCode own;
      own.code = member.key;
      if (says.key == "bus") {
        own.says = OwnCode::Says::bus_fault;
        own.subject = draft.ids.find(Ids::Sort::bus, says.value, one / says.key);
      } else if (says.key == "lost" || says.key == "invalid") {
        own.says = says.key == "lost" ? OwnCode::Says::lost : OwnCode::Says::invalid;
        own.subject = other_module(draft, self, says.value, one / says.key);
      } else {
        continue;
      }
      draft.network.modules[self].own_codes.push_back(std::move(own));
    }
  }
}

void listeners(Draft& draft, std::size_t self, const Value& value, const Trail& trail) {
  if (json::find(value, "listens_to") == nullptr) return;
  const Trail list = trail / "listens_to";
  std::vector<std::size_t> heard;
  std::size_t i = 0;
  for (const Value& text : json::items_in(value, "listens_to"))
    heard.push_back(other_module(draft, self, text, list / i++));
  draft.network.modules[self].listens_to = std::move(heard);
}

/// `MODULE/PIN` and `MODULE/REFERENCE` name one thing each, so no pin may have two uses.
void pins_once(Draft& draft, const Value& value, const Trail& trail) {
  std::unordered_map<std::string_view, json::Spot> seen;
  const auto add = [&](std::string_view pin, json::Spot spot, const Trail& here) {
    if (pin.empty()) return;
    const auto [first, fresh] = seen.try_emplace(pin, spot);
    if (!fresh)
      draft.complaints.add(spot, here, "the pin " + json::in_quotes(pin) + " is in use already", first->second);
  };
  for (const std::string_view key : {"power", "ground"}) {
    const Trail list = trail / key;
    std::size_t i = 0;
    for (const Value& item : json::items_in(value, key)) {
      const Trail one = list / i++;
      if (const Value* const pin = json::find(item, "pin")) add(pin->text, pin->spot, one / "pin");
    }
  }
  const Trail references = trail / "references";
  for (const json::Member& member : json::members_in(value, "references")) {
    const Trail one = references / member.key;
    add(member.key, member.spot, one);
    const Value* const pin = json::find(member.value, "pin");
    if (pin != nullptr && pin->text != member.key) add(pin->text, pin->spot, one / "pin");
  }
}

void known_roles_only(Draft& draft, const Value& value, const Trail& trail) {
  const Trail list = trail / "roles";
  std::size_t i = 0;
  for (const Value& role : json::items_in(value, "roles")) {
    const Trail here = list / i++;
    const std::vector<std::string>& known = role_names();
    if (role.text.empty() || std::binary_search(known.begin(), known.end(), role.text)) continue;
    draft.say(role.spot, here,
              "the table of codes has no role " + json::in_quotes(role.text) + json::did_you_mean(role.text, known));
  }
}

}  // namespace

void build_modules(Draft& draft) {
  const Trail root;
  const Trail all = root / "modules";
  for (std::size_t i = 0; i < draft.modules.size(); ++i) {
    const json::Member& member = *draft.modules[i];
    const Value& value = member.value;
    const Trail trail = all / member.key;
    Module& module = draft.network.modules[i];
    module.id = member.key;
    module.name = json::text_in(value, "name");
    module.roles = json::texts_in(value, "roles");
    module.aliases = json::texts_in(value, "aliases");
    module.address = json::whole_in(value, "address");
    module.optional = json::text_in(value, "fitted") == "optional";
    module.locked = json::truth_in(value, "locked");
    module.passes_when_dead = json::truth_in(value, "passes_when_dead");
    module.power = power_pins(draft, value, trail);
    module.ground = ground_pins(draft, value, trail);
    module.references = references_of(value);
    module.place = place_of(value);
    known_roles_only(draft, value, trail);
    pins_once(draft, value, trail);
    listeners(draft, i, value, trail);
    own_codes(draft, i, value, trail);
  }
}

}  // namespace whichwire
