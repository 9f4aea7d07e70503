// The page of blind spots: the likeliest faults that no scan tells apart first. Tests: tests/cli/blindspots.cpp.
#include <algorithm>
#include <whichwire/render_blindspots.hpp>

#include "render/page.hpp"
#include "render/shown_words.hpp"

namespace whichwire {

namespace {

using namespace render;

constexpr std::size_t most_groups = 5, most_parts = 12, most_names = 6, most_checks = 8, most_left = 3;

bool there_for_good(const AlikeFaults& alike) {
  return std::any_of(alike.faults.begin(), alike.faults.end(),
                     [](const Fault& fault) { return !fault.comes_and_goes; });
}

class BlindspotsPage {
 public:
  BlindspotsPage(const BlindspotsOf& blindspots, const Look& look)
      : network_(blindspots.network), found_(blindspots.found), look_(look), page_(look) {
    for (const AlikeFaults& alike : found_.alike) {
      if (alike.shown.empty()) {
        unseen_ = &alike;
      } else if (alike.repairs > 1) {
        (there_for_good(alike) ? steady_ : passing_).push_back(&alike);
      }
    }
  }

  std::string make() {
    const Vehicle& its = network_.vehicle;
    page_.text(0, its.make + " " + its.model + (its.model_year > 0 ? " " + std::to_string(its.model_year) : "") +
                      (its.variant.empty() ? "" : ", " + its.variant));
    say_alike();
    say_unseen();
    say_unnoticed();
    say_what_would_help();
    page_.blank();
    page_.text(0, "! ",
               "The maker's service information and local rules come first; where not trained or equipped, stop and "
               "refer.");
    return page_.take();
  }

 private:
  std::vector<std::string> short_list(std::vector<std::string> texts, std::size_t most) const {
    return look_.in_full ? texts : cut(std::move(texts), most);
  }

  void say_alike() {
    page_.heading("What no scan tells apart");
    page_.text(
        2, std::to_string(found_.faults) + " faults can show themselves in " + std::to_string(found_.kinds_of_scan) +
               " ways. Alike in every scan, but to be repaired differently, are " + std::to_string(steady_.size()) +
               (steady_.size() == 1 ? " group" : " groups") + " of faults that are there, and " +
               std::to_string(passing_.size()) + " of faults that come and go. The likeliest first:");
    say_groups(steady_);
    if (passing_.empty()) return;
    if (!look_.in_full) {
      page_.text(2,
                 "Those that come and go: --all lists them. The same checks tell them apart while the fault is there.");
      return;
    }
    page_.heading("Alike, and they come and go (the checks must be done while the fault is there)");
    say_groups(passing_);
  }

  void say_groups(const std::vector<const AlikeFaults*>& groups) {
    std::size_t said = 0;
    for (const AlikeFaults* alike : groups) {
      if (!look_.in_full && said == most_groups) break;
      say_group(*alike, ++said);
    }
    if (said < groups.size())
      page_.text(2, "… and " + std::to_string(groups.size() - said) + " more (--all lists them).");
  }

  void say_group(const AlikeFaults& alike, std::size_t number) {
    const std::string key = alike.key == KeyState::run ? "" : "key " + std::string(word_for(alike.key)) + ", ";
    std::string shown;
    for (const std::string& phrase : phrases_of(network_, alike.shown, most_names))
      shown += (shown.empty() ? "" : "; ") + phrase;
    page_.blank();
    page_.text(2, std::to_string(number) + ". ", "A scan shows - " + key + shown);
    page_.text(5, "from any of: ", joined(short_list(parts_of(network_, alike.faults), most_parts), ", "));
    say_checks(alike.separation);
  }

  void say_checks(const Separation& separation) {
    if (!separation.checks.empty()) {
      page_.text(5, "To tell them apart, " + number(separation.minutes) + " min in all" +
                        (separation.at_least < separation.minutes - 1e-9
                             ? " (found by trying; none takes less than " + number(separation.at_least) + " min)"
                             : "") +
                        ":");
      std::vector<std::string> checks;
      for (const Check& check : separation.checks)
        checks.push_back(check.measure + " (" + number(check.minutes) + " min)");
      for (const std::string& check : short_list(checks, most_checks)) page_.text(7, "- ", check);
    }
    say_left(separation);
  }

