// `whichwire case guide`: walks through a job, one question at a time. All that it knows stands in the case, so that it
// can be left at any moment. Tests: tests/cli/guide.cpp.
#include <algorithm>
#include <cstdio>
#include <filesystem>
#include <iostream>
#include <whichwire/case_guide.hpp>
#include <whichwire/render.hpp>

#include "case.hpp"
#include "exit_status.hpp"
#include "help.hpp"
#include "inputs.hpp"
#include "terminal.hpp"
#include "values.hpp"

namespace whichwire::cli {

namespace {

constexpr const char* about =
    "Walks through the job, question by question.\n"
    "\n"
    "Asks for the scan, then for one measurement at a time until one repair is\n"
    "proven, then for the scan that proves the repair. Type readings as they are:\n"
    "12.4 V, 59.8, OL, lamp dim; or the letter of an answer. ? explains every term\n"
    "of the step, `back` takes the last entry back, `skip` asks for another check,\n"
    "`quit` leaves. The case is kept after every answer, so that the guide goes on\n"
    "where it was left, at a terminal or with a script on standard input.";

constexpr const char* examples =
    "  whichwire case start job.jsonl topologies/compact-car.json\n"
    "  whichwire case guide job.jsonl";

class Guide {
 public:
  Guide(std::string path, Rates rates) : path_(std::move(path)), rates_(std::move(rates)), look_(look_of_output()) {}

  int run() {
    while (true) {
      auto job = case_or_message(path_);
      if (!job) return refused;
      job_ = std::move(*job);
      state_ = while_working("weighing scan and readings", [&] { return state_of(job_, rates_); });
      question_ = question_of(state_);
      if (write_out(guide_of(job_, state_, question_, look_)) != done) return failed;
      if (question_.about == GuideQuestion::About::nothing) return done;
      const Step step = ask();
      if (step.leave) return step.status;
    }
  }

 private:
  /// What one question came to: on to the next, or out with a status.
  struct Step {
    bool leave = false;
    int status = done;
  };

  /// A line of input; nullopt at its end. What a script typed is shown, as a terminal shows it by itself.
  std::optional<std::string> typed(const char* prompt) const {
    write_out(prompt);
    std::string line;
    if (!std::getline(std::cin, line)) return std::nullopt;
    if (!input_is_terminal()) write_out(printable(line) + "\n");
    return line;
  }

  Step leave() const {
    return {true, write_out("\nLeft. `whichwire case guide " + printable(path_) + "` goes on from here.\n")};
  }

  /// Asks until something was written down or the guide is left.
  Step ask() {
    while (true) {
      const auto line = typed("> ");
      if (!line || *line == "quit" || *line == "q") return leave();
      if (*line == "?" || *line == "help" || line->starts_with("? ")) {
        write_out(guide_help(job_, state_, question_, line->starts_with("? ") ? line->substr(2) : "", look_));
      } else if (*line == "why") {
        write_out(next_of(job_, state_, look_));
      } else if (*line == "map") {
        write_out(network_in_words(job_, state_, look_));
      } else if (const auto contents = entry_from(*line)) {
        return write(*contents);
      }
    }
  }

  /// The entry that a line makes; nullopt after saying why it makes none.
  std::optional<CaseContents> entry_from(const std::string& line) {
    if (line == "back") return undo();
    if (line == "skip") return skip();
    if (line.starts_with("note ")) return CaseNote{line.substr(5), false, {}};
    if (question_.about == GuideQuestion::About::scan) return scan_from(line);
    const GuideAnswer answer = answer_to(question_, state_, line);
    if (!answer.entry) write_out(printable(answer.error) + "\n");
    return answer.entry;
  }

  std::optional<CaseContents> undo() const {
    const std::size_t last = last_to_undo(job_);
    if (last != 0) return CaseUndo{last};
    write_out("There is nothing to take back.\n");
    return std::nullopt;
  }

  std::optional<CaseContents> skip() const {
    using About = GuideQuestion::About;
    if (question_.about == About::check || question_.about == About::take_off)
      return put_aside(*state_.reasoning->assessment.next.check);
    write_out("Only a check can be skipped.\n");
    return std::nullopt;
  }

  /// The named file, or what is pasted up to a line that is only a full stop.
  std::optional<CaseContents> scan_from(const std::string& line) {
    if (line.empty()) return std::nullopt;
    Input input{"pasted", "", ""};
    std::error_code ignored;
    if (std::filesystem::is_regular_file(line, ignored)) {
      auto read = input_or_message(line);
      if (!read) return std::nullopt;
      input = std::move(*read);
    } else {
      for (std::optional<std::string> next = line; next && *next != "."; next = typed("")) input.text += *next + "\n";
    }
    ScanResult result = read_any_scan(input.text, input.name, job_.start().network);
    message(result.mistakes);
    write_out(lines_not_placed(result.lines, look_));
    if (!result.scan) return std::nullopt;
    return CaseScan{*result.scan};
  }

  Step write(const CaseContents& contents) {
    const Appended appended = append_to_case(path_, contents, time_of({}));
    if (appended.entry != 0) return {};
    const int status = not_written(path_, appended);
    return {appended.failed || !appended.mistakes.empty(), status};
  }

  std::string path_;
  Rates rates_;
  Look look_;
  Case job_;
  CaseState state_;
  GuideQuestion question_;
};

}  // namespace

void add_case_guide(CLI::App& job, Action& chosen) {
  struct Options {
    std::string file, rates;
  };
  auto options = std::make_shared<Options>();
  CLI::App* command = job.add_subcommand("guide", about);
  command->allow_extras();
  command->add_option("FILE", options->file, "the case, begun with `case start`")->required();
  ask_for_rates(*command, options->rates);
  teach(*command, examples);
  command->callback([options, &chosen] {
    chosen = [options]() -> int {
      const auto rates = rates_or_message(options->rates);
      return rates ? Guide(options->file, *rates).run() : refused;
    };
  });
}

}  // namespace whichwire::cli
