// Reads `whichwire.scan.v1`. The shape is compared first; what only the meaning shows (a module twice, a status byte
// that is none, a function that the network does not have) is said with its place as well. A module that the network
// does not know is kept as written. Tested in tests/scan/read_scan.cpp, tests/bad/scan and tests/scan/schema.
#include <algorithm>
#include <array>
#include <unordered_map>
#include <unordered_set>
#include <whichwire/scan.hpp>

#include "network/tree.hpp"
#include "scan/fold.hpp"
#include "scan/hex.hpp"
#include "scan/names.hpp"
#include "scan/scan_shape.hpp"

namespace whichwire {

namespace {

using json::Spot;
using json::Trail;
using json::Value;

template <class Word, std::size_t count>
Word word_in(const Value& object, std::string_view key, const std::array<Word, count>& all, Word otherwise) {
  const std::string& text = json::text_in(object, key);
  const auto found = std::ranges::find(all, text, [](Word word) { return word_for(word); });
  return found == all.end() ? otherwise : *found;
}

constexpr std::array key_states{KeyState::off, KeyState::accessory, KeyState::run, KeyState::start};
constexpr std::array answers{Answer::yes,           Answer::no,        Answer::refused, Answer::not_fitted,
                             Answer::not_reachable, Answer::not_polled};
constexpr std::array states{CodeState::current, CodeState::pending, CodeState::history, CodeState::not_tested,
                            CodeState::unknown};

std::string spelled(const Network& network, const std::vector<NameHit>& hits) {
  std::string text;
  for (std::size_t i = 0; i < hits.size(); ++i) {
    if (i > 0) text += i + 1 == hits.size() ? " or " : ", ";
    text += json::in_quotes(network.modules[hits[i].module].id);
  }
  return text;
}

class Reader {
 public:
  Reader(const Value& root, const Network* network, json::Complaints& complaints)
      : root_(root), network_(network), complaints_(complaints) {}

  Scan read(const std::string& name) {
    Scan scan;
    scan.name = name;
    scan.unit = json::text_in(root_, "unit");
    scan.taken = json::text_in(root_, "taken");
    if (const Value* const vehicle = json::find(root_, "vehicle"); vehicle != nullptr)
      scan.vehicle = {json::text_in(*vehicle, "make"), json::text_in(*vehicle, "model"),
                      json::text_in(*vehicle, "variant"), json::whole_in(*vehicle, "model_year").value_or(0)};
    scan.complaint = json::text_in(root_, "complaint");
    scan.key_stated = json::find(root_, "key") != nullptr;
    scan.key = word_in(root_, "key", key_states, KeyState::run);
    scan.battery_volts = json::number_in(root_, "battery_volts");
    scan.tool_has_own_battery = json::truth_in(root_, "tool_has_own_battery");
    const Trail top;
    const Trail modules = top / "modules";
    std::size_t i = 0;
    for (const Value& item : json::items_in(root_, "modules")) scan.modules.push_back(module_seen(item, modules / i++));
    const Trail functions = top / "functions";
    i = 0;
    for (const Value& item : json::items_in(root_, "functions"))
      scan.functions.push_back(function_seen(item, functions / i++));
    return scan;
  }

 private:
  /// The id of the module that the text names; the text itself where the network knows none.
  std::string module_named(const Value& value, const Trail& trail) {
    const std::string& text = value.text;
    if (network_ == nullptr || index_of(network_->modules, text) != nowhere) return text;
    if (!names_) names_.emplace(*network_);
    const std::vector<NameHit> hits = names_->find(text);
    if (hits.size() == 1) return network_->modules[hits[0].module].id;
    if (hits.size() > 1)
      complaints_.add(value.spot, trail,
                      json::in_quotes(text) + " may be " + spelled(*network_, hits) + "; say which by its id");
    return text;
  }

  /// The text names a role that would lead to this module, but the scan lists the module by its id as well: so there
  /// is another module of that role, which this network does not have.
  bool of_role_beside_id(const std::string& text) {
    if (!names_ || index_of(network_->modules, text) != nowhere) return false;
    const std::vector<NameHit> hits = names_->find(text);
    if (hits.size() != 1 || hits[0].kind != NameKind::role) return false;
    if (listed_.empty())
      for (const Value& item : json::items_in(root_, "modules")) listed_.insert(json::text_in(item, "module"));
    return listed_.contains(network_->modules[hits[0].module].id);
  }

  /// What stands at a place must not stand there a second time.
  void once(std::unordered_map<std::string, Spot>& seen, const std::string& key, std::string_view what, Spot spot,
            const Trail& trail) {
    const auto [first, fresh] = seen.try_emplace(key, spot);
    if (!fresh)
      complaints_.add(spot, trail, "the " + std::string(what) + " " + json::in_quotes(key) + " is listed already",
                      first->second);
  }

