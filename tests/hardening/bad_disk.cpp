#include "hardening/bad_disk.hpp"

#include <sys/syscall.h>
#include <unistd.h>

#include <algorithm>
#include <cerrno>

namespace {

whichwire::test::BadDisk now;
int cuts = 0;

int fails(int error) {
  errno = error;
  return -1;
}

}  // namespace

void whichwire::test::use_disk(const BadDisk& disk) {
  now = disk;
  cuts = 0;
}

extern "C" {

ssize_t pwrite(int handle, const void* bytes, std::size_t count, off_t at) {
  if (now.interrupted > 0) return --now.interrupted, fails(EINTR);
  if (now.room == 0) return fails(ENOSPC);
  const std::size_t some = std::min({count, now.room, now.at_once});
  now.room -= some;
  return syscall(SYS_pwrite64, handle, bytes, some, at);
}

ssize_t pread(int handle, void* bytes, std::size_t count, off_t at) {
  const auto from = static_cast<std::size_t>(at);
  if (from >= now.readable) return fails(EIO);
  return syscall(SYS_pread64, handle, bytes, std::min({count, now.readable - from, now.at_once}), at);
}

int fsync(int handle) {
  if (now.sync_error != 0) return fails(now.sync_error);
  return static_cast<int>(syscall(SYS_fsync, handle));
}

int ftruncate(int handle, off_t length) noexcept {
  if (now.cut_error != 0 && ++cuts > now.good_cuts) return fails(now.cut_error);
  return static_cast<int>(syscall(SYS_ftruncate, handle, length));
}
}
