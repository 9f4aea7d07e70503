// The rows of a long run on a disk that fails in every way at every byte: the rows that were there stay, what is not
// whole is told and taken back or cut off, and the next run goes on behind the last whole row.
#include <doctest/doctest.h>

#include <cerrno>
#include <filesystem>
#include <vector>

#include "hardening/bad_disk.hpp"
#include "rows_file.hpp"
#include "running.hpp"
#include "terminal.hpp"

using namespace whichwire::test;
using whichwire::cli::RowsFile;

namespace {

std::string said;

const std::string first = "{\"scan\":\"a\"}\n", more = "{\"scan\":\"b\"}\n{\"scan\":\"c\"}\n";

std::string path() { return scratch() + "/rows.ndjson"; }

/// A file with the first row in it.
std::string with_first() {
  write_text(path(), first);
  return path();
}

std::vector<std::string> rows_in(RowsFile& file) {
  std::vector<std::string> rows;
  while (auto row = file.next_done()) rows.push_back(*row + "\n");
  return rows;
}

/// Goes on in the file: what is in it, then `more`.
void goes_on_behind(const std::vector<std::string>& rows) {
  RowsFile file;
  REQUIRE(file.open(path(), true));
  CHECK(rows_in(file) == rows);
  CHECK(file.add(more));
  CHECK(file.finish());
  std::string all;
  for (const std::string& row : rows) all += row;
  CHECK(read_text(path()) == all + more);
}

}  // namespace

/// Where the program says it on standard error.
void whichwire::cli::message(const std::string& text) { said = text; }

TEST_CASE("a disk that is full at any byte of added rows keeps the rows of before, says so, and the next run goes on") {
  for (std::size_t room = 0; room < more.size(); ++room) {
    CAPTURE(room);
    {
      RowsFile file;
      REQUIRE(file.open(with_first(), true));
      CHECK(rows_in(file) == std::vector<std::string>{first});
      const OnDisk full({.room = room});
      CHECK_FALSE(file.add(more));
    }
    CHECK(said == path() + ": cannot be written: No space left on device; with more room, --resume goes on");
    CHECK(read_text(path()) == first);
    goes_on_behind({first});
  }
}

TEST_CASE("where not even the half row can be taken back, the next run cuts it off") {
  for (std::size_t room = 0; room < more.size(); ++room) {
    CAPTURE(room);
    {
      RowsFile file;
      REQUIRE(file.open(with_first(), true));
      rows_in(file);
      const OnDisk full({.room = room, .cut_error = EIO, .good_cuts = 0});
      CHECK_FALSE(file.add(more));
    }
    CHECK(said.find("its last row is cut off; with more room, --resume goes on") != std::string::npos);
    CHECK(read_text(path()) == first + more.substr(0, room));
    const bool whole_one = room >= more.size() / 2;
    goes_on_behind(whole_one ? std::vector<std::string>{first, more.substr(0, more.size() / 2)}
                             : std::vector<std::string>{first});
  }
}

TEST_CASE("short writes, short reads and interrupted ones come to whole rows") {
  for (const std::size_t most : {1U, 5U, 13U}) {
    CAPTURE(most);
    std::filesystem::remove(path());
    const OnDisk slow({.at_once = most, .interrupted = 3});
    RowsFile file;
    REQUIRE(file.open(path(), false));
    CHECK(file.add(first + more));
    CHECK(read_text(path()) == first + more);
    RowsFile again;
    CHECK_FALSE(again.open(path(), false));
  }
  const OnDisk slow({.at_once = 1});
  goes_on_behind({first, more.substr(0, more.size() / 2), more.substr(more.size() / 2)});
}

TEST_CASE("rows that cannot be read to their end are left as they are, and not written behind") {
  for (std::size_t readable = 0; readable < (first + more).size(); ++readable) {
    CAPTURE(readable);
    write_text(path(), first + more + "{\"half");
    RowsFile file;
    REQUIRE(file.open(path(), true));
    const OnDisk bad({.readable = readable});
    rows_in(file);
    CHECK_FALSE(file.is_open());
    CHECK(said == path() + ": cannot be read: Input/output error");
    CHECK(read_text(path()) == first + more + "{\"half");
  }
}

TEST_CASE("a half row that cannot be cut off is said, and nothing is written behind it") {
  write_text(path(), first + "{\"half");
  RowsFile file;
  REQUIRE(file.open(path(), true));
  const OnDisk bad({.cut_error = EROFS, .good_cuts = 0});
  CHECK(rows_in(file) == std::vector<std::string>{first});
  CHECK_FALSE(file.is_open());
  CHECK(said == path() + ": cannot be written: Read-only file system");
  CHECK(read_text(path()) == first + "{\"half");
}

TEST_CASE("rows that did not reach the disk are said") {
  RowsFile file;
  REQUIRE(file.open(with_first(), true));
  rows_in(file);
  CHECK(file.add(more));
  const OnDisk bad({.sync_error = EIO});
  CHECK_FALSE(file.finish());
  CHECK(said == path() + ": its last rows may not be on the disk: Input/output error");
}

TEST_CASE("two runs do not write to one file of rows, and what is no file is none") {
  RowsFile file, other, device, folder;
  REQUIRE(file.open(with_first(), true));
  CHECK_FALSE(other.open(path(), true));
  CHECK(said == path() + ": another run is writing to it");
  CHECK_FALSE(device.open("/dev/zero", true));
  CHECK(said == "/dev/zero is no ordinary file");
  CHECK_FALSE(folder.open(scratch(), true));
  CHECK(said == scratch() + ": cannot be written: Is a directory");
}
