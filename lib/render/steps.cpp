#include "render/steps.hpp"

#include <algorithm>

#include "render/check_words.hpp"

namespace whichwire::render {

namespace {

std::vector<std::string> common_cautions(std::span<const Check> checks) {
  std::vector<std::string> common = checks.empty() ? std::vector<std::string>{} : checks.front().cautions;
  for (const Check& check : checks) {
    std::erase_if(common, [&](const std::string& caution) {
      return std::ranges::find(check.cautions, caution) == check.cautions.end();
    });
  }
  return common;
}

}  // namespace

void say_step(Document& page, const Network& network, const Check& check, const std::vector<std::string>& said,
              const std::string& if_good) {
  page.step(check.measure);
  if (const std::string at = at_phrase(check); !at.empty()) page.fact("At", at, part_called(network, check.part));
  page.fact("With", with_phrase(check));
  for (const std::string& caution : check.cautions)
    if (std::ranges::find(said, caution) == said.end()) page.caution(caution);
  if (!if_good.empty()) page.fact("If good", if_good);
  for (const Expectation& expect : check.expect) {
    // What the meter is predicted to show stands above; the table's range would say it twice.
    const bool told = !if_good.empty() && &expect == &check.expect.front();
    page.outcome(told ? expect.outcome : outcome_phrase(expect, check.mode), expect.means);
  }
}

void say_steps(Document& page, const Network& network, std::span<const Check> checks) {
  const std::vector<std::string> common = common_cautions(checks);
  for (const std::string& caution : common) page.caution(caution);
  for (const Check& check : checks) say_step(page, network, check, common);
}

void say_refused(Document& page, const std::vector<Refused>& refused) {
  if (refused.empty()) return;
  page.heading("Do not measure");
  for (const Refused& one : refused) page.caution(one.what + ": " + one.why);
}

}  // namespace whichwire::render
