#include "network/complaints.hpp"

#include <algorithm>
#include <numeric>

#include "network/utf8.hpp"

namespace whichwire::json {

namespace {

constexpr std::size_t most_listed = 200;
constexpr std::size_t longest_quoted = 60;  // characters
constexpr std::size_t columns_before = 50;  // of a long source line, around the place
constexpr std::size_t columns_shown = 76;

std::string cut(std::string_view text, std::size_t most) {
  std::size_t count = 0;
  for (std::size_t i = 0; i < text.size(); i += utf8::at(text, i).length) {
    if (++count > most) return printable(text.substr(0, i)) + "…";
  }
  return printable(text);
}

/// Byte offset of the character that lies `count` characters before `offset`, not before `first`.
std::size_t step_back(std::string_view text, std::size_t first, std::size_t offset, std::size_t count) {
  while (offset > first && count > 0) {
    --offset;
    if ((static_cast<unsigned char>(text[offset]) & 0xc0U) != 0x80U) --count;
  }
  return offset;
}

/// Walks through one text from front to back; the offsets asked for must not descend.
class Lines {
 public:
  explicit Lines(std::string_view text) : text_(text) {}

  void place(Mistake& mistake, std::size_t offset) {
    mistake.line = line_of(offset);
    offset = std::min(offset, text_.size());
    mistake.column = column_of(offset);
    const std::size_t from =
        offset - start_ > columns_shown ? step_back(text_, start_, offset, columns_before) : start_;
    const std::string before = (from > start_ ? "…" : "") + printable(text_.substr(from, offset - from));
    std::string_view rest = text_.substr(offset, 8 * columns_shown);  // more than can be shown
    rest = rest.substr(0, rest.find('\n'));
    if (rest.ends_with('\r')) rest.remove_suffix(1);
    const std::size_t used = utf8::columns_of(before);
    mistake.source_line = before + cut(rest, columns_shown > used ? columns_shown - used : 1);
    mistake.caret = used + 1;
  }

  std::size_t line_of(std::size_t offset) {
    const std::string_view before = text_.substr(0, offset);
    for (std::size_t end = before.find('\n', seen_); end != std::string_view::npos; end = before.find('\n', end + 1)) {
      start_ = end + 1;
      ++line_;
      column_at_ = start_;
      column_ = 1;
    }
    seen_ = before.size();
    return line_;
  }

 private:
  /// Columns are counted on from the last place in the same line, so that one long line costs one pass.
  std::size_t column_of(std::size_t offset) {
    while (column_at_ < offset) {
      const utf8::Character character = utf8::at(text_, column_at_);
      if (utf8::columns_of(character.code) > 0) ++column_;
      column_at_ += character.length;
    }
    return column_;
  }

  std::string_view text_;
  std::size_t seen_ = 0;
  std::size_t start_ = 0, line_ = 1;
  std::size_t column_at_ = 0, column_ = 1;
};

bool before(const Spot& a, const Spot& b) { return std::pair(a.source, a.offset) < std::pair(b.source, b.offset); }

std::vector<Lines> walks_of(const std::vector<Source>& sources) {
  std::vector<Lines> walks;
  walks.reserve(sources.size());
  for (const Source& source : sources) walks.emplace_back(source.text);
  return walks;
}

/// The line of each of the spots, which come in any order.
std::vector<std::size_t> lines_of(const std::vector<Spot>& spots, const std::vector<Source>& sources) {
  std::vector<std::size_t> order(spots.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) { return before(spots[a], spots[b]); });
  std::vector<Lines> walks = walks_of(sources);
  std::vector<std::size_t> lines(spots.size());
  for (const std::size_t i : order) lines[i] = walks[spots[i].source].line_of(spots[i].offset);
  return lines;
}

}  // namespace

std::string in_quotes(std::string_view text) { return "`" + cut(text, longest_quoted) + "`"; }

