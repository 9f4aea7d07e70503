// The last scan against the first: what is gone, still there, new, and what the last did not look at. A new code about
// a plug or fuse that was off in testing is most often that plug (common practice, no source) and comes first.
// Tested in tests/casefile/compare_scans.cpp.
#include <algorithm>
#include <map>
#include <set>
#include <whichwire/casefile.hpp>

#include "casefile/replay.hpp"
#include "locate/verdict_class.hpp"
#include "scan/accused.hpp"

namespace whichwire {

namespace {

struct Finding {
  std::string text;               ///< as `TCM stores U0100-87`
  std::string state;              ///< of a code, where it is known
  std::string asked;              ///< module that must be looked at again to know, or a function
  std::set<std::string> modules;  ///< ids it may be about
};

using Findings = std::map<std::string, Finding>;  // by what makes two of them the same

bool silent(const Network& network, const ModuleSeen& seen) {
  if (seen.answer == Answer::no) return true;
  const std::size_t module = index_of(network.modules, seen.module);
  return seen.answer == Answer::not_fitted && module != nowhere && !network.modules[module].optional;
}

std::string code_words(const CodeSeen& seen) {
  if (seen.written.empty() && seen.code) return text_of(*seen.code);
  return seen.written.empty() ? "\"" + (seen.text.empty() ? "misses " + seen.misses : seen.text) + "\"" : seen.written;
}

std::string code_key(const CodeSeen& seen) { return seen.code ? text_of(*seen.code) : code_words(seen); }

Finding finding_of(const Network& network, const ModuleSeen& module, const CodeSeen& seen) {
  Finding finding;
  finding.text = module.module + " stores " + code_words(seen);
  if (seen.state != CodeState::unknown) finding.state = word_for(seen.state);
  finding.asked = module.module;
  finding.modules.insert(module.module);
  const Accused accused = accused_by(network, index_of(network.modules, module.module), seen);
  for (const std::size_t i : accused.modules) finding.modules.insert(network.modules[i].id);
  if (index_of(network.modules, seen.misses) != nowhere) finding.modules.insert(seen.misses);
  return finding;
}

Findings findings_of(const Network& network, const Scan& scan) {
  Findings all;
  for (const ModuleSeen& seen : scan.modules) {
    if (silent(network, seen))
      all["silent " + seen.module] = {seen.module + " is silent", "", seen.module, {seen.module}};
    for (const CodeSeen& code : seen.codes)
      all["code " + seen.module + " " + code_key(code)] = finding_of(network, seen, code);
  }
  for (const FunctionSeen& seen : scan.functions) {
    if (seen.works) continue;
    const std::size_t function = index_of(network.functions, seen.function);
    const bool named = function != nowhere && !network.functions[function].name.empty();
    const std::string name = named ? network.functions[function].name : seen.function;
    all["function " + seen.function] = {name + ": does not work", "", "function " + seen.function, {}};
  }
  return all;
}

/// Whether the scan looked at what the finding is about; a silent module tells nothing of its codes.
bool looked_at(const Scan& scan, const std::string& key, const Finding& finding) {
  if (key.starts_with("function ")) {
    return std::ranges::any_of(scan.functions,
                               [&](const FunctionSeen& seen) { return "function " + seen.function == finding.asked; });
  }
  const auto seen = std::ranges::find(scan.modules, finding.asked, &ModuleSeen::module);
  if (seen == scan.modules.end()) return false;
  if (key.starts_with("silent ")) return seen->answer != Answer::not_polled && seen->answer != Answer::not_reachable;
  return seen->answer == Answer::yes;
}

void add_other_end(const Network& network, const Segment& segment, const End& here, std::set<std::string>& ids) {
  for (const auto& [near, far] : {std::pair(segment.from, segment.to), std::pair(segment.to, segment.from)}) {
    if (near == here && far.kind == End::Kind::module) ids.insert(network.modules[far.index].id);
  }
}

/// The modules that lose something while the place is off.
std::set<std::string> touched_by(const Network& network, const CaseWork& work) {
  std::set<std::string> ids;
  const std::size_t point = index_of(network.points, work.what);
  const std::size_t feed = index_of(network.feeds, work.what);
  if (feed != nowhere)
    for (const std::size_t i : modules_on_feed(network, feed)) ids.insert(network.modules[i].id);
  for (const Module& module : network.modules) {
    const bool itself = module.id == work.what;
    const bool its_load = std::ranges::any_of(module.references, [&](const Reference& reference) {
      return std::ranges::find(reference.loads, work.what) != reference.loads.end();
    });
    if (itself || its_load) ids.insert(module.id);
  }
  for (const Bus& bus : network.buses) {
    for (const Segment& segment : bus.segments)
      if (point != nowhere) add_other_end(network, segment, {End::Kind::point, point}, ids);
  }
  return ids;
}

std::string ended(const Case& job, const CaseWork& work, std::size_t from) {
  for (std::size_t i = from; i < job.entries.size(); ++i) {
    const CaseWork* const later = work_at(job, i);
    const bool back = later != nullptr && later->what == work.what &&
                      (later->kind == WorkKind::replug || later->kind == WorkKind::fuse_in);
    if (back) return ", back at " + time_phrase(job.entries[i].at) + ": check that it sits";
  }
  return ", and is off still";
}

/// The plug or fuse that was off before the scan and that the finding may be about.
std::string because_of(const Case& job, const Finding& finding, std::size_t scan) {
  for (std::size_t i = scan; i-- > 0;) {
    const CaseWork* const work = work_at(job, i);
    if (work == nullptr || (work->kind != WorkKind::unplug && work->kind != WorkKind::fuse_out)) continue;
    const std::set<std::string> touched = touched_by(job.start().network, *work);
    const bool about = std::ranges::any_of(touched, [&](const auto& id) { return finding.modules.contains(id); });
    if (!about) continue;
    const std::string state = work->kind == WorkKind::unplug ? " was unplugged in testing" : " was pulled in testing";
    return work->what + state + " at " + time_phrase(job.entries[i].at) + ended(job, *work, i + 1);
  }
  return "";
}

/// With the state of a code, and the earlier one where that was another.
std::string words_of(const Finding& finding, const std::string& earlier_state = "") {
  if (finding.state.empty()) return finding.text;
  const bool changed = !earlier_state.empty() && earlier_state != finding.state;
  return finding.text + " (" + finding.state + (changed ? ", was " + earlier_state : "") + ")";
}

const Scan* scan_at(const Case& job, std::size_t i) {
  const auto* const scanned = job.undone[i] ? nullptr : std::get_if<CaseScan>(&job.entries[i].contents);
  return scanned == nullptr ? nullptr : &scanned->scan;
}

}  // namespace

ScansOf scans_of(const Case& job) {
  ScansOf scans;
  bool repaired = false;
  for (std::size_t i = 0; i < job.entries.size(); ++i) {
    const CaseWork* const work = work_at(job, i);
    repaired |= work != nullptr && (work->kind == WorkKind::replaced || work->kind == WorkKind::programmed);
    if (scan_at(job, i) == nullptr) continue;
    if (scans.first == 0) scans.first = i + 1;
    if (!repaired) scans.before_repair = i + 1;
    scans.last = i + 1;
  }
  return scans;
}

std::optional<ScanComparison> compare_scans(const Case& job) {
  const ScansOf scans = scans_of(job);
  if (scans.first == scans.last) return {};
  const Network& network = job.start().network;
  const Scan& last_scan = *scan_at(job, scans.last - 1);
  const Findings first = findings_of(network, *scan_at(job, scans.first - 1));
  const Findings last = findings_of(network, last_scan);
  ScanComparison comparison{scans.first, scans.last, {}, {}, {}, {}};
  for (const auto& [key, finding] : last) {
    if (const auto before = first.find(key); before != first.end()) {
      comparison.still.push_back({words_of(finding, before->second.state), ""});
    } else {
      comparison.fresh.push_back({words_of(finding), because_of(job, finding, scans.last - 1)});
    }
  }
  for (const auto& [key, finding] : first) {
    if (last.contains(key)) continue;
    (looked_at(last_scan, key, finding) ? comparison.gone : comparison.not_seen).push_back({words_of(finding), ""});
  }
  std::stable_partition(comparison.fresh.begin(), comparison.fresh.end(),
                        [](const ScanDifference& one) { return !one.because.empty(); });
  return comparison;
}

}  // namespace whichwire