  /// Groups that read the same, as one wire shorted to ground and another to supply, are said once.
  void say_left(const Separation& separation) {
    std::vector<std::string> alone, together;
    for (const auto& group : separation.left) {
      const std::string text = joined(short_list(parts_of(network_, group), most_parts), ", ");
      std::vector<std::string>& said = group.size() == 1 ? alone : together;
      if (std::ranges::find(said, text) == said.end()) said.push_back(text);
    }
    const std::size_t said = look_.in_full ? together.size() : std::min(together.size(), most_left);
    for (std::size_t i = 0; i < said; ++i) page_.text(5, "No sure check tells apart: ", together[i]);
    if (said < together.size())
      page_.text(5, "… and " + std::to_string(together.size() - said) + " more groups that no sure check tells apart");
    if (!alone.empty()) page_.text(5, "No sure check shows: ", joined(short_list(alone, most_left), ", "));
  }

  void say_unseen() {
    if (unseen_ == nullptr) return;
    page_.heading("Faults that no scan shows");
    std::vector<Fault> there;
    for (const Fault& fault : unseen_->faults) {
      if (!fault.comes_and_goes) there.push_back(fault);
    }
    if (!there.empty()) page_.list(2, "there for good", short_list(parts_of(network_, there), most_parts));
    std::vector<Fault> passing;
    for (const Fault& fault : unseen_->faults) {
      if (fault.comes_and_goes) passing.push_back(fault);
    }
    if (!passing.empty()) page_.list(2, "come and go", short_list(parts_of(network_, passing), most_parts));
    const Separation& separation = unseen_->separation;
    page_.text(2, std::to_string(separation.checks.size()) + " checks of " + number(separation.minutes) +
                      " min in all would show them" +
                      (separation.left.empty() ? "." : ", but for some that no sure check shows."));
    if (look_.in_full) say_checks(separation);
  }

  void say_unnoticed() {
    std::vector<std::string> certain, perhaps;
    for (const Unnoticed& one : found_.unnoticed)
      (one.certain ? certain : perhaps).push_back(network_.modules[one.module].id);
    page_.heading("Whose silence nobody would notice");
    if (certain.empty() && perhaps.empty())
      page_.text(2, "Nobody's: of every module another stores a code, or a function needs it.");
    if (!certain.empty()) page_.list(2, "no module stores a code about them, no function needs them", certain);
    if (!perhaps.empty())
      page_.list(2, "perhaps, since it is not stated who listens to whom", short_list(perhaps, 2 * most_parts));
    if (!certain.empty() || !perhaps.empty()) page_.text(2, "Only asking each of them shows it.");
  }

  void say_what_would_help() {
    if (found_.pairs == 0) return;
    page_.heading("What would tell more apart");
    page_.text(2, "Of " + std::to_string(found_.pairs) + " pairs of such faults:");
    for (const AccessPoint& one : found_.access) {
      page_.text(4, "- ",
                 std::to_string(one.pairs) + " by a second scan with the tool plugged in at " +
                     id_of(network_, one.at) + " on " + network_.buses[one.bus].id);
    }
    for (const ExtraListening& one : found_.listening) {
      std::vector<std::string> listeners;
      for (const std::size_t m : one.listeners) listeners.push_back(network_.modules[m].id);
      page_.text(4, "- ",
                 std::to_string(one.pairs) + (listeners.size() > 1 ? " if any of " : " if ") +
                     joined(short_list(listeners, most_names), ", ") + " stored a code when it misses " +
                     network_.modules[one.sender].id);
    }
    if (found_.access.empty() && found_.listening.empty())
      page_.text(4, "none by one more code or a scan from another place: only checks do.");
  }

  const Network& network_;
  const Blindspots& found_;
  const Look& look_;
  Page page_;
  std::vector<const AlikeFaults*> steady_, passing_;
  const AlikeFaults* unseen_ = nullptr;
};

}  // namespace

std::string text_of(const BlindspotsOf& blindspots, const Look& look) {
  return BlindspotsPage(blindspots, look).make();
}

}  // namespace whichwire
