// works_for MILLISECONDS: the program's line of progress around work that does nothing but take that long.
#include <chrono>
#include <string>
#include <thread>

#include "terminal.hpp"

int main(int, char** arguments) {
  whichwire::cli::while_working("searching", [&] {
    std::this_thread::sleep_for(std::chrono::milliseconds(std::stoi(arguments[1])));
    return 0;
  });
  return 0;
}
