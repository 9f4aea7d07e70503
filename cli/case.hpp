// The `case` commands: each adds one entry to the file or shows where the case stands.
#pragma once

#include <CLI/CLI.hpp>
#include <memory>
#include <string>
#include <whichwire/casefile.hpp>

#include "commands.hpp"

namespace whichwire::cli {

/// What every command that adds an entry asks for.
struct EntryOptions {
  std::string file, at, note;
  bool as_written = false;
};

/// FILE and --at.
void ask_for_entry(CLI::App& command, EntryOptions& options);
void ask_for_note(CLI::App& command, EntryOptions& options);

/// The time of the entry: --at, or now.
std::string time_of(const EntryOptions& options);

/// The case, or nullopt after saying why not.
std::optional<Case> case_or_message(const std::string& path);

/// Appends and acknowledges with the entry in words and the cautions that belong to it. Returns the exit status.
int append(const EntryOptions& options, const CaseContents& contents, const std::vector<std::string>& cautions = {});

/// Says why an entry was not written; the exit status.
int not_written(const std::string& path, const Appended& appended);

/// Whether all are faults in words; says what is wrong with those that are not.
bool faults_in_words(const Network& network, const std::vector<std::string>& all);

/// A group of `case` commands of one sort.
void add_case_start(CLI::App& job, Action& chosen);
void add_case_evidence(CLI::App& job, Action& chosen);
void add_case_work(CLI::App& job, Action& chosen);
void add_case_words(CLI::App& job, Action& chosen);
void add_case_pages(CLI::App& job, Action& chosen);
void add_case_guide(CLI::App& job, Action& chosen);

}  // namespace whichwire::cli
