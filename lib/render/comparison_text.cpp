// The page of two networks compared: which of them fits the scan, what differs, what that changes in a scan.
// Tests: tests/cli/compare.cpp.
#include <algorithm>
#include <cmath>
#include <tuple>

#include "render/page.hpp"
#include "render/phrases.hpp"
#include "render/shown_words.hpp"

namespace whichwire {

namespace {

using namespace render;
using Kind = Difference::Kind;
using Sort = Difference::Sort;

constexpr std::size_t most_groups = 6, most_faults = 4, most_names = 8;

/// What to call the two: the variant, else the file, else first and second.
std::pair<std::string, std::string> names_of(const Network& a, const Network& b) {
  if (a.vehicle.variant != b.vehicle.variant && !a.vehicle.variant.empty() && !b.vehicle.variant.empty())
    return {a.vehicle.variant, b.vehicle.variant};
  const auto file = [](const Network& network) {
    const std::size_t slash = network.name.rfind('/');
    return slash == std::string::npos ? network.name : network.name.substr(slash + 1);
  };
  if (file(a) != file(b)) return {file(a), file(b)};
  return {"the first", "the second"};
}

std::string count_of(std::size_t count, const std::string& what) {
  return std::to_string(count) + " " + what + (count == 1 ? "" : "s");
}

class ComparisonPage {
 public:
  ComparisonPage(const Compared& compared, const Look& look)
      : a_(compared.a), b_(compared.b), found_(compared.comparison), look_(look), page_(look) {
    std::tie(name_a_, name_b_) = names_of(a_, b_);
  }

  std::string make() {
    for (const auto& [name, network] : {std::pair{&name_a_, &a_}, std::pair{&name_b_, &b_}}) {
      page_.text(0, *name + ": ", vehicle(*network) + ", " + network->name);
    }
    if (found_.fits) say_fits(*found_.fits);
    say_differences();
    if (found_.differences.empty()) return page_.take();
    say_looks();
    say_told_apart();
    return page_.take();
  }

 private:
  static std::string vehicle(const Network& network) {
    const Vehicle& its = network.vehicle;
    return its.make + " " + its.model + (its.model_year > 0 ? " " + std::to_string(its.model_year) : "");
  }

  std::vector<std::string> short_list(std::vector<std::string> texts, std::size_t most) const {
    return look_.in_full ? texts : cut(std::move(texts), most);
  }

  // Which fits the scan.

  /// `over a million times`, in round numbers: no more is known of such a ratio.
  static std::string times(double log_ratio) {
    const double power = std::floor(log_ratio / std::log(10.0));
    if (power >= 6) return "over a million times";
    if (power >= 3) return "over " + std::to_string(std::lround(std::pow(10, power))) + " times";
    return "about " + std::to_string(std::lround(std::exp(log_ratio))) + " times";
  }

  void say_fits(const Fits& fits) {
    page_.heading("Which of them fits the scan");
    const std::string& better = fits.for_b ? name_b_ : name_a_;
    const std::string& worse = fits.for_b ? name_a_ : name_b_;
    const double ratio = fits.for_b ? fits.b.low - fits.a.high : fits.a.low - fits.b.high;
    using Strength = Fits::Strength;
    const std::string as_likely = ": it is " + times(ratio) + " as likely there as with " + worse + ".";
    if (fits.strength == Strength::very_strong)
      page_.text(2, "The scan speaks very strongly for " + better + as_likely);
    if (fits.strength == Strength::strong) page_.text(2, "The scan speaks strongly for " + better + as_likely);
    if (fits.strength == Strength::positive) page_.text(2, "The scan speaks for " + better + as_likely);
    if (fits.strength == Strength::none) page_.text(2, "The scan does not tell: it fits both about as well.");
    if (fits.strength == Strength::not_known)
      page_.text(2,
                 "Not certain: the search was cut short. As far as it went, the scan fits " +
                     (std::abs(fits.a.low - fits.b.low) < std::log(3.0) ? "both about as well." : better + " better."));
    if (fits.strength >= Strength::strong && fits.strength != Strength::not_known)
      page_.text(2, "! ", "Locate with " + better + "; with " + worse + " a verdict may be wrong.");
    say_fit(name_a_, fits.a);
    say_fit(name_b_, fits.b);
  }

