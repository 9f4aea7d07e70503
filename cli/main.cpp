#include "program.hpp"

int main(int argc, char** argv) { return whichwire::cli::run(argc, argv); }
