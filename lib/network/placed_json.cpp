#include "network/placed_json.hpp"

#include <algorithm>
#include <iterator>
#include <nlohmann/json.hpp>
#include <numeric>

#include "network/counting_input.hpp"
#include "network/syntax_words.hpp"
#include "network/text_check.hpp"

namespace whichwire::json {

namespace {

/// Builds the tree from nlohmann_json's events. An event comes when its token has been read, at most one byte more.
class Builder {
 public:
  Builder(std::string_view text, std::uint32_t source, Complaints& complaints, const Limits& limits)
      : text_(text), input_(text), source_(source), complaints_(complaints), limits_(limits) {}

  CountingInput* input() { return &input_; }
  Value take() { return std::move(root_); }

  bool null() { return add_scalar({}); }
  bool boolean(bool truth) {
    Value value;
    value.kind = Value::Kind::boolean;
    value.truth = truth;
    return add_scalar(std::move(value));
  }
  bool number_integer(std::int64_t number) { return add_number(static_cast<double>(number)); }
  bool number_unsigned(std::uint64_t number) { return add_number(static_cast<double>(number)); }
  bool number_float(double number, const std::string&) { return add_number(number); }
  bool string(std::string& text) {
    if (text.size() > limits_.text_bytes) return too_much_text(text.size());
    Value value;
    value.kind = Value::Kind::text;
    value.text = std::move(text);
    return add_scalar(std::move(value));
  }
  static bool binary(std::vector<std::uint8_t>&) { return false; }  // no such thing in JSON text

  bool start_object(std::size_t) { return open(Value::Kind::object); }
  bool start_array(std::size_t) { return open(Value::Kind::list); }
  bool end_object() {
    drop_duplicates();
    return close();
  }
  bool end_array() { return close(); }

  bool key(std::string& key) {
    if (key.size() > limits_.text_bytes) return too_much_text(key.size());
    const Spot spot = token();
    std::vector<Member>& members = open_.back()->members;
    if (members.empty()) members.reserve(4);
    members.push_back({std::move(key), spot, {}});
    awaiting_ = true;
    return true;
  }

  bool parse_error(std::size_t, const std::string&, const nlohmann::json::exception& error) {
    const std::size_t start = token_start(text_, done_);
    const bool complete = values_ > 0 && open_.empty();
    if (input_.open_comment() != std::string_view::npos) {
      complaints_.add(spot(input_.open_comment()), path(), "this comment is not closed by */");
    } else if (input_.over() && start >= text_.size() && !complete) {
      complaints_.add(spot(text_.size()), path(), truncated());
    } else {
      // A comma or colon is no event, so `start` may lie behind the one that is wrong.
      const std::size_t last_read = input_.count() > 0 ? input_.count() - 1 : 0;
      complaints_.add(spot(std::min(start, last_read)), path(), syntax_words(error.what()));
    }
    return false;
  }

 private:
  Spot spot(std::size_t offset) const { return {source_, static_cast<std::uint32_t>(offset)}; }

  /// The place of the token of this event; moves on behind it.
  Spot token() {
    const std::size_t start = token_start(text_, done_);
    done_ = std::max(input_.count(), start);
    return spot(start);
  }

  /// As `token`, for a number: nlohmann_json has read one byte more to see its end.
  Spot number_token() {
    const std::size_t start = token_start(text_, done_);
    done_ = number_end(text_, start);
    return spot(start);
  }

  bool add_number(double number) {
    Value value;
    value.kind = Value::Kind::number;
    value.number = number;
    value.spot = number_token();
    return add(std::move(value)) != nullptr;
  }

  bool add_scalar(Value value) {
    value.spot = token();
    return add(std::move(value)) != nullptr;
  }

  /// Puts the value where it belongs and says where it lies now, or null when there are too many.
  Value* add(Value value) {
    if (++values_ > limits_.values) {
      complaints_.add(
          value.spot, path(),
          "there are more than " + std::to_string(limits_.values) + " values in this text; it is too large to read");
      return nullptr;
    }
    awaiting_ = false;
    if (open_.empty()) {
      root_ = std::move(value);
      return &root_;
    }
    Value& parent = *open_.back();
    if (parent.is(Value::Kind::list)) return &parent.items.emplace_back(std::move(value));
    return &(parent.members.back().value = std::move(value));
  }

  bool open(Value::Kind kind) {
    Value value;
    value.kind = kind;
    value.spot = token();
    if (open_.size() >= limits_.depth) {
      complaints_.add(
          value.spot, std::string(),
          "brackets are nested deeper than " + std::to_string(limits_.depth) + " levels; it is too deep to read");
      return false;
    }
    Value* const added = add(std::move(value));
    if (added != nullptr) open_.push_back(added);
    return added != nullptr;
  }

