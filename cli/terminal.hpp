// The one place that knows terminals: width, colour, and where results and messages go.
#pragma once

#include <functional>
#include <memory>
#include <string>
#include <whichwire/render.hpp>

namespace whichwire::cli {

/// Up to 80 columns; colour only on a terminal, and never where the environment has NO_COLOR.
Look look_of_output();

bool input_is_terminal();

/// A result, to standard output. Returns the exit status: `failed` where it cannot be written.
int write_out(const std::string& text);

/// A message of the program, to standard error.
void message(const std::string& text);

/// Mistakes of an input with place, line and caret, to standard error.
void message(const std::vector<Mistake>& mistakes);

/// While it lives, each second one line on a terminal says what is being done and for how long; it is
/// wiped at the end. Nothing where standard error is no terminal or the environment has NO_COLOR.
class Working {
 public:
  using Words = std::function<std::string(int seconds)>;
  explicit Working(const Words& words);
  explicit Working(const std::string& what);
  ~Working();
  Working(const Working&) = delete;
  Working& operator=(const Working&) = delete;

 private:
  struct Line;
  std::unique_ptr<Line> line_;
};

/// What `work` gives, with progress shown meanwhile.
template <class Work>
auto while_working(const std::string& what, Work work) {
  const Working working(what);
  return work();
}

}  // namespace whichwire::cli