std::string did_you_mean(std::string_view word, const std::vector<std::string>& known) {
  const std::string meant = nearest(word, known);
  return meant.empty() ? std::string() : "; did you mean " + in_quotes(meant) + "?";
}

std::string Trail::text() const {
  if (kind == Kind::root) return {};
  std::string out = above != nullptr ? above->text() : std::string();
  if (kind == Kind::item) return out + "[" + std::to_string(index) + "]";
  if (!out.empty()) out += ".";
  return out + cut(key, longest_quoted);
}

bool Complaints::any_below(const Trail& trail, std::span<const std::string_view> harmless) const {
  if (all_.empty()) return false;
  const auto leads_below = [](std::string_view said, std::string_view path) {
    return said.starts_with(path) &&
           (said.size() == path.size() || said[path.size()] == '.' || said[path.size()] == '[');
  };
  const auto matters = [&](const Complaint& complaint) {
    const auto lies_below = [&](std::string_view key) { return leads_below(complaint.path, (trail / key).text()); };
    return leads_below(complaint.path, trail.text()) && std::none_of(harmless.begin(), harmless.end(), lies_below);
  };
  return full() || std::any_of(all_.begin(), all_.end(), matters);
}

bool Complaints::any_at(Spot spot) const {
  return std::any_of(all_.begin(), all_.end(), [&](const Complaint& complaint) { return complaint.spot == spot; });
}

bool Complaints::full() const { return all_.size() >= most_listed; }

void Complaints::add(Spot spot, std::string path, std::string message, std::optional<Spot> other) {
  if (full()) {
    ++unlisted_;
    return;
  }
  // A file is looked at by itself and together with its bases; what both find is said once.
  const bool said = std::ranges::any_of(all_, [&](const Complaint& complaint) {
    return complaint.placed && complaint.spot == spot && complaint.path == path && complaint.message == message;
  });
  if (!said) all_.push_back({spot, true, std::move(path), std::move(message), other});
}

void Complaints::add(Spot spot, const Trail& trail, std::string message, std::optional<Spot> other) {
  add(spot, full() ? std::string() : trail.text(), std::move(message), other);
}

void Complaints::add_whole(std::uint32_t source, std::string message) {
  if (full()) {
    ++unlisted_;
    return;
  }
  all_.push_back({{source, 0}, false, {}, std::move(message), {}});
}

std::vector<Mistake> Complaints::mistakes(const std::vector<Source>& sources) const {
  std::vector<const Complaint*> order;
  order.reserve(all_.size());
  std::vector<Spot> others;
  others.reserve(all_.size());
  for (const Complaint& complaint : all_) order.push_back(&complaint);
  std::stable_sort(order.begin(), order.end(),
                   [](const Complaint* a, const Complaint* b) { return before(a->spot, b->spot); });
  for (const Complaint* complaint : order) others.push_back(complaint->other.value_or(Spot{}));
  const std::vector<std::size_t> lines_of_others = lines_of(others, sources);
  std::vector<Lines> walks = walks_of(sources);
  std::vector<Mistake> out;
  for (const Complaint* complaint : order) {
    Mistake mistake;
    mistake.file = sources[complaint->spot.source].name;
    mistake.path = complaint->path;
    mistake.message = complaint->message;
    if (complaint->placed) walks[complaint->spot.source].place(mistake, complaint->spot.offset);
    if (complaint->other) {
      mistake.message += " (the first is in line " + std::to_string(lines_of_others[out.size()]);
      const std::uint32_t other = complaint->other->source;
      mistake.message += other == complaint->spot.source ? ")" : " of " + sources[other].name + ")";
    }
    out.push_back(std::move(mistake));
  }
  if (unlisted_ > 0) {
    Mistake mistake;
    mistake.file = sources.empty() ? std::string() : sources.front().name;
    mistake.message = "and " + std::to_string(unlisted_) + " more mistakes, which are not listed";
    out.push_back(std::move(mistake));
  }
  return out;
}

}  // namespace whichwire::json
