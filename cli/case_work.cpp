// `whichwire case unplug`, `replug`, `fuse-out`, `fuse-in`, `jumper`, `replaced`, `programmed`. Tests:
// tests/cli/case.cpp.
#include <algorithm>

#include "case.hpp"
#include "exit_status.hpp"
#include "help.hpp"
#include "terminal.hpp"

namespace whichwire::cli {

namespace {

/// What the command is called, what it is for, what WHAT is, and an example.
struct Words {
  WorkKind kind;
  const char* about;
  const char* what;
  const char* example;
};

constexpr Words all_words[] = {
    {WorkKind::unplug,
     "Something was unplugged: module, connector, sensor.\n\n"
     "Key off first. It stays on the list until `replug`; the case does not close\n"
     "before.",
     "what: an id or name of the network, a sensor of a reference,\nor your own words",
     "  whichwire case unplug job.jsonl ECM\n"
     "  whichwire case unplug job.jsonl \"camshaft sensor\""},
    {WorkKind::replug, "Something that was unplugged is plugged back.", "what was unplugged",
     "  whichwire case replug job.jsonl ECM"},
    {WorkKind::fuse_out,
     "A fuse or relay was pulled.\n\n"
     "It stays on the list until `fuse-in`; the case does not close before.",
     "the fuse or relay", "  whichwire case fuse-out job.jsonl F3"},
    {WorkKind::fuse_in, "A fuse or relay that was pulled is back.", "the fuse or relay",
     "  whichwire case fuse-in job.jsonl F3 --note \"new, 15 A\""},
    {WorkKind::jumper,
     "Something was bridged; --off: the lead is off again.\n\n"
     "Fused leads only, and never on data, reference or restraint wires.",
     "from where to where, in your own words",
     "  whichwire case jumper job.jsonl \"F3 in to F3 out\"\n"
     "  whichwire case jumper job.jsonl \"F3 in to F3 out\" --off"},
    {WorkKind::replaced,
     "A part was replaced or a wire repaired.\n\n"
     "From here on a scan counts as taken after the repair.",
     "the part or wire", "  whichwire case replaced job.jsonl \"fuse F3\" --note \"had blown\""},
    {WorkKind::programmed,
     "A module was programmed or configured.\n\n"
     "A replaced module may need that before it answers.",
     "the module", "  whichwire case programmed job.jsonl ECM"},
};

struct Options {
  EntryOptions entry;
  WorkKind kind = WorkKind::unplug;
  std::string what;
  bool off = false;
};

bool puts_back(WorkKind kind) {
  return kind == WorkKind::replug || kind == WorkKind::fuse_in || kind == WorkKind::jumper_off;
}

int run(Options options) {
  if (options.off) options.kind = WorkKind::jumper_off;
  const auto job = case_or_message(options.entry.file);
  if (!job) return refused;
  const Network& network = job->start().network;
  const PlaceFound place = work_place(network, options.kind, options.what);
  const std::vector<OffNow> off = ledger_of(*job);
  const bool in_ledger = std::ranges::find(off, options.what, &OffNow::what) != off.end();
  const bool back = puts_back(options.kind) && in_ledger;
  if (!place.error.empty() && !options.entry.as_written && !back) {
    message(place.error + " --as-written takes it as it stands");
    return refused;
  }
  std::vector<std::string> cautions = cautions_at(network, options.kind, place.what);
  if (!place.known && !puts_back(options.kind))
    cautions.insert(cautions.begin(), "The network does not have it; it is taken as you wrote it.");
  return append(options.entry, CaseWork{options.kind, back ? options.what : place.what, options.entry.note}, cautions);
}

bool has_places(WorkKind kind) {
  return kind == WorkKind::unplug || kind == WorkKind::replug || kind == WorkKind::fuse_out ||
         kind == WorkKind::fuse_in;
}

}  // namespace

void add_case_work(CLI::App& job, Action& chosen) {
  for (const Words& words : all_words) {
    auto options = std::make_shared<Options>();
    options->kind = words.kind;
    CLI::App* command = job.add_subcommand(std::string(word_for(words.kind)), words.about);
    command->allow_extras();
    ask_for_entry(*command, options->entry);
    command->add_option("WHAT", options->what, words.what)->required();
    if (words.kind == WorkKind::jumper) command->add_flag("--off", options->off, "the lead is off again");
    if (has_places(words.kind))
      command->add_flag("--as-written", options->entry.as_written, "take WHAT as it stands, whatever it looks like");
    ask_for_note(*command, options->entry);
    teach(*command, words.example);
    command->callback([options, &chosen] { chosen = [options] { return run(*options); }; });
  }
}

}  // namespace whichwire::cli
