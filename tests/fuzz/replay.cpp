// Runs what a fuzzer runs on each file of the given folders, without a fuzzer: what once failed must not fail again.
// A run that takes long, or comes to no input at all, fails.
#include <cstdint>
#include <ctime>
#include <filesystem>
#include <fstream>
#include <iostream>
#include <iterator>
#include <string>

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size);

namespace {

/// Seconds of the process's own time for the input, which is put into memory of exactly its size.
double seconds_of(const std::filesystem::path& path) {
  std::ifstream in(path, std::ios::binary);
  const std::string bytes{std::istreambuf_iterator<char>(in), {}};
  const std::basic_string<std::uint8_t> exact(bytes.begin(), bytes.end());
  const std::clock_t start = std::clock();
  LLVMFuzzerTestOneInput(exact.data(), exact.size());
  return static_cast<double>(std::clock() - start) / CLOCKS_PER_SEC;
}

}  // namespace

int main(int count, char** folders) {
  constexpr double most_seconds = 10;  // a hang is 1 s; the sanitizers take about ten times as long
  std::size_t inputs = 0;
  for (int i = 1; i < count; ++i) {
    if (!std::filesystem::exists(folders[i])) continue;  // nothing kept yet
    for (const auto& entry : std::filesystem::recursive_directory_iterator(folders[i])) {
      if (!entry.is_regular_file()) continue;
      ++inputs;
      const double seconds = seconds_of(entry.path());
      if (seconds < most_seconds) continue;
      std::cerr << entry.path() << " took " << seconds << " s\n";
      return 1;
    }
  }
  std::cout << inputs << " inputs\n";
  return inputs > 0 ? 0 : 1;
}
