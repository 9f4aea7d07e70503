// Runs the built program as a user would: from the project's folder, with standard output and error kept apart.
#pragma once

#include <string>

namespace whichwire::test {

struct Run {
  int status = -1;
  std::string out, err;
};

/// `command` in a shell where `whichwire` is the built program and the folder is the project's; `input` on standard
/// input. The environment has neither NO_COLOR nor a terminal.
Run run(const std::string& command, const std::string& input = "");

/// A folder of this process, emptied at the end.
std::string scratch();

std::string read_text(const std::string& path);
void write_text(const std::string& path, const std::string& text);

/// The golden file's text. With WHICHWIRE_UPDATE=1 in the environment it is first written anew from `actual`:
/// look at the difference before you commit it.
std::string golden(const std::string& path, const std::string& actual);

}  // namespace whichwire::test