  void say_fit(const std::string& name, const Fit& fit) {
    page_.text(2, "With " + name + ": ",
               fit.verdict.headline + " (" + percent(fit.verdict.headline_probability) + ").");
    const auto list = [&](const std::string& what, const std::vector<std::string>& ids) {
      if (!ids.empty()) page_.list(4, what, short_list(ids, 2 * most_names));
    };
    list("answer, but are not in it", fit.strangers);
    list("must be there, but are silent", fit.missing);
    list("codes that it cannot place", fit.codes_unknown);
  }

  // What differs.

  void say_differences() {
    page_.heading("What differs");
    if (found_.differences.empty()) {
      page_.text(2, "Nothing: the two describe the same wiring.");
      return;
    }
    say_kinds("Vehicle", {Kind::vehicle});
    say_kinds("Modules", {Kind::module, Kind::gateway});
    say_kinds("Buses and their wiring", {Kind::bus, Kind::segment, Kind::point, Kind::terminator});
    say_kinds("Feeds, grounds, diagnostic connector", {Kind::feed, Kind::ground, Kind::connector});
    say_kinds("Functions", {Kind::function});
  }

  void say_kinds(const std::string& heading, const std::vector<Kind>& kinds) {
    std::vector<const Difference*> these;
    for (const Difference& one : found_.differences) {
      const bool in_the_heading = one.kind == Kind::vehicle && one.a == name_a_ && one.b == name_b_;
      if (!in_the_heading && std::find(kinds.begin(), kinds.end(), one.kind) != kinds.end()) these.push_back(&one);
    }
    if (these.empty()) return;
    page_.text(2, heading);
    for (const Kind kind : kinds) {
      say_only(these, kind, Sort::only_in_a, name_a_);
      say_only(these, kind, Sort::only_in_b, name_b_);
    }
    for (const Difference* one : these) {
      if (one->sort == Sort::renamed && !of_a_module(*one)) {
        page_.text(4, "- ",
                   std::string(word_for(one->kind)) + " " + one->a + " of " + name_a_ + " is " + one->b + " in " +
                       name_b_ + " (matched by role and place)");
      }
    }
    say_changed(these);
  }

  void say_only(const std::vector<const Difference*>& all, Kind kind, Sort sort, const std::string& name) {
    std::vector<std::string> parts;
    for (const Difference* one : all) {
      if (one->kind != kind || one->sort != sort || of_a_module(*one)) continue;
      parts.push_back(one->part + (one->what.empty() ? "" : " (" + one->what + ")"));
    }
    if (parts.empty()) return;
    const std::string words = std::string(word_for(kind)) + (parts.size() == 1 ? "" : kind == Kind::bus ? "es" : "s");
    page_.text(4, "- ", "only in " + name + ", " + words + ": " + joined(parts, ", "));
  }

  /// What changed in one part stands together.
  void say_changed(const std::vector<const Difference*>& all) {
    for (std::size_t i = 0; i < all.size();) {
      std::string words;
      std::size_t next = i;
      for (; next < all.size() && all[next]->part == all[i]->part && all[next]->kind == all[i]->kind; ++next) {
        if (all[next]->sort == Sort::changed) words += (words.empty() ? "" : "; ") + change(*all[next]);
        if (all[next]->sort != Sort::changed && of_a_module(*all[next])) words += pin(*all[next]);
      }
      if (!words.empty()) page_.text(4, "- ", all[i]->part + ", " + words);
      i = next;
    }
  }

  /// A pin or reference: said with its module.
  static bool of_a_module(const Difference& one) {
    return one.part.find('/') != std::string::npos && (one.kind == Kind::module || one.kind == Kind::connector);
  }

  std::string pin(const Difference& one) const {
    if (one.sort == Sort::renamed) return "called " + one.b.substr(one.b.find('/') + 1) + " in " + name_b_;
    return "only in " + (one.sort == Sort::only_in_a ? name_a_ : name_b_) + ": " + one.what;
  }

  std::string change(const Difference& one) const {
    if (!one.list) return one.what + ": " + one.a + " in " + name_a_ + ", " + one.b + " in " + name_b_;
    std::string words = one.what + ": ";
    if (!one.a.empty()) words += one.a + " only in " + name_a_;
    if (!one.a.empty() && !one.b.empty()) words += ", ";
    return words + (one.b.empty() ? "" : one.b + " only in " + name_b_);
  }

