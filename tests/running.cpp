#include "running.hpp"

#include <sys/wait.h>
#include <unistd.h>

#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <sstream>

namespace whichwire::test {

namespace {

/// Removes its folder when the program ends.
struct Folder {
  std::filesystem::path path;
  Folder() : path(std::filesystem::temp_directory_path() / ("whichwire-test-" + std::to_string(getpid()))) {
    std::filesystem::create_directories(path);
  }
  ~Folder() {
    std::error_code ignored;
    std::filesystem::remove_all(path, ignored);
  }
  Folder(const Folder&) = delete;
  Folder& operator=(const Folder&) = delete;
};

}  // namespace

std::string scratch() {
  static const Folder folder;
  return folder.path.string();
}

std::string read_text(const std::string& path) {
  std::ostringstream text;
  text << std::ifstream(path, std::ios::binary).rdbuf();
  return text.str();
}

void write_text(const std::string& path, const std::string& text) { std::ofstream(path, std::ios::binary) << text; }

Run run(const std::string& command, const std::string& input) {
  const std::string in = scratch() + "/in";
  const std::string out = scratch() + "/out";
  const std::string err = scratch() + "/err";
  const std::string script = scratch() + "/script";
  write_text(in, input);
  write_text(script, "cd '" WHICHWIRE_SOURCE_DIR "' && unset NO_COLOR && PATH='" +
                         std::filesystem::path(WHICHWIRE_BINARY).parent_path().string() + "':$PATH\n" + command + "\n");
  const int status = std::system(("sh '" + script + "' <'" + in + "' >'" + out + "' 2>'" + err + "'").c_str());
  return {WIFEXITED(status) ? WEXITSTATUS(status) : 128 + WTERMSIG(status), read_text(out), read_text(err)};
}

std::string golden(const std::string& path, const std::string& actual) {
  const char* update = std::getenv("WHICHWIRE_UPDATE");
  if (update != nullptr && std::string(update) == "1") write_text(path, actual);
  return read_text(path);
}

}  // namespace whichwire::test
