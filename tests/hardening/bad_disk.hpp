// A disk that fails: the calls that write a case or rows and read them are this program's own, and do what the test has
// asked for.
#pragma once

#include <cstddef>

namespace whichwire::test {

struct BadDisk {
  static constexpr auto endless = static_cast<std::size_t>(-1);
  std::size_t room = endless;     ///< bytes until the disk is full
  std::size_t at_once = endless;  ///< most bytes a call writes or reads
  int interrupted = 0;            ///< so many calls end with EINTR first
  int sync_error = 0;             ///< errno of every fsync
  int cut_error = 0;              ///< errno of every ftruncate behind the good ones
  int good_cuts = 1;
  std::size_t readable = endless;  ///< bytes of a file before every read fails with EIO
};

/// In force from now on; a fresh one is a good disk.
void use_disk(const BadDisk& disk);

/// The disk is good again when this ends.
struct OnDisk {
  explicit OnDisk(const BadDisk& disk) { use_disk(disk); }
  ~OnDisk() { use_disk({}); }
};

}  // namespace whichwire::test
