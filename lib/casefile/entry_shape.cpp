#include "casefile/entry_shape.hpp"

#include <algorithm>
#include <array>

#include "network/network_shape.hpp"
#include "network/tree.hpp"
#include "scan/scan_shape.hpp"

namespace whichwire {

namespace {

using json::Field;
using json::Shape;
using std::string_view;
using Kind = Shape::Kind;

constexpr Shape name{.kind = Kind::text, .most = 200};
constexpr Shape sentence{.kind = Kind::text, .most = 2000};
constexpr Shape sentences{.kind = Kind::list, .most = 100, .each = &sentence};
constexpr Shape truth{.kind = Kind::truth};
constexpr Shape volts{.kind = Kind::number, .low = 0, .high = 60};
constexpr Shape number_of_entry{.kind = Kind::whole, .low = 1, .high = 1'000'000};

constexpr string_view format_words[] = {case_format};
constexpr Shape format{.kind = Kind::word, .words = format_words};
constexpr string_view key_words[] = {"off", "accessory", "run", "start"};
constexpr Shape key{.kind = Kind::word, .words = key_words};
constexpr string_view battery_words[] = {"connected", "disconnected"};
constexpr Shape battery{.kind = Kind::word, .words = battery_words};
constexpr string_view bus_words[] = {"awake", "asleep"};
constexpr Shape bus{.kind = Kind::word, .words = bus_words};
constexpr string_view mode_words[] = {"volts", "volts-loaded", "volts-drop", "volts-ac", "ohms",   "amps",
                                      "lamp",  "look",         "wiggle",     "light",    "unplug", "ask"};
constexpr Shape mode{.kind = Kind::word, .words = mode_words};

constexpr Field intake_fields[] = {{"complaint", &sentence},        {"since", &sentence},     {"conditions", &sentence},
                                   {"earlier_repairs", &sentences}, {"works", &sentences},    {"works_not", &sentences},
                                   {"added_devices", &sentences},   {"battery_volts", &volts}};
constexpr Shape intake{.kind = Kind::record, .fields = intake_fields};

// What lies inside `network` and `scan` is looked at with their own shapes.
constexpr Shape inside_object{.kind = Kind::map, .most = 1'000, .each = nullptr};

constexpr Field start_fields[] = {
    {"format", &format, true}, {"entry", &name, true},        {"at", &name, true},
    {"unit", &name},           {"network_name", &name, true}, {"network", &inside_object, true},
    {"intake", &intake}};
constexpr Field scan_fields[] = {
    {"entry", &name, true}, {"at", &name, true}, {"name", &name}, {"scan", &inside_object, true}};
constexpr Field reading_fields[] = {
    {"entry", &name, true}, {"at", &name, true},       {"place", &name, true}, {"check", &name},
    {"mode", &mode},        {"reading", &name, true},  {"key", &key},          {"battery", &battery},
    {"bus", &bus},          {"rules_out", &sentences}, {"note", &sentence},    {"outcome", &name}};
constexpr Field work_fields[] = {
    {"entry", &name, true}, {"at", &name, true}, {"what", &name, true}, {"note", &sentence}};
constexpr Field note_fields[] = {{"entry", &name, true},
                                 {"at", &name, true},
                                 {"text", &sentence, true},
                                 {"fault", &truth},
                                 {"rules_out", &sentences}};
constexpr Field undo_fields[] = {{"entry", &name, true}, {"at", &name, true}, {"of", &number_of_entry, true}};
constexpr Field close_fields[] = {{"entry", &name, true}, {"at", &name, true}, {"note", &sentence}};

constexpr Shape start_shape{.kind = Kind::record, .fields = start_fields};
constexpr Shape scan_shape{.kind = Kind::record, .fields = scan_fields};
constexpr Shape reading_shape{.kind = Kind::record, .fields = reading_fields};
constexpr Shape work_shape{.kind = Kind::record, .fields = work_fields};
constexpr Shape note_shape{.kind = Kind::record, .fields = note_fields};
constexpr Shape undo_shape{.kind = Kind::record, .fields = undo_fields};
constexpr Shape close_shape{.kind = Kind::record, .fields = close_fields};

struct Kinds {
  string_view word;
  const Shape* shape;
};
constexpr Kinds kinds[] = {{"start", &start_shape},   {"scan", &scan_shape},       {"reading", &reading_shape},
                           {"unplug", &work_shape},   {"replug", &work_shape},     {"fuse-out", &work_shape},
                           {"fuse-in", &work_shape},  {"jumper", &work_shape},     {"jumper-off", &work_shape},
                           {"replaced", &work_shape}, {"programmed", &work_shape}, {"note", &note_shape},
                           {"undo", &undo_shape},     {"close", &close_shape}};

/// The value without what lies inside its `network` or `scan` objects.
json::Value hollow(const json::Value& tree) {
  json::Value copy;
  copy.kind = tree.kind;
  copy.spot = tree.spot;
  for (const json::Member& member : tree.members) {
    const bool inside = (member.key == "network" || member.key == "scan") && member.value.is(json::Value::Kind::object);
    copy.members.push_back({member.key, member.spot, inside ? json::Value{} : member.value});
    if (!inside) continue;
    copy.members.back().value.kind = json::Value::Kind::object;
    copy.members.back().value.spot = member.value.spot;
  }
  return copy;
}

void check_network(const json::Value& network, json::Complaints& complaints) {
  check_network_shape(network, complaints);
  for (const string_view needs_base : {"extends", "remove"}) {
    if (const json::Member* const member = json::find_member(network, needs_base))
      complaints.add(member->spot, std::string(needs_base), "the network of a case stands alone; it extends no other");
  }
}

void check_time(const json::Value& tree, json::Complaints& complaints) {
  const json::Value* const at = json::find(tree, "at");
  if (at == nullptr || !at->is(json::Value::Kind::text) || is_utc_time(at->text)) return;
  complaints.add(at->spot, "at", json::in_quotes(at->text) + " is no time in UTC, as in `2026-03-02T09:14:00Z`");
}

}  // namespace

bool check_entry_shape(const json::Value& tree, json::Complaints& complaints, json::Complaints& inside) {
  if (!tree.is(json::Value::Kind::object)) {
    complaints.add(
        tree.spot, "",
        "an entry is expected here, an object on a line of its own, not " + std::string(word_for(tree.kind)));
    return false;
  }
  const json::Value* const entry = json::find(tree, "entry");
  if (entry == nullptr || !entry->is(json::Value::Kind::text)) {
    complaints.add(entry == nullptr ? tree.spot : entry->spot, "", "the key `entry` must say what happened, as `note`");
    return false;
  }
  const auto found = std::ranges::find(kinds, entry->text, &Kinds::word);
  if (found == std::end(kinds)) {
    std::vector<std::string> known;
    for (const Kinds& kind : kinds) known.emplace_back(kind.word);
    complaints.add(entry->spot, "entry",
                   json::in_quotes(entry->text) + " is no kind of entry" + json::did_you_mean(entry->text, known));
    return false;
  }
  json::check_shape(hollow(tree), *found->shape, {}, json::Extent::whole, complaints);
  check_time(tree, complaints);
  const auto object_in = [&](string_view within) {
    const json::Value* const value = json::find(tree, within);
    return value != nullptr && value->is(json::Value::Kind::object) ? value : nullptr;
  };
  if (const json::Value* const network = object_in("network"); network != nullptr && found->word == "start")
    check_network(*network, inside);
  if (const json::Value* const scan = object_in("scan"); scan != nullptr && found->word == "scan")
    check_scan_shape(*scan, inside);
  return true;
}

std::optional<WorkKind> work_of(std::string_view word) {
  for (const WorkKind kind : {WorkKind::unplug, WorkKind::replug, WorkKind::fuse_out, WorkKind::fuse_in,
                              WorkKind::jumper, WorkKind::jumper_off, WorkKind::replaced, WorkKind::programmed}) {
    if (word_for(kind) == word) return kind;
  }
  return {};
}

}  // namespace whichwire
