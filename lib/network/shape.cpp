#include "network/shape.hpp"

#include <algorithm>
#include <cmath>
#include <sstream>
#include <unordered_set>

#include "network/utf8.hpp"

namespace whichwire::json {

namespace {

std::string plain(double number) {
  std::ostringstream out;
  out.precision(12);
  out << number;
  return out.str();
}

std::string listed(std::span<const std::string_view> words, std::string_view last_link) {
  std::string out;
  for (std::size_t i = 0; i < words.size(); ++i) {
    if (i > 0) out += i + 1 == words.size() ? std::string(last_link) : ", ";
    out += "`" + std::string(words[i]) + "`";
  }
  return out;
}

Value::Kind json_kind(Shape::Kind kind) {
  switch (kind) {
    case Shape::Kind::text:
    case Shape::Kind::id:
    case Shape::Kind::word:
      return Value::Kind::text;
    case Shape::Kind::number:
    case Shape::Kind::whole:
      return Value::Kind::number;
    case Shape::Kind::truth:
      return Value::Kind::boolean;
    case Shape::Kind::list:
      return Value::Kind::list;
    case Shape::Kind::map:
    case Shape::Kind::record:
      return Value::Kind::object;
  }
  return Value::Kind::null;
}

class Walker {
 public:
  explicit Walker(Complaints& complaints) : complaints_(complaints) {}

  void walk(const Value& value, const Shape& shape, const Trail& trail, Extent extent) {
    if (complaints_.full()) {
      complaints_.add(value.spot, trail, std::string());  // counted, not listed
      return;
    }
    if (!value.is(json_kind(shape.kind))) {
      say(value, trail,
          std::string(word_for(json_kind(shape.kind))) + " is expected here, not " + std::string(word_for(value.kind)));
      return;
    }
    switch (shape.kind) {
      case Shape::Kind::text:
      case Shape::Kind::id:
        return walk_text(value.text, value.spot, shape, trail);
      case Shape::Kind::word:
        return walk_word(value, shape, trail);
      case Shape::Kind::number:
      case Shape::Kind::whole:
        return walk_number(value, shape, trail);
      case Shape::Kind::truth:
        return;
      case Shape::Kind::list:
        return walk_list(value, shape, trail);
      case Shape::Kind::map:
        return walk_map(value, shape, trail, extent);
      case Shape::Kind::record:
        return walk_record(value, shape, trail, extent);
    }
  }

 private:
  void say(const Value& value, const Trail& trail, std::string message) {
    complaints_.add(value.spot, trail, std::move(message));
  }

  void walk_text(const std::string& text, Spot spot, const Shape& shape, const Trail& trail) {
    std::size_t characters = 0;
    bool something = false;
    for (std::size_t i = 0; i < text.size(); ++characters) {
      const utf8::Character character = utf8::at(text, i);
      const bool blank = utf8::blank(character.code);
      if (!character.valid || utf8::harmful(character.code)) {
        const std::string shown = in_quotes(std::string_view(text).substr(i, character.length));
        return complaints_.add(spot, trail, "the character " + shown + " does not belong in a text");
      }
      if (shape.kind == Shape::Kind::id && (blank || character.code == '/' || character.code == ':')) {
        return complaints_.add(spot, trail, in_quotes(text) + " is no id: an id holds no blank, no `/` and no `:`");
      }
      something = something || !blank;
      i += character.length;
    }
    if (!something) return complaints_.add(spot, trail, "this text is empty");
    if (characters <= shape.most) return;
    complaints_.add(spot, trail,
                    "this text has " + std::to_string(characters) + " characters; at most " +
                        std::to_string(shape.most) + " are read");
  }

  void walk_word(const Value& value, const Shape& shape, const Trail& trail) {
    if (std::find(shape.words.begin(), shape.words.end(), value.text) != shape.words.end()) return;
    const std::vector<std::string> known(shape.words.begin(), shape.words.end());
    say(value, trail,
        in_quotes(value.text) + " is not known; " + listed(shape.words, " or ") + " is expected here" +
            did_you_mean(value.text, known));
  }