  ModuleSeen module_seen(const Value& item, const Trail& trail) {
    ModuleSeen seen;
    if (const Value* const name = json::find(item, "module"); name != nullptr && name->is(Value::Kind::text)) {
      const Trail here = trail / "module";
      seen.module = module_named(*name, here);
      if (of_role_beside_id(name->text)) seen.module = name->text;
      once(modules_, seen.module, "module", name->spot, here);
    }
    seen.answer = word_in(item, "answer", answers, Answer::not_polled);
    const Trail codes = trail / "codes";
    std::size_t i = 0;
    for (const Value& code : json::items_in(item, "codes")) seen.codes.push_back(code_seen(code, codes / i++));
    return seen;
  }

  CodeSeen code_seen(const Value& item, const Trail& trail) {
    CodeSeen seen;
    seen.text = json::text_in(item, "text");
    seen.volts = json::number_in(item, "volts");
    if (const Value* const misses = json::find(item, "misses"); misses != nullptr)
      seen.misses = missed(*misses, trail / "misses");
    if (const Value* const code = json::find(item, "code"); code != nullptr) {
      seen.written = code->text;
      seen.code = parse_code(code->text);
      if (!seen.code) nearly_a_code(*code, trail / "code");
    }
    if (json::find(item, "status") != nullptr) seen.status = status_byte(json::text_in(item, "status"));
    const CodeState otherwise = seen.status ? state_of_status(*seen.status) : CodeState::unknown;
    seen.state = word_in(item, "state", states, otherwise);
    return seen;
  }

  /// A module's id, or the role as it stands.
  std::string missed(const Value& value, const Trail& trail) {
    if (network_ != nullptr && index_of(network_->modules, value.text) != nowhere) return value.text;
    const bool role = std::ranges::binary_search(known_roles(), value.text);
    return role ? value.text : module_named(value, trail);
  }

  /// A network code with a slip of the finger would else count as a maker's own and say nothing.
  void nearly_a_code(const Value& value, const Trail& trail) {
    const std::string& text = value.text;
    const bool alike = text.size() > 1 && (text[0] == 'U' || text[0] == 'u') && hex_digit(text[1]) >= 0;
    if (!alike || own_code(text)) return;
    complaints_.add(value.spot, trail,
                    json::in_quotes(text) +
                        " is no network code: `U`, a digit from 0 to 3 and three more digits, as in `U0100` or "
                        "`U0100-87`");
  }

  bool own_code(const std::string& text) const {
    if (network_ == nullptr) return false;
    return std::ranges::any_of(network_->modules, [&](const Module& module) {
      return std::ranges::find(module.own_codes, text, &OwnCode::code) != module.own_codes.end();
    });
  }

  FunctionSeen function_seen(const Value& item, const Trail& trail) {
    FunctionSeen seen;
    seen.works = json::truth_in(item, "works");
    const Value* const name = json::find(item, "function");
    if (name == nullptr || !name->is(Value::Kind::text)) return seen;
    const Trail here = trail / "function";
    seen.function = function_named(*name, here);
    once(functions_, seen.function, "function", name->spot, here);
    return seen;
  }

  std::string function_named(const Value& value, const Trail& trail) {
    if (network_ == nullptr || index_of(network_->functions, value.text) != nowhere) return value.text;
    std::vector<std::string> known;
    for (const Function& function : network_->functions) {
      if (folded_key(function.name) == folded_key(value.text) || folded_key(function.id) == folded_key(value.text))
        return function.id;
      known.push_back(function.id);
    }
    complaints_.add(
        value.spot, trail,
        "the network has no function " + json::in_quotes(value.text) + json::did_you_mean(value.text, known));
    return value.text;
  }

  const Value& root_;
  const Network* network_;
  std::optional<NameIndex> names_;  // made when the first name is no id
  json::Complaints& complaints_;
  std::unordered_set<std::string_view> listed_;  // modules as the scan writes them
  std::unordered_map<std::string, Spot> modules_, functions_;
};

}  // namespace

Scan scan_of(const Value& root, const std::string& name, const Network* network, json::Complaints& complaints) {
  check_scan_shape(root, complaints);
  return Reader(root, network, complaints).read(name);
}

ScanResult read_scan(std::string_view text, const std::string& name, const Network* network) {
  json::Complaints complaints;
  ScanResult result;
  const std::optional<Value> root = json::parse(text, 0, complaints);
  if (root) result.scan = scan_of(*root, name, network, complaints);
  if (!complaints.empty()) result.scan.reset();
  result.mistakes = complaints.mistakes({{name, text}});
  return result;
}

}  // namespace whichwire
