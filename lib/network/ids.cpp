#include "network/ids.hpp"

#include <cctype>

namespace whichwire {

namespace {

std::string folded(std::string_view id) {
  std::string out(id);
  for (char& letter : out) letter = static_cast<char>(std::tolower(static_cast<unsigned char>(letter)));
  return out;
}

std::string_view word_for(Ids::Sort sort) {
  switch (sort) {
    case Ids::Sort::module:
      return "module";
    case Ids::Sort::point:
      return "point";
    case Ids::Sort::bus:
      return "bus";
    case Ids::Sort::segment:
      return "segment";
    case Ids::Sort::feed:
      return "feed";
    case Ids::Sort::ground:
      return "ground";
  }
  return {};
}

}  // namespace

void Ids::add(Sort sort, std::size_t index, const json::Member& member, const json::Trail& trail) {
  if (member.key.empty()) return;
  if (member.key == connector_id) {
    return complaints_.add(member.spot, trail, "`DLC` is the diagnostic connector; nothing else may have this id");
  }
  if (member.key == battery_id && sort == Sort::feed) {
    return complaints_.add(member.spot, trail, "`battery` is where feeds come from; no feed may have this id");
  }
  const auto [place, fresh] =
      by_folded_id_.try_emplace(folded(member.key), Entry{sort, index, member.key, member.spot});
  if (fresh) {
    known_[static_cast<std::size_t>(sort)].push_back(member.key);
    return;
  }
  const Entry& first = place->second;
  const bool same = first.id == member.key;
  complaints_.add(member.spot, trail,
                  same ? "the id " + json::in_quotes(member.key) + " names a " + std::string(word_for(first.sort)) +
                             " already; an id names one thing"
                       : "the id " + json::in_quotes(member.key) + " differs from " + json::in_quotes(first.id) +
                             " only in capital letters; an id names one thing",
                  first.spot);
}

const Ids::Entry* Ids::look_up(std::string_view id) const {
  const auto found = by_folded_id_.find(folded(id));
  return found != by_folded_id_.end() && found->second.id == id ? &found->second : nullptr;
}

void Ids::say_unknown(std::string_view id, std::string_view what, std::initializer_list<Sort> sorts, json::Spot spot,
                      const json::Trail& trail) const {
  if (complaints_.full()) return complaints_.add(spot, trail, {});
  std::vector<std::string> known;
  for (const Sort sort : sorts) {
    const auto& more = known_[static_cast<std::size_t>(sort)];
    known.insert(known.end(), more.begin(), more.end());
  }
  if (sorts.size() > 1) known.emplace_back(connector_id);  // an end
  if (*sorts.begin() == Sort::feed) known.emplace_back(battery_id);
  const Entry* const other = look_up(id);
  const std::string hint =
      other != nullptr ? "; it is a " + std::string(word_for(other->sort)) : json::did_you_mean(id, known);
  complaints_.add(spot, trail, "there is no " + std::string(what) + " " + json::in_quotes(id) + hint);
}

std::size_t Ids::find(Sort sort, std::string_view id, json::Spot spot, const json::Trail& trail) const {
  const Entry* const entry = look_up(id);
  if (entry != nullptr && entry->sort == sort) return entry->index;
  say_unknown(id, word_for(sort), {sort}, spot, trail);
  return nowhere;
}

std::size_t Ids::find(Sort sort, const json::Value& text, const json::Trail& trail) const {
  return text.text.empty() ? nowhere : find(sort, text.text, text.spot, trail);
}

End Ids::find_end(std::string_view id, json::Spot spot, const json::Trail& trail) const {
  if (id == connector_id) return {End::Kind::diagnostic_connector, nowhere};
  const Entry* const entry = look_up(id);
  if (entry != nullptr && entry->sort == Sort::module) return {End::Kind::module, entry->index};
  if (entry != nullptr && entry->sort == Sort::point) return {End::Kind::point, entry->index};
  say_unknown(id, "module or point", {Sort::module, Sort::point}, spot, trail);
  return {End::Kind::point, nowhere};
}

End Ids::find_end(const json::Value& text, const json::Trail& trail) const {
  return text.text.empty() ? End{End::Kind::point, nowhere} : find_end(text.text, text.spot, trail);
}

}  // namespace whichwire
