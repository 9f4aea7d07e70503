#include "network/read_file.hpp"

#include <doctest/doctest.h>
#include <unistd.h>

#include <filesystem>
#include <fstream>
#include <whichwire/network.hpp>

using namespace whichwire;

TEST_CASE("a file is read whole, whatever bytes it holds") {
  const std::string path =
      (std::filesystem::temp_directory_path() / ("whichwire-file-" + std::to_string(getpid()))).string();
  const std::string bytes("a\0\r\n\xff", 5);
  std::ofstream(path, std::ios::binary) << bytes;
  CHECK(read_file(path, 5).text == bytes);
  CHECK(read_file(path, 4).error == "is larger than 4 bytes; it is too large to read");
  std::filesystem::remove(path);
  CHECK(read_file(path, 5).error == "cannot be read: there is no such file");
}

TEST_CASE("a folder, a device and a missing file are refused by name") {
  CHECK(read_file("/", 10).error == "cannot be read: it is a folder");
  CHECK(read_file("/dev/zero", 10).error == "cannot be read: it is no ordinary file");
  const NetworkResult result = load_network("/nowhere/at all.json");
  REQUIRE(result.mistakes.size() == 1);
  CHECK(text_of(result.mistakes[0]) == "/nowhere/at all.json: cannot be read: there is no such file\n");
}
