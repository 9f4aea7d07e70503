// What differs between two networks, at the parts of one of them. Tests: tests/page/compared.cpp.
#include <algorithm>
#include <map>
#include <whichwire/picture.hpp>

namespace whichwire {

namespace {

using Kind = Difference::Kind;
using Sort = Difference::Sort;

Part segment_called(const Network& network, std::string_view id) {
  for (std::size_t bus = 0; bus < network.buses.size(); ++bus) {
    const std::size_t index = index_of(network.buses[bus].segments, id);
    if (index != nowhere) return {Part::Kind::segment, index, bus};
  }
  return {};
}

class Distinctions {
 public:
  Distinctions(const Network& network, const std::vector<Difference>& differences, bool in_b)
      : network_(network), in_b_(in_b) {
    for (const Difference& one : differences)
      if (one.sort == Sort::renamed) name_in_b_[one.a] = one.b;
    for (const Difference& one : differences) add(one);
  }

  Marks take() {
    const auto count = [&](Distinction::Kind kind, const std::string& words) {
      const auto many = std::ranges::count(marks_.distinctions, kind, &Distinction::kind);
      if (many > 0) marks_.headline += (marks_.headline.empty() ? "" : ", ") + std::to_string(many) + words;
    };
    count(Distinction::Kind::only_here, " only here");
    count(Distinction::Kind::changed, " not as in the other");
    count(Distinction::Kind::renamed, " with another name there");
    return std::move(marks_);
  }

 private:
  void add(const Difference& one) {
    const bool elsewhere = one.sort == (in_b_ ? Sort::only_in_a : Sort::only_in_b);
    const Part part = elsewhere ? Part{} : part_of(one);
    if (part.kind == Part::Kind::none) return;
    marks_.distinctions.push_back({part, kind_of(one.sort), words_of(one)});
  }

  static Distinction::Kind kind_of(Sort sort) {
    if (sort == Sort::renamed) return Distinction::Kind::renamed;
    return sort == Sort::changed ? Distinction::Kind::changed : Distinction::Kind::only_here;
  }

  /// The name in this network of what A calls so.
  std::string here(const std::string& id) const {
    const auto found = in_b_ ? name_in_b_.find(id) : name_in_b_.end();
    return found == name_in_b_.end() ? id : found->second;
  }

  /// Where it is drawn; `none` for what has no place in a picture.
  Part part_of(const Difference& one) const {
    switch (one.kind) {
      case Kind::vehicle:
      case Kind::function:
        return {};
      case Kind::segment:
        return segment_called(network_, one.sort == Sort::only_in_b ? one.part : here(one.part));
      case Kind::terminator:
        return part_called(network_, here(one.part.substr(one.part.find('@') + 1)));
      default: {
        const bool whole = one.part.find('/') == std::string::npos;
        if (whole && one.sort == Sort::only_in_b) return part_called(network_, one.part);
        return part_called(network_, here(one.part.substr(0, one.part.find('/'))));
      }
    }
  }

  std::string words_of(const Difference& one) const {
    const std::size_t slash = one.part.find('/');
    std::string words = slash == std::string::npos ? "" : one.part.substr(slash + 1) + " ";
    if (one.kind == Kind::terminator) words = "resistor ";
    const std::string& value = in_b_ ? one.b : one.a;
    switch (one.sort) {
      case Sort::renamed: {
        const std::string& there = in_b_ ? one.a : one.b;
        return words + there.substr(there.find('/') + 1) + " there";
      }
      case Sort::changed:
        return words + one.what + (value.empty() ? "" : ": " + value);
      default:
        return words + "only here";
    }
  }

  const Network& network_;
  bool in_b_;
  std::map<std::string, std::string> name_in_b_;
  Marks marks_;
};

}  // namespace

Marks marks_of(const Network& network, const std::vector<Difference>& differences, bool in_b) {
  return Distinctions(network, differences, in_b).take();
}

}  // namespace whichwire
