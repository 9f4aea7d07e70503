// Feeds up to the battery, grounds, and the pins that hang from them. Tested in tests/network/supply_test.cpp.
#include "network/draft.hpp"

namespace whichwire {

namespace {

using json::Trail;
using json::Value;

Feed::Kind feed_kind(const std::string& word) {
  if (word == "relay") return Feed::Kind::relay;
  if (word == "fusible-link") return Feed::Kind::fusible_link;
  if (word == "switch") return Feed::Kind::switched;
  return Feed::Kind::fuse;
}

constexpr std::array<KeyState, 4> key_states{KeyState::off, KeyState::accessory, KeyState::run, KeyState::start};

std::array<bool, 4> stated_live(const Value& feed) {
  std::array<bool, 4> live{};
  for (const Value& word : json::items_in(feed, "live")) {
    for (const KeyState key : key_states) live[static_cast<std::size_t>(key)] |= word.text == word_for(key);
  }
  return live;
}

/// Cuts each loop of feeds once, at the feed that closes it, and says so.
void refuse_loops(Draft& draft) {
  std::vector<Feed>& feeds = draft.network.feeds;
  enum class State : std::uint8_t { fresh, on_the_way, done };
  std::vector<State> states(feeds.size(), State::fresh);
  for (std::size_t start = 0; start < feeds.size(); ++start) {
    std::vector<std::size_t> way;
    std::size_t at = start;
    while (at != nowhere && states[at] == State::fresh) {
      states[at] = State::on_the_way;
      way.push_back(at);
      at = feeds[at].from;
    }
    if (at != nowhere && states[at] == State::on_the_way) {
      const std::size_t last = way.back();
      const json::Member& member = *draft.feeds[last];
      const Value* const from = json::find(member.value, "from");
      const Trail root;
      const Trail all = root / "feeds";
      const Trail one = all / member.key;
      std::string loop = json::in_quotes(feeds[last].id);
      for (std::size_t i = feeds[last].from; i != last; i = feeds[i].from)
        loop += " from " + json::in_quotes(feeds[i].id);
      draft.say(from == nullptr ? member.spot : from->spot, one / "from",
                "feeds go in a circle: " + loop + " from " + json::in_quotes(feeds[last].id) +
                    "; each must come from the battery in the end");
      feeds[last].from = nowhere;
    }
    for (const std::size_t i : way) states[i] = State::done;
  }
}

/// A feed that does not say when it is live is live when the one above it is; the battery always is.
void inherit_live(Draft& draft) {
  std::vector<Feed>& feeds = draft.network.feeds;
  const auto states_it = [&](std::size_t i) { return json::find(draft.feeds[i]->value, "live") != nullptr; };
  std::vector<bool> known(feeds.size(), false);
  for (std::size_t start = 0; start < feeds.size(); ++start) {
    std::vector<std::size_t> way;
    std::size_t at = start;
    for (; at != nowhere && !known[at] && !states_it(at); at = feeds[at].from) way.push_back(at);
    const std::array<bool, 4> live = at == nowhere ? std::array<bool, 4>{true, true, true, true}
                                     : known[at]   ? feeds[at].live
                                                   : stated_live(draft.feeds[at]->value);
    if (at != nowhere) {
      feeds[at].live = live;
      known[at] = true;
    }
    for (const std::size_t i : way) {
      feeds[i].live = live;
      known[i] = true;
    }
  }
}

/// Nothing is live below a feed that is not.
void compare_live(Draft& draft) {
  const std::vector<Feed>& feeds = draft.network.feeds;
  for (std::size_t i = 0; i < feeds.size(); ++i) {
    if (feeds[i].from == nowhere) continue;
    for (const KeyState key : key_states) {
      const auto k = static_cast<std::size_t>(key);
      const Feed& above = feeds[feeds[i].from];
      if (!feeds[i].live[k] || above.live[k]) continue;
      const Value* const live = json::find(draft.feeds[i]->value, "live");
      const Trail root;
      const Trail all = root / "feeds";
      const Trail one = all / feeds[i].id;
      draft.say(live == nullptr ? draft.feeds[i]->spot : live->spot, one / "live",
                json::in_quotes(feeds[i].id) + " cannot be live with the key at `" + std::string(word_for(key)) +
                    "`: " + json::in_quotes(above.id) + " above it is not");
      break;
    }
  }
}

/// The pins of one key, each with what `add` makes of it.
template <class Add>
void each_pin(const Value& owner, std::string_view key, const Trail& trail, const Add& add) {
  const Trail list = trail / key;
  std::size_t i = 0;
  for (const Value& pin : json::items_in(owner, key)) add(pin, list / i++);
}

}  // namespace

Place place_of(const Value& value) {
  return {json::text_in(value, "where"), json::number_in(value, "minutes"), json::texts_in(value, "hazards")};
}

LinePins line_pins(const Value& value) { return {json::text_in(value, "high"), json::text_in(value, "low")}; }

std::vector<PowerPin> power_pins(Draft& draft, const Value& owner, const Trail& trail) {
  std::vector<PowerPin> pins;
  each_pin(owner, "power", trail, [&](const Value& pin, const Trail& here) {
    const Value* const feed = json::find(pin, "feed");
    const std::size_t index = feed == nullptr ? nowhere : draft.ids.find(Ids::Sort::feed, *feed, here / "feed");
    pins.push_back({json::text_in(pin, "pin"), index, json::text_in(pin, "wire")});
  });
  return pins;
}

std::vector<GroundPin> ground_pins(Draft& draft, const Value& owner, const Trail& trail) {
  std::vector<GroundPin> pins;
  each_pin(owner, "ground", trail, [&](const Value& pin, const Trail& here) {
    const Value* const ground = json::find(pin, "ground");
    const std::size_t index = ground == nullptr ? nowhere : draft.ids.find(Ids::Sort::ground, *ground, here / "ground");
    pins.push_back({json::text_in(pin, "pin"), index, json::text_in(pin, "wire")});
  });
  return pins;
}

void build_feeds(Draft& draft) {
  const Trail root;
  const Trail all = root / "feeds";
  for (std::size_t i = 0; i < draft.feeds.size(); ++i) {
    const json::Member& member = *draft.feeds[i];
    Feed& feed = draft.network.feeds[i];
    feed.id = member.key;
    feed.kind = feed_kind(json::text_in(member.value, "kind"));
    feed.amps = json::number_in(member.value, "amps");
    feed.place = place_of(member.value);
    const Value* const from = json::find(member.value, "from");
    const Trail one = all / member.key;
    if (from != nullptr && from->text != battery_id) feed.from = draft.ids.find(Ids::Sort::feed, *from, one / "from");
  }
  refuse_loops(draft);
  inherit_live(draft);
  compare_live(draft);
}

void build_grounds(Draft& draft) {
  for (const json::Member& member : json::members_in(draft.root, "grounds")) {
    draft.network.grounds.push_back({member.key, place_of(member.value)});
  }
}

}  // namespace whichwire
