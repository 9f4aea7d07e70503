// See whichwire/compare.hpp. Tests: tests/compare/.
#include <algorithm>
#include <map>
#include <tuple>
#include <unordered_map>
#include <whichwire/compare.hpp>

#include "compare/fit.hpp"
#include "compare/matching.hpp"
#include "compare/outlook.hpp"

namespace whichwire {
namespace {

struct HashFault {
  std::size_t operator()(const Fault& fault) const {
    std::size_t hash = static_cast<std::size_t>(fault.kind) * 16 + static_cast<std::size_t>(fault.part);
    for (const std::size_t part :
         {fault.owner, fault.item, fault.bus, static_cast<std::size_t>(fault.lines),
          fault.to ? static_cast<std::size_t>(*fault.to) + 1 : 0, std::size_t{fault.comes_and_goes}}) {
      hash = (hash ^ part) * 0x100000001b3ULL;
    }
    return hash;
  }
};

/// The same fault, whatever its odds.
struct SameFault {
  bool operator()(Fault x, Fault y) const {
    x.odds = y.odds = 0;
    return x == y;
  }
};

/// By fault of A: the same one in B, or `nowhere`.
Map faults_in_b(const Matching& match, const Network& b, const std::vector<Fault>& of_a,
                const std::vector<Fault>& of_b) {
  std::unordered_map<Fault, std::size_t, HashFault, SameFault> index;
  for (std::size_t j = 0; j < of_b.size(); ++j) index.emplace(of_b[j], j);
  Map map;
  for (const Fault& fault : of_a) {
    const auto other = in_b(match, b, fault);
    const auto found = other ? index.find(*other) : index.end();
    map.push_back(found == index.end() ? nowhere : found->second);
  }
  return map;
}

/// Questions of B in the numbers of A; what A lacks gets numbers that A does not use.
Outlook::Rename rename_to_a(const Network& b, const Matching& match) {
  const auto to_a = [](const Map& map, std::size_t count_b) {
    Map back = inverse(map, count_b);
    for (std::size_t j = 0; j < count_b; ++j) back[j] = back[j] == nowhere ? map.size() + j : back[j];
    return back;
  };
  return [modules = to_a(match.modules, b.modules.size()), buses = to_a(match.buses, b.buses.size()),
          functions = to_a(match.functions, b.functions.size())](const Question& question) {
    Question other = question;
    using About = Question::About;
    other.a = (question.about == About::function ? functions : modules)[question.a];
    if (question.about == About::hears) other.b = modules[question.b];
    if (question.about == About::bus) other.b = buses[question.b];
    return other;
  };
}

class Comparing {
 public:
  Comparing(const Effects& a, const Effects& b, const std::vector<Fault>& faults_a, const std::vector<Fault>& faults_b)
      : faults_a_(faults_a),
        faults_b_(faults_b),
        match_(match(a.network(), b.network())),
        keys_(keys_of(a.network(), b.network())),
        in_b_(faults_in_b(match_, b.network(), faults_a, faults_b)),
        outlook_a_(a, keys_),
        outlook_b_(b, keys_, rename_to_a(b.network(), match_)) {
    for (std::size_t i = 0; i < faults_a.size(); ++i) {
      const bool shared = in_b_[i] != nowhere;
      prints_a_.push_back(shared ? outlook_a_.print(faults_a[i]) : Print{});
      prints_b_.push_back(shared ? outlook_b_.print(faults_b[in_b_[i]]) : Print{});
    }
  }

  void count(Comparison& comparison) const {
    for (const std::size_t j : in_b_) ++(j == nowhere ? comparison.faults_only_in_a : comparison.faults_shared);
    comparison.faults_only_in_b = faults_b_.size() - comparison.faults_shared;
  }

  std::vector<LooksDifferent> looks_different() {
    for (std::size_t i = 0; i < faults_a_.size(); ++i) {
      if (in_b_[i] != nowhere && prints_a_[i] != prints_b_[i]) add_difference(i);
    }
    const auto changes_an_answer = [](const LooksDifferent& group) {
      const auto answer = [](const Shown& one) { return one.question.about == Question::About::answers; };
      return std::any_of(group.only_in_a.begin(), group.only_in_a.end(), answer) ||
             std::any_of(group.only_in_b.begin(), group.only_in_b.end(), answer);
    };
    const auto rank = [&](const LooksDifferent& group) {
      return std::tuple(!group.of_both, !changes_an_answer(group), -static_cast<long>(group.faults.size()));
    };
    std::stable_sort(groups_.begin(), groups_.end(),
                     [&](const LooksDifferent& x, const LooksDifferent& y) { return rank(x) < rank(y); });
    return std::move(groups_);
  }

  /// Those alike in one network, by what the other shows of them.
  std::vector<ToldApart> told_apart() const {
    std::vector<ToldApart> all;
    add_told_apart(prints_a_, prints_b_, true, all);
    add_told_apart(prints_b_, prints_a_, false, all);
    return all;
  }

 private:
  static std::vector<KeyState> keys_of(const Network& a, const Network& b) {
    const Network* both[] = {&a, &b};
    return different_keys(both);
  }

