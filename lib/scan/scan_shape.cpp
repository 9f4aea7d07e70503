#include "scan/scan_shape.hpp"

#include "network/tree.hpp"
#include "scan/hex.hpp"

namespace whichwire {

namespace {

using json::Field;
using json::Shape;
using Kind = Shape::Kind;
using std::string_view;

// Ranges: far beyond any vehicle, near enough to catch a slipped decimal point.
constexpr Shape name{.kind = Kind::text, .most = 200};
constexpr Shape sentence{.kind = Kind::text, .most = 2000};
constexpr Shape truth{.kind = Kind::truth};
constexpr Shape volts{.kind = Kind::number, .low = 0, .high = 60};

constexpr string_view state_words[] = {"current", "pending", "history", "not-tested", "unknown"};
constexpr Shape state{.kind = Kind::word, .words = state_words};
constexpr string_view code_or_words[] = {"code", "text", "misses"};
constexpr Field code_fields[] = {{"code", &name},     {"state", &state}, {"status", &name},
                                 {"text", &sentence}, {"misses", &name}, {"volts", &volts}};
constexpr Shape code{.kind = Kind::record, .fields = code_fields, .any_of = code_or_words};
constexpr Shape codes{.kind = Kind::list, .most = 1'000, .each = &code};

constexpr string_view answer_words[] = {"yes", "no", "refused", "not-fitted", "not-reachable", "not-polled"};
constexpr Shape answer{.kind = Kind::word, .words = answer_words};
constexpr Field module_fields[] = {{"module", &name, true}, {"answer", &answer, true}, {"codes", &codes}};
constexpr Shape module_seen{.kind = Kind::record, .fields = module_fields};
constexpr Shape modules{.kind = Kind::list, .most = 1'000, .each = &module_seen};

constexpr Field function_fields[] = {{"function", &name, true}, {"works", &truth, true}};
constexpr Shape function{.kind = Kind::record, .fields = function_fields};
constexpr Shape functions{.kind = Kind::list, .most = 1'000, .each = &function};

constexpr Shape year{.kind = Kind::whole, .low = 1900, .high = 2100};
constexpr Field vehicle_fields[] = {{"make", &name}, {"model", &name}, {"model_year", &year}, {"variant", &name}};
constexpr Shape vehicle{.kind = Kind::record, .fields = vehicle_fields};

constexpr string_view format_words[] = {scan_format};
constexpr Shape format{.kind = Kind::word, .words = format_words};
constexpr string_view key_words[] = {"off", "accessory", "run", "start"};
constexpr Shape key{.kind = Kind::word, .words = key_words};
constexpr Field root_fields[] = {
    {"format", &format, true},
    {"unit", &name},
    {"taken", &name},
    {"vehicle", &vehicle},
    {"complaint", &sentence},
    {"key", &key},
    {"battery_volts", &volts},
    {"tool_has_own_battery", &truth},
    {"modules", &modules, true},
    {"functions", &functions},
};
constexpr Shape root{.kind = Kind::record, .fields = root_fields};

}  // namespace

std::optional<std::uint8_t> status_byte(std::string_view text) {
  if (text.starts_with("0x") || text.starts_with("0X")) text = text.substr(2);
  const auto byte = text.size() <= 2 ? parse_hex(text) : std::nullopt;
  return byte ? std::optional(static_cast<std::uint8_t>(*byte)) : std::nullopt;
}

void check_scan_shape(const json::Value& tree, json::Complaints& complaints) {
  json::check_shape(tree, root, {}, json::Extent::whole, complaints);
  const json::Trail top;
  const json::Trail all = top / "modules";
  std::size_t i = 0;
  for (const json::Value& module : json::items_in(tree, "modules")) {
    const json::Trail one = all / i++;
    const json::Trail list = one / "codes";
    std::size_t k = 0;
    for (const json::Value& seen : json::items_in(module, "codes")) {
      const json::Trail here = list / k++;
      const json::Value* const status = json::find(seen, "status");
      if (status == nullptr || !status->is(json::Value::Kind::text) || status_byte(status->text)) continue;
      complaints.add(status->spot, here / "status",
                     json::in_quotes(status->text) + " is no status byte: two hexadecimal digits, as in `2F`");
    }
  }
}

}  // namespace whichwire
