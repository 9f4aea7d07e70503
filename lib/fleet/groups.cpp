#include "fleet/groups.hpp"

#include <algorithm>

namespace whichwire {
namespace {

using Signature = std::vector<Level>;  ///< of the answers of all modules

class Maker {
 public:
  explicit Maker(const Build& build) : build_(build) {
    for (std::size_t m = 0; m < build.network.modules.size(); ++m) {
      const Question question{Question::About::answers, m, nowhere};
      if (build.effects.answerable(question)) questions_.push_back(question);
    }
  }

  Groups make() {
    for (const Fault& fault : build_.faults) add(fault);
    for (Group& group : made_.all) group.share /= whole_;
    return std::move(made_);
  }

 private:
  Signature signature_of(Fault fault) const {
    fault.comes_and_goes = false;
    return build_.effects.predict({&fault, 1}, questions_, {});
  }

  std::size_t group_at(auto& places, const auto& key, Group::Sort sort) {
    const auto [at, fresh] = places.try_emplace(key, made_.all.size());
    if (fresh) made_.all.push_back({sort, {}, 0});
    return at->second;
  }

  void add(Fault fault) {
    if (fault.kind == FaultKind::not_fitted) return;
    const Signature signature = signature_of(fault);
    if (std::ranges::find(signature, Level::down) == signature.end()) return;
    const std::string part = part_of(build_.network, fault), words = text_of(build_.network, fault);
    fault.comes_and_goes = false;
    auto& groups = made_.of_fault[words];
    groups = {group_at(part_at_, part, Group::Sort::part), group_at(class_at_, signature, Group::Sort::several_parts),
              group_at(state_at_, text_of(build_.network, fault), Group::Sort::state)};
    for (const std::size_t g : groups) {
      auto& parts = made_.all[g].parts;
      if (std::ranges::find(parts, part) == parts.end()) parts.push_back(part);
      made_.all[g].share += fault.odds;
    }
    whole_ += fault.odds;
  }

  const Build& build_;
  std::vector<Question> questions_;
  std::map<std::string, std::size_t> part_at_, state_at_;
  std::map<Signature, std::size_t> class_at_;
  double whole_ = 0;
  Groups made_;
};

}  // namespace

std::size_t Groups::part_group(const std::string& part) const {
  for (std::size_t g = 0; g < all.size(); ++g) {
    if (all[g].sort == Group::Sort::part && all[g].parts.front() == part) return g;
  }
  return nowhere;
}

std::size_t Groups::looked_at() const { return static_cast<std::size_t>(std::ranges::count_if(all, may_recur)); }

bool may_recur(const Group& group) {
  return group.sort == Group::Sort::part || (group.sort == Group::Sort::several_parts && group.parts.size() > 1);
}

Groups groups_of(const Build& build) { return Maker(build).make(); }

}  // namespace whichwire