  // What that changes in a scan.

  void say_looks() {
    page_.heading("What that changes in a scan");
    std::size_t different = 0, of_both = 0, groups = 0;
    for (const auto& group : found_.looks_different) {
      different += group.faults.size();
      of_both += group.of_both ? group.faults.size() : 0;
      groups += group.of_both ? 1 : 0;
    }
    page_.text(2, count_of(found_.faults_shared, "fault") + " can be in both, " +
                      std::to_string(found_.faults_only_in_a) + " only in " + name_a_ + ", " +
                      std::to_string(found_.faults_only_in_b) + " only in " + name_b_ + ".");
    page_.text(
        2, "Of those in both, " + std::to_string(found_.faults_shared - different) + " look the same in every scan" +
               (different == 0 ? "."
                               : "; " + std::to_string(different - of_both) +
                                     " look different only by what one of the two has besides (its modules, listeners, "
                                     "functions: --all "
                                     "lists them); " +
                                     std::to_string(of_both) + " by what both have" + (of_both > 0 ? ":" : ".")));
    std::size_t said = 0;
    for (const LooksDifferent& group : found_.looks_different) {
      if (!look_.in_full && (said == most_groups || !group.of_both)) break;
      say_group(group, ++said);
    }
    if (!look_.in_full) say_rest(groups - std::min(said, groups));
  }

  void say_rest(std::size_t more) {
    if (more > 0) page_.text(2, "… and " + std::to_string(more) + " more (--all lists them).");
  }

  void say_group(const LooksDifferent& group, std::size_t number) {
    std::vector<Fault> faults;
    for (const auto& pair : group.faults) faults.push_back(pair.in_a);
    page_.text(2, std::to_string(number) + ". ", faults_in_words(faults));
    const std::string key = group.key == KeyState::run ? "" : ", key " + std::string(word_for(group.key));
    say_shown("only " + name_a_ + key, a_, group.only_in_a);
    say_shown("only " + name_b_ + key, b_, group.only_in_b);
  }

  void say_shown(const std::string& where, const Network& network, const std::vector<Shown>& shown) {
    const auto phrases = phrases_of(network, shown, look_.in_full ? shown.size() : most_names);
    if (!phrases.empty()) page_.text(5, where + " - ", joined(phrases, "; "));
  }

  std::string faults_in_words(const std::vector<Fault>& faults) const {
    return joined(short_list(parts_of(a_, faults), most_faults), "; ");
  }

  // What is told apart.

  /// Whether the groups are of different parts, so that telling them apart is worth something.
  bool of_different_parts(const ToldApart& told) const {
    const std::string part = part_of(a_, told.groups.front().front());
    return std::any_of(told.groups.begin(), told.groups.end(), [&](const auto& group) {
      return std::any_of(group.begin(), group.end(), [&](const Fault& fault) { return part_of(a_, fault) != part; });
    });
  }

  void say_told_apart() {
    for (const bool in_b : {false, true}) {
      std::vector<const ToldApart*> these;
      for (const ToldApart& told : found_.told_apart) {
        if (told.in_b == in_b && of_different_parts(told)) these.push_back(&told);
      }
      if (these.empty()) continue;
      const auto size = [](const ToldApart* told) {
        std::size_t all = 0;
        for (const auto& group : told->groups) all += group.size();
        return all;
      };
      std::stable_sort(these.begin(), these.end(), [&](auto x, auto y) { return size(x) > size(y); });
      page_.heading("Alike in " + (in_b ? name_a_ : name_b_) + ", told apart by a scan in " +
                    (in_b ? name_b_ : name_a_));
      std::size_t said = 0;
      for (const ToldApart* told : these) {
        if (!look_.in_full && said == most_groups) break;
        page_.text(2, std::to_string(++said) + ". ", faults_in_words(told->groups.front()));
        for (std::size_t i = 1; i < told->groups.size(); ++i) page_.text(5, "from ", faults_in_words(told->groups[i]));
      }
      say_rest(these.size() - said);
    }
  }

  const Network &a_, &b_;
  const Comparison& found_;
  const Look& look_;
  Page page_;
  std::string name_a_, name_b_;
};

}  // namespace

std::string text_of(const Compared& compared, const Look& look) { return ComparisonPage(compared, look).make(); }

}  // namespace whichwire
