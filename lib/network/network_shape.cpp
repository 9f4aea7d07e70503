#include "network/network_shape.hpp"

namespace whichwire {

namespace {

using json::Field;
using json::Shape;
using Kind = Shape::Kind;
using std::string_view;

// Ranges: far beyond any vehicle, near enough to catch a slipped decimal point or a wrong unit.
constexpr Shape id{.kind = Kind::id, .most = 64};
constexpr Shape text{.kind = Kind::text, .most = 200};
constexpr Shape remark{.kind = Kind::text, .most = 2000};
constexpr Shape truth{.kind = Kind::truth};
constexpr Shape minutes{.kind = Kind::number, .low = 0, .high = 10'000};
constexpr Shape ohms{.kind = Kind::number, .low = 0, .high = 1'000'000, .above_low = true};
constexpr Shape volts{.kind = Kind::number, .low = 0, .high = 60, .above_low = true};
constexpr Shape amps{.kind = Kind::number, .low = 0, .high = 2'000, .above_low = true};
constexpr Shape metres{.kind = Kind::number, .low = 0, .high = 1'000, .above_low = true};
constexpr Shape square_millimetres{.kind = Kind::number, .low = 0, .high = 500, .above_low = true};
constexpr Shape bits_per_second{.kind = Kind::whole, .low = 1'000, .high = 2'000'000'000};
constexpr Shape source_address{.kind = Kind::whole, .low = 0, .high = 255};
constexpr Shape year{.kind = Kind::whole, .low = 1900, .high = 2100};

constexpr Shape ids{.kind = Kind::list, .most = 1'000, .unique = true, .each = &id};
constexpr Shape some_ids{.kind = Kind::list, .least = 1, .most = 1'000, .unique = true, .each = &id};
constexpr Shape texts{.kind = Kind::list, .most = 100, .unique = true, .each = &text};

constexpr string_view hazard_words[] = {"restraint", "high-voltage", "fuel", "moving-parts", "hot"};
constexpr Shape hazard{.kind = Kind::word, .words = hazard_words};
constexpr Shape hazards{.kind = Kind::list, .most = 5, .unique = true, .each = &hazard};

constexpr string_view pin_or_feed[] = {"pin", "feed"};
constexpr Field power_fields[] = {{"pin", &id}, {"feed", &id}, {"wire", &text}};
constexpr Shape power_pin{.kind = Kind::record, .fields = power_fields, .any_of = pin_or_feed};
constexpr Shape power{.kind = Kind::list, .least = 1, .most = 100, .each = &power_pin};

constexpr string_view pin_or_ground[] = {"pin", "ground"};
constexpr Field ground_pin_fields[] = {{"pin", &id}, {"ground", &id}, {"wire", &text}};
constexpr Shape ground_pin{.kind = Kind::record, .fields = ground_pin_fields, .any_of = pin_or_ground};
constexpr Shape ground_pins{.kind = Kind::list, .least = 1, .most = 100, .each = &ground_pin};

constexpr Field reference_fields[] = {{"pin", &id}, {"wire", &text}, {"volts", &volts}, {"loads", &texts}};
constexpr Shape reference{.kind = Kind::record, .fields = reference_fields};
constexpr Shape references{.kind = Kind::map, .most = 100, .each = &reference, .key = &id};

constexpr string_view says[] = {"lost", "invalid", "bus"};
constexpr Field own_code_fields[] = {{"lost", &id}, {"invalid", &id}, {"bus", &id}};
constexpr Shape own_code{.kind = Kind::record, .fields = own_code_fields, .one_of = says};
constexpr Shape own_codes{.kind = Kind::map, .most = 1'000, .each = &own_code, .key = &text};

constexpr string_view fitted_words[] = {"always", "optional"};
constexpr Shape fitted{.kind = Kind::word, .words = fitted_words};
constexpr Field module_fields[] = {
    {"name", &text},          {"roles", &texts},           {"aliases", &texts},   {"address", &source_address},
    {"fitted", &fitted},      {"locked", &truth},          {"power", &power},     {"passes_when_dead", &truth},
    {"ground", &ground_pins}, {"references", &references}, {"listens_to", &ids},  {"codes", &own_codes},
    {"where", &text},         {"minutes", &minutes},       {"hazards", &hazards},
};
constexpr Shape module_shape{.kind = Kind::record, .fields = module_fields};
constexpr Shape modules{.kind = Kind::map, .least = 1, .most = 1'000, .each = &module_shape, .key = &id};

constexpr Field pin_pair_fields[] = {{"high", &id}, {"low", &id}};
constexpr Shape pin_pair{.kind = Kind::record, .fields = pin_pair_fields};
constexpr Shape pins_at_ends{.kind = Kind::map, .most = 2, .each = &pin_pair, .key = &id};
constexpr Field segment_fields[] = {
    {"from", &id, true},     {"to", &id, true}, {"length_m", &metres}, {"area_mm2", &square_millimetres},
    {"pins", &pins_at_ends},
};
constexpr Shape segment{.kind = Kind::record, .fields = segment_fields};
constexpr Shape segments{.kind = Kind::map, .least = 1, .most = 2'000, .each = &segment, .key = &id};

constexpr Field terminator_fields[] = {{"at", &id, true}, {"ohms", &ohms}};
constexpr Shape terminator{.kind = Kind::record, .fields = terminator_fields};
constexpr Shape terminators{.kind = Kind::list, .most = 20, .each = &terminator};

constexpr string_view protocol_words[] = {"can-hs", "can-ft", "can-sw",  "j1850-vpw", "j1850-pwm",  "k-line",
                                          "lin",    "j1708",  "flexray", "ring",      "ethernet-t1"};
constexpr Shape protocol{.kind = Kind::word, .words = protocol_words};
constexpr Field line_fields[] = {{"colour", &text}};
constexpr Shape line{.kind = Kind::record, .fields = line_fields};
constexpr Field lines_fields[] = {{"high", &line}, {"low", &line}};
constexpr Shape lines{.kind = Kind::record, .fields = lines_fields};
constexpr string_view wiring[] = {"segments", "members"};
constexpr Field bus_fields[] = {
    {"name", &text},    {"protocol", &protocol, true}, {"bit_rate", &bits_per_second}, {"called", &texts},
    {"lines", &lines},  {"segments", &segments},       {"members", &some_ids},         {"terminators", &terminators},
    {"commander", &id},
};
constexpr Shape bus{.kind = Kind::record, .fields = bus_fields, .one_of = wiring};
constexpr Shape buses{.kind = Kind::map, .least = 1, .most = 300, .each = &bus, .key = &id};

constexpr Field gateway_fields[] = {{"joins", &some_ids, true}};
constexpr Shape gateway{.kind = Kind::record, .fields = gateway_fields};
constexpr Shape gateways{.kind = Kind::map, .most = 300, .each = &gateway, .key = &id};

constexpr string_view point_words[] = {"splice", "inline-connector", "star"};
constexpr Shape point_kind{.kind = Kind::word, .words = point_words};
constexpr Field point_fields[] = {
    {"kind", &point_kind}, {"where", &text}, {"minutes", &minutes}, {"hazards", &hazards}};
constexpr Shape point{.kind = Kind::record, .fields = point_fields};
constexpr Shape points{.kind = Kind::map, .most = 5'000, .each = &point, .key = &id};

constexpr string_view feed_words[] = {"fuse", "relay", "fusible-link", "switch"};
constexpr Shape feed_kind{.kind = Kind::word, .words = feed_words};
constexpr string_view key_words[] = {"off", "accessory", "run", "start"};
constexpr Shape key{.kind = Kind::word, .words = key_words};
constexpr Shape live{.kind = Kind::list, .least = 1, .most = 4, .unique = true, .each = &key};
constexpr Field feed_fields[] = {
    {"kind", &feed_kind}, {"amps", &amps},       {"from", &id},         {"live", &live},
    {"where", &text},     {"minutes", &minutes}, {"hazards", &hazards},
};
constexpr Shape feed{.kind = Kind::record, .fields = feed_fields};
constexpr Shape feeds{.kind = Kind::map, .most = 2'000, .each = &feed, .key = &id};

constexpr Field ground_fields[] = {{"where", &text}, {"minutes", &minutes}, {"hazards", &hazards}};
constexpr Shape ground{.kind = Kind::record, .fields = ground_fields};
constexpr Shape grounds{.kind = Kind::map, .most = 1'000, .each = &ground, .key = &id};

constexpr Shape connector_buses{.kind = Kind::map, .most = 300, .each = &pin_pair, .key = &id};
constexpr Field connector_fields[] = {
    {"buses", &connector_buses}, {"power", &power},     {"ground", &ground_pins}, {"where", &text},
    {"minutes", &minutes},       {"hazards", &hazards},
};
constexpr Shape connector{.kind = Kind::record, .fields = connector_fields};

constexpr Field message_fields[] = {{"from", &id, true}, {"to", &id, true}};
constexpr Shape message{.kind = Kind::record, .fields = message_fields};
constexpr Shape messages{.kind = Kind::list, .most = 1'000, .each = &message};
constexpr Field function_fields[] = {{"name", &text}, {"modules", &some_ids, true}, {"messages", &messages}};
constexpr Shape function{.kind = Kind::record, .fields = function_fields};
constexpr Shape functions{.kind = Kind::map, .most = 1'000, .each = &function, .key = &id};

constexpr Field vehicle_fields[] = {{"make", &text}, {"model", &text}, {"model_year", &year}, {"variant", &text}};
constexpr Shape vehicle{.kind = Kind::record, .fields = vehicle_fields};

constexpr string_view format_words[] = {network_format};
constexpr Shape format{.kind = Kind::word, .words = format_words};
constexpr Shape removals{.kind = Kind::list, .most = 1'000, .unique = true, .each = &remark};
constexpr Field root_fields[] = {
    {"format", &format, true, true},
    {"note", &remark},
    {"extends", &text},
    {"remove", &removals},
    {"vehicle", &vehicle},
    {"modules", &modules, true},
    {"buses", &buses, true},
    {"gateways", &gateways},
    {"points", &points},
    {"feeds", &feeds},
    {"grounds", &grounds},
    {"diagnostic_connector", &connector},
    {"functions", &functions},
};
constexpr Shape root{.kind = Kind::record, .fields = root_fields};

}  // namespace

const json::Shape& network_shape() { return root; }

namespace {

bool network_at_all(const json::Value& tree, json::Complaints& complaints) {
  if (!tree.is(json::Value::Kind::object)) {
    complaints.add(tree.spot, std::string(), "an object is expected here, not " + std::string(word_for(tree.kind)));
    return false;
  }
  const std::string wanted = json::in_quotes(network_format);
  const json::Value* const format_value = json::find(tree, "format");
  if (format_value == nullptr) {
    if (json::find(tree, "modules") != nullptr || json::find(tree, "extends") != nullptr) return true;
    complaints.add(tree.spot, std::string(),
                   "this is no network: it has neither the `format` " + wanted + " nor `modules`");
    return false;
  }
  if (!format_value->is(json::Value::Kind::text) || format_value->text == network_format) return true;
  complaints.add(format_value->spot, json::Trail{} / "format",
                 "this is " + json::in_quotes(format_value->text) + "; a network is " + wanted);
  return false;
}

}  // namespace

bool check_network_shape(const json::Value& tree, json::Complaints& complaints) {
  if (!network_at_all(tree, complaints)) return false;
  const bool differs_only = json::find(tree, "extends") != nullptr;
  json::check_shape(tree, root, {}, differs_only ? json::Extent::difference : json::Extent::whole, complaints);
  return true;
}

}  // namespace whichwire
