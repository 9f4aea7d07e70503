// Collects everything that is wrong with one or more texts, and turns it into mistakes with places at the end.
// Places are byte offsets while reading; lines, columns and source lines are worked out only for what is wrong.
// Tested in tests/network/placed_json_test.cpp.
#pragma once

#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>
#include <whichwire/mistake.hpp>

namespace whichwire::json {

/// A byte in one of the texts that are read together.
struct Spot {
  std::uint32_t source = 0;  ///< into the sources
  std::uint32_t offset = 0;
  friend bool operator==(const Spot&, const Spot&) = default;
};

struct Source {
  std::string name;       ///< as it stands in messages
  std::string_view text;  ///< kept alive by the caller
};

/// The way to a value, as a chain on the stack; becomes text only for a mistake.
struct Trail {
  const Trail* above = nullptr;
  std::string_view key;
  std::size_t index = 0;
  enum class Kind : std::uint8_t { root, key, item } kind = Kind::root;

  Trail operator/(std::string_view child) const { return {this, child, 0, Kind::key}; }
  Trail operator/(std::size_t child) const { return {this, {}, child, Kind::item}; }
  /// `buses.DRV.segments.DRV-2.from`, `modules.ECM.power[0]`; long keys are cut.
  std::string text() const;
};

/// `text` in quotes, made printable, and cut when it is long: for messages.
std::string in_quotes(std::string_view text);

/// "; did you mean `X`?" or nothing.
std::string did_you_mean(std::string_view word, const std::vector<std::string>& known);

class Complaints {
 public:
  /// `other` is a second place, whose line is added to the message as "(the first is in line N)".
  void add(Spot spot, std::string path, std::string message, std::optional<Spot> other = {});
  void add(Spot spot, const Trail& trail, std::string message, std::optional<Spot> other = {});

  /// Something about the whole text, with no place in it.
  void add_whole(std::uint32_t source, std::string message);

  bool empty() const { return all_.empty(); }
  std::size_t count() const { return all_.size() + unlisted_; }
  /// Whether something at or below this path has been said, but for what lies below its `harmless` keys;
  /// true when too much has been said to know.
  bool any_below(const Trail& trail, std::span<const std::string_view> harmless = {}) const;
  /// Whether something at exactly this place has been said.
  bool any_at(Spot spot) const;
  /// The text is too large to be worth a further look; said already.
  void stop() { stopped_ = true; }
  bool stopped() const { return stopped_; }

  /// No more are listed: what is added now is only counted.
  bool full() const;

  /// In the order of the texts; the last says how many are not listed, when there are too many.
  std::vector<Mistake> mistakes(const std::vector<Source>& sources) const;

 private:
  struct Complaint {
    Spot spot;
    bool placed = true;
    std::string path, message;
    std::optional<Spot> other;
  };
  std::vector<Complaint> all_;
  std::size_t unlisted_ = 0;
  bool stopped_ = false;
};

}  // namespace whichwire::json
