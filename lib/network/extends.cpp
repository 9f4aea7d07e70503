#include "network/extends.hpp"

#include <algorithm>
#include <filesystem>
#include <unordered_map>

#include "network/network_shape.hpp"
#include "network/read_file.hpp"
#include "network/tree.hpp"

namespace whichwire {

namespace {

using json::Member;
using json::Trail;
using json::Value;

constexpr std::size_t longest_chain = 8;

/// Takes the member at the dotted path away. Ids may hold dots themselves, so every way of reading the path is tried.
bool remove_at(Value& object, std::string_view path) {
  for (auto member = object.members.begin(); member != object.members.end(); ++member) {
    if (member->key == path) {
      object.members.erase(member);
      return true;
    }
    const bool leads_on =
        path.size() > member->key.size() + 1 && path.starts_with(member->key) && path[member->key.size()] == '.';
    if (leads_on && remove_at(member->value, path.substr(member->key.size() + 1))) return true;
  }
  return false;
}

/// For a path that leads nowhere: what it was probably meant to be.
std::string suggestion(const Value& object, std::string_view path, const std::string& before) {
  std::vector<std::string> keys;
  for (const Member& member : object.members) {
    const std::string step = member.key + ".";
    if (path.starts_with(step)) return suggestion(member.value, path.substr(step.size()), before + step);
    keys.push_back(member.key);
  }
  const std::size_t dot = path.find('.');
  const std::string meant = nearest(path.substr(0, dot), keys);
  if (meant.empty()) return {};
  return "; did you mean " +
         json::in_quotes(before + meant + (dot == std::string_view::npos ? "" : std::string(path.substr(dot)))) + "?";
}

void overlay(Value& base, Value&& change) {
  base.members.reserve(base.members.size() + change.members.size());  // keeps the keys where the index sees them
  std::unordered_map<std::string_view, std::size_t> index;
  for (std::size_t i = 0; i < base.members.size(); ++i) index.emplace(base.members[i].key, i);
  for (Member& stated : change.members) {
    const auto found = index.find(stated.key);
    if (found == index.end()) {
      base.members.push_back(std::move(stated));
      continue;
    }
    Member& same = base.members[found->second];
    same.spot = stated.spot;
    if (same.value.is(Value::Kind::object) && stated.value.is(Value::Kind::object)) {
      same.value.spot = stated.value.spot;
      overlay(same.value, std::move(stated.value));
    } else {
      same.value = std::move(stated.value);
    }
  }
}

class Chain {
 public:
  explicit Chain(NetworkTexts& reading) : reading_(reading) {}

  std::optional<Value> tree_of(std::uint32_t source) {
    std::optional<Value> tree = json::parse(reading_.sources[source].text, source, reading_.complaints);
    if (!tree || !check_network_shape(*tree, reading_.complaints)) return {};
    const Value* const extends = json::find(*tree, "extends");
    if (extends == nullptr) {
      if (const Member* const remove = json::find_member(*tree, "remove")) {
        say(remove->spot, "remove", "only a file that `extends` another can remove something");
      }
      return tree;
    }
    if (extends->text.empty()) return {};
    const std::optional<std::uint32_t> opened = open_base(source, *extends);
    std::optional<Value> base = opened ? tree_of(*opened) : std::nullopt;
    if (!base) return {};
    return merged(std::move(*base), std::move(*tree));
  }

 private:
  void say(json::Spot spot, std::string_view key, std::string message) {
    reading_.complaints.add(spot, Trail{} / key, std::move(message));
  }

  /// Reads the file that `extends` names, beside the file of number `source`.
  std::optional<std::uint32_t> open_base(std::uint32_t source, const Value& extends) {
    const auto refuse = [&](const std::string& why) -> std::optional<std::uint32_t> {
      say(extends.spot, "extends", "the base " + json::in_quotes(extends.text) + " " + why);
      return {};
    };
    const std::filesystem::path named(extends.text);
    const bool leads_out = named.is_absolute() || std::find(named.begin(), named.end(), "..") != named.end();
    if (leads_out) return refuse("lies elsewhere; a base lies beside the file that extends it, or in a folder there");
    const std::string path =
        (std::filesystem::path(reading_.sources[source].name).parent_path() / named).lexically_normal().string();
    if (reading_.sources.size() >= longest_chain) {
      return refuse("is one too many: at most " + std::to_string(longest_chain) + " files extend each other");
    }
    for (const json::Source& before : reading_.sources) {
      if (std::filesystem::path(before.name).lexically_normal() == path)
        return refuse("leads back to a file that extends it");
    }
    FileText file = read_file(path, json::Limits().bytes);
    if (!file.text) return refuse(file.error);
    reading_.bases.push_back(std::move(*file.text));
    reading_.sources.push_back({path, reading_.bases.back()});
    return static_cast<std::uint32_t>(reading_.sources.size() - 1);
  }

  Value merged(Value base, Value change) {
    const std::vector<Value>& removals = json::items_in(change, "remove");
    for (std::size_t i = 0; i < removals.size(); ++i) {
      const std::string& path = removals[i].text;
      if (path.empty() || remove_at(base, path)) continue;
      reading_.complaints.add(removals[i].spot, Trail{} / "remove" / i,
                              "the base has nothing at " + json::in_quotes(path) + suggestion(base, path, {}));
    }
    remove_at(change, "extends");
    remove_at(change, "remove");
    base.spot = change.spot;
    overlay(base, std::move(change));
    return base;
  }

  NetworkTexts& reading_;
};

}  // namespace

std::optional<json::Value> whole_tree(NetworkTexts& reading) {
  std::optional<Value> tree = Chain(reading).tree_of(0);
  const bool joined = reading.sources.size() > 1;
  if (tree && joined) {
    json::check_shape(*tree, network_shape(), {}, json::Extent::whole, reading.complaints);
  }
  return tree;
}

}  // namespace whichwire