  void walk_number(const Value& value, const Shape& shape, const Trail& trail) {
    const double number = value.number;
    if (shape.kind == Shape::Kind::whole && number != std::floor(number)) {
      return say(value, trail, "a whole number is expected here, not " + plain(number));
    }
    if (number > shape.low && number <= shape.high) return;
    if (number == shape.low && !shape.above_low) return;
    const std::string range = shape.above_low ? "above " + plain(shape.low) + " and at most " + plain(shape.high)
                                              : "from " + plain(shape.low) + " to " + plain(shape.high);
    say(value, trail, plain(number) + " is out of range; " + range + " is possible here");
  }

  /// Whether the number of entries is fit to be looked at one by one.
  bool walk_count(std::size_t count, const Value& value, const Shape& shape, const Trail& trail, Extent extent) {
    if (count > shape.most) {
      say(value, trail,
          "there are " + std::to_string(count) + " entries here; at most " + std::to_string(shape.most) + " are read");
      complaints_.stop();
      return false;
    }
    if (count < shape.least && extent == Extent::whole) {
      say(value, trail,
          shape.least == 1 ? std::string("at least one entry is expected here")
                           : "at least " + std::to_string(shape.least) + " entries are expected here");
    }
    return true;
  }

  void walk_list(const Value& value, const Shape& shape, const Trail& trail) {
    if (!walk_count(value.items.size(), value, shape, trail, Extent::whole)) return;
    std::unordered_set<std::string_view> seen;
    for (std::size_t i = 0; i < value.items.size(); ++i) {
      const Value& item = value.items[i];
      walk(item, *shape.each, trail / i, Extent::whole);
      if (shape.unique && item.is(Value::Kind::text) && !seen.insert(item.text).second) {
        say(item, trail / i, in_quotes(item.text) + " stands twice in this list");
      }
    }
  }

  void walk_map(const Value& value, const Shape& shape, const Trail& trail, Extent extent) {
    if (!walk_count(value.members.size(), value, shape, trail, extent)) return;
    for (const Member& member : value.members) {
      const Trail below = trail / member.key;
      if (shape.key != nullptr) walk_text(member.key, member.spot, *shape.key, below);
      walk(member.value, *shape.each, below, extent);
    }
  }

  void walk_record(const Value& value, const Shape& shape, const Trail& trail, Extent extent) {
    for (const Member& member : value.members) {
      const auto field = std::find_if(shape.fields.begin(), shape.fields.end(),
                                      [&](const Field& known) { return known.key == member.key; });
      if (field == shape.fields.end()) {
        unknown_key(member, shape, trail);
      } else {
        walk(member.value, *field->shape, trail / member.key, extent);
      }
    }
    for (const Field& field : shape.fields) {
      const bool wanted = field.always || (field.required && extent == Extent::whole);
      if (wanted && find(value, field.key) == nullptr)
        say(value, trail, "the key `" + std::string(field.key) + "` is missing");
    }
    walk_choice(value, shape, trail, extent);
  }

  void walk_choice(const Value& value, const Shape& shape, const Trail& trail, Extent extent) {
    const auto there = [&](std::string_view key) { return find(value, key) != nullptr; };
    const auto chosen = std::count_if(shape.one_of.begin(), shape.one_of.end(), there);
    const bool none = chosen == 0 && extent == Extent::whole && !shape.one_of.empty();
    if (none || chosen > 1) {
      say(value, trail,
          "exactly one of the keys " + listed(shape.one_of, " and ") + " is expected here, not " +
              (none ? "none" : std::to_string(chosen)));
    }
    if (!shape.any_of.empty() && std::none_of(shape.any_of.begin(), shape.any_of.end(), there)) {
      say(value, trail, "at least one of the keys " + listed(shape.any_of, " and ") + " is expected here");
    }
  }

  void unknown_key(const Member& member, const Shape& shape, const Trail& trail) {
    if (complaints_.full()) return complaints_.add(member.spot, trail, std::string());
    std::vector<std::string> known;
    for (const Field& field : shape.fields) known.emplace_back(field.key);
    std::string hint = did_you_mean(member.key, known);
    if (hint.empty()) {
      std::vector<std::string_view> keys;
      for (const Field& field : shape.fields) keys.push_back(field.key);
      hint = "; known here: " + listed(keys, ", ");
    }
    complaints_.add(member.spot, trail / member.key, "the key " + in_quotes(member.key) + " is not known" + hint);
  }

  Complaints& complaints_;
};

}  // namespace

void check_shape(const Value& value, const Shape& shape, const Trail& trail, Extent extent, Complaints& complaints) {
  Walker(complaints).walk(value, shape, trail, extent);
}

}  // namespace whichwire::json
