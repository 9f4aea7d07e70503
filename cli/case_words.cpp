// `whichwire case note`, `undo`, `close`. Tests: tests/cli/case.cpp.
#include "case.hpp"
#include "exit_status.hpp"
#include "help.hpp"
#include "terminal.hpp"
#include "values.hpp"

namespace whichwire::cli {

namespace {

constexpr const char* about_note =
    "Adds a remark; with --fault a fault that you noticed.\n"
    "\n"
    "A fault noted before the first reading, plug, fuse or part counts as there\n"
    "before you began; one noted later as found after. The report keeps them apart.";

constexpr const char* about_undo =
    "Takes an entry back; it stays in the file.\n"
    "\n"
    "It no longer counts. Without a number: the last entry that counts. A close that\n"
    "is undone opens the case again. For what really was unplugged and is plugged\n"
    "back, use `replug`.";

constexpr const char* about_close =
    "Closes the case: the job is done and handed over.\n"
    "\n"
    "Refused while anything is unplugged, pulled or bridged; each place is named.";

struct Options {
  EntryOptions entry;
  CaseNote note;
  std::size_t of = 0;
};

int run_note(const Options& options) {
  const auto job = case_or_message(options.entry.file);
  if (!job || !faults_in_words(job->start().network, options.note.rules_out)) return refused;
  return append(options.entry, options.note);
}

int run_undo(const Options& options) {
  std::size_t of = options.of;
  if (of == 0) {
    const auto job = case_or_message(options.entry.file);
    if (!job) return refused;
    of = last_to_undo(*job);
    if (of == 0) {
      message(options.entry.file + ": there is nothing to take back; the start stays");
      return refused;
    }
  }
  return append(options.entry, CaseUndo{of});
}

int run_close(const Options& options) {
  const auto job = case_or_message(options.entry.file);
  if (!job) return refused;
  std::vector<std::string> cautions;
  const ScansOf scans = scans_of(*job);
  if (scans.last <= scans.before_repair)
    cautions.emplace_back("No scan was taken after a repair: that the fault is gone is not shown.");
  return append(options.entry, CaseClose{options.entry.note}, cautions);
}

}  // namespace

void add_case_words(CLI::App& job, Action& chosen) {
  const auto options = std::make_shared<Options>();
  CLI::App* note = job.add_subcommand("note", about_note);
  note->allow_extras();
  ask_for_entry(*note, options->entry);
  note->add_option("TEXT", options->note.text, "the remark")->required();
  note->add_flag("--fault", options->note.fault, "it tells of a fault");
  note->add_option("--rules-out", options->note.rules_out,
                   "a fault that you take as ruled out, as \"open F3\";\nonce for each")
      ->type_name("WORDS")
      ->allow_extra_args(false);
  teach(*note,
        "  whichwire case note job.jsonl \"horn dead\" --fault\n"
        "  whichwire case note job.jsonl \"fuse looked at\" --rules-out \"open F3\"");
  note->callback([options, &chosen] { chosen = [options] { return run_note(*options); }; });

  CLI::App* undo = job.add_subcommand("undo", about_undo);
  undo->allow_extras();
  ask_for_entry(*undo, options->entry);
  undo->add_option("ENTRY", options->of, "its number, as `status` shows it")->check(between(1, 1e6));
  teach(*undo,
        "  whichwire case undo job.jsonl\n"
        "  whichwire case undo job.jsonl 7");
  undo->callback([options, &chosen] { chosen = [options] { return run_undo(*options); }; });

  CLI::App* close = job.add_subcommand("close", about_close);
  close->allow_extras();
  ask_for_entry(*close, options->entry);
  ask_for_note(*close, options->entry);
  teach(*close, "  whichwire case close job.jsonl --note \"handed over to the owner\"");
  close->callback([options, &chosen] { chosen = [options] { return run_close(*options); }; });
}

}  // namespace whichwire::cli
