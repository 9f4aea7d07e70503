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
    for (const auto& [part, group] : part_at_) {
      made_.all[group].share /= whole_;
      made_.all[group].parts = {part};
    }
    for (const auto& [signature, group] : class_at_) made_.all[group].share /= whole_;
    return std::move(made_);
  }

 private:
  Signature signature_of(Fault fault) const {
    fault.comes_and_goes = false;
    return build_.effects.predict({&fault, 1}, questions_, {});
  }

  std::size_t group_at(auto& places, const auto& key) {
    const auto [at, fresh] = places.try_emplace(key, made_.all.size());
    if (fresh) made_.all.emplace_back();
    return at->second;
  }

  void add(const Fault& fault) {
    if (fault.kind == FaultKind::not_fitted) return;
    const Signature signature = signature_of(fault);
    if (std::ranges::find(signature, Level::down) == signature.end()) return;
    const std::string part = part_of(build_.network, fault);
    const std::size_t of_part = group_at(part_at_, part), of_class = group_at(class_at_, signature);
    auto& parts = made_.all[of_class].parts;
    if (std::ranges::find(parts, part) == parts.end()) parts.push_back(part);
    made_.all[of_part].share += fault.odds;
    made_.all[of_class].share += fault.odds;
    whole_ += fault.odds;
    made_.of_fault[text_of(build_.network, fault)] = {of_part, of_class};
  }

  const Build& build_;
  std::vector<Question> questions_;
  std::map<std::string, std::size_t> part_at_;
  std::map<Signature, std::size_t> class_at_;
  double whole_ = 0;
  Groups made_;
};

}  // namespace

Groups groups_of(const Build& build) { return Maker(build).make(); }

}  // namespace whichwire
