// The program: its commands, its messages about wrong command lines, its exit status.
#pragma once

namespace whichwire::cli {

int run(int argc, char** argv);

}  // namespace whichwire::cli
