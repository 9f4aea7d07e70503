// A case on a disk that fails in every way at every byte: what was acknowledged is there, what was not is told, and the
// file opens at its last complete entry.
#include "casefile/jobs.hpp"
#include "hardening/bad_disk.hpp"

using namespace whichwire;
using namespace whichwire::test;

namespace {

constexpr const char* at = "2026-03-02T10:00:00Z";
const CaseNote wrote{std::string(90, 'x'), false, {}};

Appended append_on(const BadDisk& disk, const std::string& path) {
  const OnDisk bad(disk);
  return append_to_case(path, wrote, at);
}

}  // namespace

TEST_CASE("a disk that is full at any byte of an entry leaves the case as it was, and says so") {
  const Job job;
  const std::string before = text_at(job.path());
  const std::size_t length = json_of(CaseEntry{at, wrote}).size();
  for (std::size_t room = 0; room < length; ++room) {
    CAPTURE(room);
    const Appended added = append_on({.room = room}, job.path());
    REQUIRE(added.entry == 0);
    CHECK(added.failed);
    CHECK(added.error == "cannot be written: No space left on device");
    REQUIRE(text_at(job.path()) == before);
  }
  CHECK(append_on({.room = length}, job.path()).entry == 2);
}

TEST_CASE("short writes and interrupted ones come to a whole entry") {
  const Job job;
  std::size_t entries = 1;
  for (const std::size_t most : {1U, 7U, 64U}) {
    CHECK(append_on({.at_once = most, .interrupted = 3}, job.path()).entry == ++entries);
    CHECK(job.read().entries.size() == entries);
    CHECK(job.read().cut_off_bytes == 0);
  }
}

TEST_CASE("what did not reach the disk is not acknowledged") {
  const Job job;
  const std::string before = text_at(job.path());
  const Appended added = append_on({.sync_error = EIO}, job.path());
  CHECK(added.entry == 0);
  CHECK(added.error == "cannot be written: Input/output error");
  CHECK(text_at(job.path()) == before);
}

TEST_CASE("where not even the half entry can be taken back, the case opens before it and goes on behind it") {
  const Job job;
  const std::size_t length = json_of(CaseEntry{at, wrote}).size();
  std::size_t entries = 1;
  for (std::size_t room = 0; room + 1 < length; room += 5) {
    CAPTURE(room);
    CHECK(append_on({.room = room, .cut_error = EIO}, job.path()).entry == 0);
    const Case read = job.read();
    REQUIRE(read.entries.size() == entries);
    CHECK(read.cut_off_bytes == room);
    REQUIRE(append_on({}, job.path()).entry == ++entries);
    CHECK(job.read().cut_off_bytes == 0);
  }
}

TEST_CASE("a case that cannot be started on a full disk can be started later") {
  const std::string path = Job::fresh();
  {
    const OnDisk full({.room = 1000, .cut_error = EIO});
    CHECK(start_case(path, compact_start(), at).error == "cannot be written: No space left on device");
  }
  CHECK(start_case(path, compact_start(), at).entry == 1);
  std::filesystem::remove(path);
}