  /// What `shown` has and `other` has not, by the numbers of both.
  static std::vector<Raised> without(const std::vector<Raised>& shown, const std::vector<std::uint64_t>& numbers,
                                     std::vector<std::uint64_t> others) {
    std::sort(others.begin(), others.end());
    std::vector<Raised> left;
    for (std::size_t i = 0; i < shown.size(); ++i) {
      if (!std::binary_search(others.begin(), others.end(), numbers[i])) left.push_back(shown[i]);
    }
    return left;
  }

  static std::vector<std::uint64_t> numbers_of(const Outlook& outlook, std::size_t scan,
                                               const std::vector<Raised>& shown) {
    std::vector<std::uint64_t> numbers;
    numbers.reserve(shown.size());
    for (const Raised& raised : shown) numbers.push_back(outlook.key(scan, raised));
    return numbers;
  }

  /// Whether any of `only` is asked in the other network too.
  static bool asked(const Outlook& outlook, const std::vector<Raised>& only, const Outlook& other, std::size_t scan) {
    return std::any_of(only.begin(), only.end(),
                       [&](const Raised& raised) { return other.asks(scan, outlook.number(scan, raised.question)); });
  }

  static std::vector<Shown> in_words(const Outlook& outlook, std::size_t scan, const std::vector<Raised>& all) {
    std::vector<Shown> words;
    words.reserve(all.size());
    for (const Raised& raised : all) words.push_back({outlook.questions(scan)[raised.question], raised.level});
    return words;
  }

  /// Enters the fault by the first scan that shows the difference.
  void add_difference(std::size_t i) {
    for (std::size_t scan = 0; scan < outlook_a_.scans(); ++scan) {
      const auto& shown_a = outlook_a_.shown(faults_a_[i], scan);
      const auto& shown_b = outlook_b_.shown(faults_b_[in_b_[i]], scan);
      const auto numbers_a = numbers_of(outlook_a_, scan, shown_a), numbers_b = numbers_of(outlook_b_, scan, shown_b);
      const auto only_a = without(shown_a, numbers_a, numbers_b), only_b = without(shown_b, numbers_b, numbers_a);
      if (only_a.empty() && only_b.empty()) continue;
      std::vector<std::uint64_t> key = {scan};
      for (const auto& [outlook, only] : {std::pair{&outlook_a_, &only_a}, std::pair{&outlook_b_, &only_b}}) {
        auto numbers = numbers_of(*outlook, scan, *only);
        std::sort(numbers.begin(), numbers.end());
        key.push_back(numbers.size());
        key.insert(key.end(), numbers.begin(), numbers.end());
      }
      const auto [found, fresh] = group_of_.try_emplace(std::move(key), groups_.size());
      if (fresh) {
        groups_.push_back({{},
                           outlook_a_.circumstances(scan).key,
                           in_words(outlook_a_, scan, only_a),
                           in_words(outlook_b_, scan, only_b),
                           asked(outlook_a_, only_a, outlook_b_, scan) || asked(outlook_b_, only_b, outlook_a_, scan)});
      }
      groups_[found->second].faults.push_back({faults_a_[i], faults_b_[in_b_[i]]});
      return;
    }
  }

  void add_told_apart(const std::vector<Print>& alike_by, const std::vector<Print>& apart_by, bool in_b,
                      std::vector<ToldApart>& all) const {
    std::map<Print, std::map<Print, std::vector<Fault>>> classes;
    for (std::size_t i = 0; i < faults_a_.size(); ++i) {
      if (in_b_[i] != nowhere) classes[alike_by[i]][apart_by[i]].push_back(faults_a_[i]);
    }
    for (auto& [print, groups] : classes) {
      if (groups.size() < 2) continue;
      ToldApart told{in_b, {}};
      for (auto& [other, faults] : groups) told.groups.push_back(std::move(faults));
      all.push_back(std::move(told));
    }
  }

  const std::vector<Fault>&faults_a_, &faults_b_;
  Matching match_;
  std::vector<KeyState> keys_;
  Map in_b_;  ///< by fault of A
  Outlook outlook_a_, outlook_b_;
  std::vector<Print> prints_a_, prints_b_;  ///< by fault of A
  std::vector<LooksDifferent> groups_;
  std::map<std::vector<std::uint64_t>, std::size_t> group_of_;
};

}  // namespace

Comparison compare(const Effects& a, const Effects& b, const std::optional<ScanOfBoth>& scan, const Rates& rates) {
  const std::vector<Fault> faults_a = faults_of(a.network(), rates), faults_b = faults_of(b.network(), rates);
  Comparison comparison;
  comparison.differences = differences(a.network(), b.network());
  Comparing comparing(a, b, faults_a, faults_b);
  comparing.count(comparison);
  comparison.looks_different = comparing.looks_different();
  comparison.told_apart = comparing.told_apart();
  LocateOptions options;
  options.no_fault = factor_of_no_fault(rates);
  if (scan) comparison.fits = fits_of({a, faults_a, scan->in_a}, {b, faults_b, scan->in_b}, options);
  return comparison;
}

}  // namespace whichwire
