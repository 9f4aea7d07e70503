// A disk that fails: the calls that write a case are this program's own, and do what the test has asked for.
#pragma once

#include <cstddef>

namespace whichwire::test {

struct BadDisk {
  std::size_t room = static_cast<std::size_t>(-1);  ///< bytes until the disk is full
  std::size_t at_once = room;                       ///< most bytes a call writes
  int interrupted = 0;                              ///< so many calls end with EINTR first
  int sync_error = 0;                               ///< errno of every fsync
  int cut_error = 0;                                ///< errno of every ftruncate behind the first
};

/// In force from now on; a fresh one is a good disk.
void use_disk(const BadDisk& disk);

}  // namespace whichwire::test
