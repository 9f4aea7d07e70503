// Two texts, with a line `---` between them: the first is written to base.json, the second extends it or not. What is
// accepted is whole; a base that is accepted and then extended by nothing is the same network; and reading again says
// the same.
#include <unistd.h>

#include <filesystem>
#include <fstream>

#include "whole_network.hpp"

namespace {

using namespace whichwire;

/// A folder of this process, emptied at the end.
struct Folder {
  std::filesystem::path path =
      std::filesystem::temp_directory_path() / ("whichwire-fuzz-extends-" + std::to_string(getpid()));
  Folder() { std::filesystem::create_directories(path); }
  ~Folder() {
    std::error_code ignored;
    std::filesystem::remove_all(path, ignored);
  }
  Folder(const Folder&) = delete;
  Folder& operator=(const Folder&) = delete;
};

std::string all_of(const std::vector<Mistake>& mistakes) {
  std::string all;
  for (const Mistake& mistake : mistakes) all += text_of(mistake);
  return all;
}

std::vector<std::string> ids_in(const Network& network) {
  std::vector<std::string> ids;
  for (const Module& module : network.modules) ids.push_back(module.id + module.name);
  for (const Bus& bus : network.buses) ids.push_back(bus.id + " " + std::to_string(bus.segments.size()));
  for (const Feed& feed : network.feeds) ids.push_back(feed.id);
  for (const Ground& ground : network.grounds) ids.push_back(ground.id);
  for (const Function& function : network.functions) ids.push_back(function.id);
  return ids;
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  static const Folder folder;
  const fuzz::TwoTexts texts = fuzz::two_texts(fuzz::text_of_bytes(data, size));
  std::ofstream(folder.path / "base.json", std::ios::binary) << texts.first;
  const std::string beside = (folder.path / "other.json").string();
  const NetworkResult result = read_network(texts.second, beside);
  fuzz::insist_on(result.network.has_value(), result.mistakes);
  if (result.network) fuzz::insist_on_whole(*result.network);
  const NetworkResult again = read_network(texts.second, beside);
  fuzz::insist(all_of(again.mistakes) == all_of(result.mistakes));

  const NetworkResult base = load_network((folder.path / "base.json").string());
  if (!base.network) return 0;
  const NetworkResult same = read_network(R"({"format":"whichwire.network.v1","extends":"base.json"})", beside);
  fuzz::insist(same.network.has_value() && ids_in(*same.network) == ids_in(*base.network));
  return 0;
}
