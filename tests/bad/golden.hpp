// Compares what is said about each refused input of a folder with the file beside it.
#pragma once

#include <doctest/doctest.h>

#include <algorithm>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <sstream>
#include <string>
#include <vector>
#include <whichwire/mistake.hpp>

namespace whichwire::test {

inline std::string text_of_file(const std::filesystem::path& path) {
  std::ifstream in(path, std::ios::binary);
  std::ostringstream out;
  out << in.rdbuf();
  return out.str();
}

/// All mistakes as one text, without the folder before file names.
inline std::string said(const std::vector<Mistake>& mistakes, const std::filesystem::path& folder) {
  std::string all;
  for (const Mistake& mistake : mistakes) all += text_of(mistake);
  const std::string prefix = folder.string() + "/";
  for (std::size_t at = all.find(prefix); at != std::string::npos; at = all.find(prefix, at))
    all.erase(at, prefix.size());
  return all;
}

/// `read` gives the mistakes of the file at a path. Every file with the ending is refused, with exactly its golden
/// text.
template <class Read>
void check_folder(const std::string& name, const std::string& ending, std::size_t at_least, const Read& read) {
  const std::filesystem::path folder = std::filesystem::path(WHICHWIRE_SOURCE_DIR) / "tests" / "bad" / name;
  std::vector<std::filesystem::path> files;
  for (const auto& entry : std::filesystem::directory_iterator(folder)) {
    if (entry.path().extension() == ending) files.push_back(entry.path());
  }
  std::sort(files.begin(), files.end());
  CHECK(files.size() >= at_least);
  for (const std::filesystem::path& file : files) {
    CAPTURE(file.filename().string());
    std::filesystem::path golden = file;
    golden.replace_extension(".said");
    const std::string now = said(read(file.string()), folder);
    CHECK(!now.empty());
    if (std::getenv("WHICHWIRE_UPDATE") != nullptr) std::ofstream(golden, std::ios::binary) << now;
    CHECK(now == text_of_file(golden));
  }
}

}  // namespace whichwire::test