  bool close() {
    token();
    open_.pop_back();
    return true;
  }

  bool too_much_text(std::size_t size) {
    complaints_.add(token(), path(),
                    "this text is " + std::to_string(size) + " bytes long; at most " +
                        std::to_string(limits_.text_bytes) + " are read");
    return false;
  }

  /// Numbers of the members in the order of their keys, equal ones in the order of the text.
  static std::vector<std::uint32_t> by_key(const std::vector<Member>& members) {
    std::vector<std::uint32_t> order(members.size());
    std::iota(order.begin(), order.end(), std::uint32_t{0});
    std::sort(order.begin(), order.end(), [&](std::uint32_t a, std::uint32_t b) {
      const int sign = members[a].key.compare(members[b].key);
      return sign != 0 ? sign < 0 : a < b;
    });
    return order;
  }

  void drop_duplicates() {
    std::vector<Member>& members = open_.back()->members;
    if (members.size() < 2) return;
    const std::vector<std::uint32_t> order = by_key(members);
    std::vector<bool> again(members.size(), false);
    std::size_t first = 0;
    for (std::size_t i = 1; i < order.size(); ++i) {
      if (members[order[i]].key != members[order[first]].key) {
        first = i;
        continue;
      }
      again[order[i]] = true;
      say_duplicate(members[order[i]], members[order[first]]);
    }
    std::size_t kept = 0;
    for (std::size_t i = 0; i < members.size(); ++i) {
      if (again[i]) continue;
      if (kept != i) members[kept] = std::move(members[i]);
      ++kept;
    }
    members.erase(members.begin() + static_cast<std::ptrdiff_t>(kept), members.end());
  }

  void say_duplicate(const Member& twice, const Member& first) {
    if (complaints_.full()) return complaints_.add(twice.spot, std::string(), std::string());
    complaints_.add(twice.spot, joined(path(), twice.key),
                    "the key " + in_quotes(twice.key) + " stands twice in one object", first.spot);
  }

  static std::string joined(std::string path, std::string_view key) {
    if (!path.empty()) path += ".";
    return path + Trail{nullptr, key, 0, Trail::Kind::key}.text();
  }

  /// The path of the innermost open bracket, or of the key whose value is read now.
  std::string path() const {
    std::string out;
    for (const Value* value : open_) {
      if (value == open_.back() && !awaiting_) break;
      if (value->is(Value::Kind::list)) {
        out += "[" + std::to_string(value->items.size() - 1) + "]";
      } else {
        out = joined(std::move(out), value->members.back().key);
      }
    }
    return out;
  }

  std::string truncated() const {
    if (open_.empty()) return "the text holds nothing to read";
    const bool list = open_.back()->is(Value::Kind::list);
    const std::string bracket = list ? "[" : "{";
    const std::size_t before = open_.back()->spot.offset;
    const auto line = 1 + std::count(text_.begin(), text_.begin() + static_cast<std::ptrdiff_t>(before), '\n');
    return "the text ends here, but the `" + bracket + "` of line " + std::to_string(line) +
           " is not closed; is it cut off?";
  }

  std::string_view text_;
  CountingInput input_;
  std::uint32_t source_;
  Complaints& complaints_;
  const Limits& limits_;
  std::size_t done_ = 0;  // end of the last token
  std::size_t values_ = 0;
  bool awaiting_ = false;  // a key has been read, its value not yet
  Value root_;
  std::vector<Value*> open_;  // stays valid: only the innermost grows
};

}  // namespace

std::optional<Value> parse(std::string_view text, std::uint32_t source, Complaints& complaints, const Limits& limits) {
  if (!readable(text, source, complaints, limits.bytes)) return {};
  Builder builder(text, source, complaints, limits);
  const CountingIterator begin(builder.input());
  constexpr auto format = nlohmann::json::input_format_t::json;
  if (!nlohmann::json::sax_parse(begin, CountingIterator(), &builder, format, true, true)) return {};
  return builder.take();
}

const Member* find_member(const Value& object, std::string_view key) {
  for (const Member& member : object.members) {
    if (member.key == key) return &member;
  }
  return nullptr;
}

const Value* find(const Value& object, std::string_view key) {
  const Member* const member = find_member(object, key);
  return member == nullptr ? nullptr : &member->value;
}

std::string_view word_for(Value::Kind kind) {
  switch (kind) {
    case Value::Kind::null:
      return "nothing (null)";
    case Value::Kind::boolean:
      return "true or false";
    case Value::Kind::number:
      return "a number";
    case Value::Kind::text:
      return "a text";
    case Value::Kind::list:
      return "a list";
    case Value::Kind::object:
      return "an object";
  }
  return {};
}

}  // namespace whichwire::json
