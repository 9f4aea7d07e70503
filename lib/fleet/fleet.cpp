// One scan after another, each by the shortest way: a text like one before, evidence like some before, or the search.
#include <algorithm>
#include <whichwire/fleet.hpp>

#include "fleet/cut.hpp"
#include "fleet/finding.hpp"
#include "fleet/match.hpp"
#include "fleet/numbers.hpp"
#include "fleet/row.hpp"
#include "fleet/state.hpp"

namespace whichwire {
namespace {

using Shared = std::shared_ptr<const UnitFinding>;

Shared refused(std::string why) {
  UnitFinding finding;
  finding.error = std::move(why);
  return std::make_shared<const UnitFinding>(std::move(finding));
}

Shared finding_for(const Fleet::State& state, const Matched& matched) {
  LocateOptions search = state.search;
  // Nobody called for most of these units, so no fault has its full prior; a complaint is a call.
  if (!matched.scan->complaint.empty()) search.no_fault = state.no_fault_with_complaint;
  std::string key;
  if (state.remember) {
    key = evidence_key(*matched.build, *matched.scan, search);
    key.push_back(static_cast<char>(matched.by));
    if (Shared known = state.by_evidence.find(key)) return known;
  }
  UnitFinding made = finding_of(*matched.build, *matched.scan, search);
  made.network = matched.build->name;
  made.matched = matched.by;
  auto finding = std::make_shared<const UnitFinding>(std::move(made));
  if (state.remember) state.by_evidence.put(std::move(key), finding);
  return finding;
}

FleetRow row_read(const Fleet::State& state, std::string_view text, const std::string& name) {
  if (is_fleet_row(text)) {
    FleetRow row = read_fleet_row(text, name);
    const bool known = !row.finding->error.empty() || build_named(state, row.finding->network) != nullptr;
    return known ? row : FleetRow{row.scan, row.unit, refused("no network given is its own: " + row.finding->network)};
  }
  const Matched matched = match_scan(state, text, name);
  if (!matched.scan) return {name, "", refused(matched.error)};
  return {name, matched.scan->unit, finding_for(state, matched)};
}

}  // namespace

Build::Build(Network its_network, const Rates& rates)
    : network(std::move(its_network)),
      name(build_name_of(network)),
      effects(network),
      faults(faults_of(network, rates)) {}

Fleet::Fleet(std::vector<Network> networks, const FleetOptions& options) : state_(std::make_unique<State>()) {
  for (Network& network : networks)
    state_->builds.push_back(std::make_unique<const Build>(std::move(network), options.rates));
  state_->given = options.network.empty() ? nullptr : build_named(*state_, options.network);
  state_->search.outside = fleet_number("outside");
  state_->search.most_explanations = static_cast<std::size_t>(fleet_number("most-explanations"));
  state_->search.no_fault = 1;
  state_->no_fault_with_complaint = factor_of_no_fault(options.rates);
  state_->remember = options.remember;
}

Fleet::~Fleet() = default;
Fleet::Fleet(Fleet&&) noexcept = default;
Fleet& Fleet::operator=(Fleet&&) noexcept = default;

FleetRow Fleet::row_of(std::string_view text, const std::string& name) const {
  std::optional<CutText> parts = state_->remember ? cut(text) : std::nullopt;
  if (!parts) return row_read(*state_, text, name);
  if (Shared known = state_->by_text.find(parts->rest))
    return {std::string(parts->scan.empty() ? std::string_view(name) : parts->scan), std::string(parts->unit),
            std::move(known)};
  FleetRow row = row_read(*state_, text, name);
  if (row.unit.empty()) row.unit = parts->unit;
  if (row.finding->error.empty()) state_->by_text.put(std::move(parts->rest), row.finding);
  return row;
}

std::string build_name_of(const Network& network) {
  std::string name = network.name.substr(network.name.find_last_of('/') + 1);
  if (name.ends_with(".json")) name.resize(name.size() - 5);
  return name;
}

const Groups& Fleet::State::groups_of(const Build& build) const {
  const std::lock_guard hold(mutex_);
  const auto [at, fresh] = groups_.try_emplace(&build);
  if (fresh) at->second = whichwire::groups_of(build);
  return at->second;
}

const Build* build_named(const Fleet::State& state, std::string_view name) {
  const auto found = std::ranges::find(state.builds, name, [](const auto& build) { return build->name; });
  return found == state.builds.end() ? nullptr : found->get();
}

double urgency_of(const UnitFinding& finding) {
  return finding.fault * (1 + static_cast<double>(finding.silent.size()));
}

std::string_view word_for(MatchedBy by) {
  switch (by) {
    case MatchedBy::given:
      return "given";
    case MatchedBy::only_one:
      return "only-one";
    case MatchedBy::vehicle:
      return "vehicle";
    case MatchedBy::fit:
      return "best-fit";
    case MatchedBy::fit_of_several:
      return "best-of-several";
  }
  return "";
}

}  // namespace whichwire
