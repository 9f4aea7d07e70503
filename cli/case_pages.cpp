// `whichwire case status` and `case report`. Tests: tests/cli/case.cpp.
#include <whichwire/check.hpp>
#include <whichwire/render.hpp>

#include "case.hpp"
#include "exit_status.hpp"
#include "help.hpp"
#include "inputs.hpp"
#include "terminal.hpp"
#include "values.hpp"

namespace whichwire::cli {

namespace {

constexpr const char* about_next =
    "What is likely by the readings, and what to measure next.\n"
    "\n"
    "Takes the last scan and every reading that counts. Says when one repair is\n"
    "proven, what is missing before a module is condemned, or what cannot be told\n"
    "apart and why.";

constexpr const char* about_status =
    "Where the case stands: what is off, what was done.\n\n"
    "Prints what is off now, every entry, what is likely and comes next, and the last\n"
    "scan against the first.";

constexpr const char* about_report =
    "The report, for a colleague or for the customer.\n"
    "\n"
    "Says the complaint, the evidence, the reasoning from scan and readings, what was\n"
    "ruled out and by which reading, the repair, before and after, and what is not\n"
    "proven.";

constexpr const char* weighing = "weighing scan and readings";

struct Options {
  std::string file, rates, whom = "colleague";
  bool json = false, markdown = false;
};

CasePages pages_of(const Case& job) { return {job, ledger_of(job), compare_scans(job), faults_noted(job), {}, {}, {}}; }

int run_next(const Options& options) {
  const auto job = case_or_message(options.file);
  const auto rates = rates_or_message(options.rates);
  if (!job || !rates) return refused;
  const CaseState state = while_working(weighing, [&] { return state_of(*job, *rates); });
  return write_out(options.json ? json_of(*job, state) : next_of(*job, state, look_of_output()));
}

int run_status(const Options& options) {
  const auto job = case_or_message(options.file);
  const auto rates = rates_or_message(options.rates);
  if (!job || !rates) return refused;
  CasePages pages = pages_of(*job);
  pages.state = while_working(weighing, [&] { return state_of(*job, *rates); });
  return write_out(options.json ? json_of(pages) : status_of(pages, look_of_output()));
}

int run_report(const Options& options) {
  const auto job = case_or_message(options.file);
  const auto rates = rates_or_message(options.rates);
  if (!job || !rates) return refused;
  CasePages pages = pages_of(*job);
  const ScansOf scans = scans_of(*job);
  while_working(weighing, [&] {
    pages.before_repair = reasoning_of(*job, scans.before_repair, *rates);
    if (scans.last != scans.before_repair) pages.now = reasoning_of(*job, scans.last, *rates);
  });
  const ReportFor whom = options.whom == "customer" ? ReportFor::customer : ReportFor::colleague;
  return write_out(report_of(pages, whom, options.markdown ? ReportAs::markdown : ReportAs::text, look_of_output()));
}

}  // namespace

void add_case_pages(CLI::App& job, Action& chosen) {
  auto options = std::make_shared<Options>();
  CLI::App* next = job.add_subcommand("next", about_next);
  next->allow_extras();
  next->add_option("FILE", options->file, "the case; `-` reads standard input")->required();
  next->add_flag("--json", options->json, "print whichwire.case-next.v1");
  ask_for_rates(*next, options->rates);
  teach(*next,
        "  whichwire case next job.jsonl\n"
        "  whichwire case next job.jsonl --json");
  next->callback([options, &chosen] { chosen = [options] { return run_next(*options); }; });

  CLI::App* status = job.add_subcommand("status", about_status);
  status->allow_extras();
  status->add_option("FILE", options->file, "the case; `-` reads standard input")->required();
  status->add_flag("--json", options->json, "print whichwire.case-status.v1");
  ask_for_rates(*status, options->rates);
  teach(*status, "  whichwire case status job.jsonl");
  status->callback([options, &chosen] { chosen = [options] { return run_status(*options); }; });

  CLI::App* report = job.add_subcommand("report", about_report);
  report->allow_extras();
  report->add_option("FILE", options->file, "the case; `-` reads standard input")->required();
  report->add_option("--for", options->whom, "colleague (the default) or customer")
      ->type_name("READER")
      ->check(one_of({"colleague", "customer"}));
  report->add_flag("--markdown", options->markdown, "print Markdown instead of plain text");
  ask_for_rates(*report, options->rates);
  teach(*report,
        "  whichwire case report job.jsonl\n"
        "  whichwire case report job.jsonl --for customer --markdown > page.md");
  report->callback([options, &chosen] { chosen = [options] { return run_report(*options); }; });
}

}  // namespace whichwire::cli
