// `whichwire case status` and `case report`. Tests: tests/cli/case.cpp.
#include <whichwire/check.hpp>
#include <whichwire/picture.hpp>
#include <whichwire/render.hpp>

#include "case.hpp"
#include "exit_status.hpp"
#include "help.hpp"
#include "inputs.hpp"
#include "outputs.hpp"
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
  std::string file, rates, output, whom = "colleague";
  bool json = false, markdown = false, html = false;
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

/// What was known at the last scan before a repair; of the last scan, where nothing was repaired since.
CasePages report_pages(const Case& job, const Rates& rates) {
  CasePages pages = pages_of(job);
  pages.state = state_of(job, rates);
  const ScansOf scans = scans_of(job);
  const auto reason = [&](std::size_t scan) {
    const auto& known = pages.state.reasoning;
    return known && known->entry == scan ? known : reasoning_of(job, scan, rates);
  };
  pages.before_repair = reason(scans.before_repair);
  if (scans.last != scans.before_repair) pages.now = reason(scans.last);
  return pages;
}

/// With the network's picture; the customer's shows only who answers.
std::string html_report(CasePages pages, ReportFor whom) {
  const Network& network = pages.job.start().network;
  const auto& reasoning = pages.before_repair;
  std::optional<Marks> marks;
  if (reasoning)
    marks = marks_of(network, std::get<CaseScan>(pages.job.entries[reasoning->entry - 1].contents).scan,
                     whom == ReportFor::customer ? nullptr : &reasoning->assessment);
  if (marks && pages.state.stage != CaseStage::measuring) marks->probes.clear();  // nothing is to be checked any more
  const Marks* const shown = marks ? &*marks : nullptr;
  const PagePictures pictures = pictures_for_page(network, shown);
  const Drawn drawn = drawn_for_page(network, shown, pictures);
  pages.drawn = &drawn;
  return report_of(pages, whom, ReportAs::html);
}

int run_report(const Options& options) {
  const auto job = case_or_message(options.file);
  const auto rates = rates_or_message(options.rates);
  if (!job || !rates) return refused;
  CasePages pages = while_working(weighing, [&] { return report_pages(*job, *rates); });
  const ReportFor whom = options.whom == "customer" ? ReportFor::customer : ReportFor::colleague;
  if (options.html) return write_result(options.output, html_report(std::move(pages), whom));
  const ReportAs form = options.markdown ? ReportAs::markdown : ReportAs::text;
  return write_result(options.output, report_of(pages, whom, form, look_of_output()));
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
  CLI::Option* markdown = report->add_flag("--markdown", options->markdown, "print Markdown instead of plain text");
  report->add_flag("--html", options->html, "a page with the picture of the network, for a browser or to\nprint")
      ->excludes(markdown);
  report->add_option("--output", options->output, "write to this file, whole or not at all; else standard output")
      ->type_name("FILE");
  ask_for_rates(*report, options->rates);
  teach(*report,
        "  whichwire case report job.jsonl\n"
        "  whichwire case report job.jsonl --for customer --markdown > page.md\n"
        "  whichwire case report job.jsonl --html --output report.html");
  report->callback([options, &chosen] { chosen = [options] { return run_report(*options); }; });
}

}  // namespace whichwire::cli
