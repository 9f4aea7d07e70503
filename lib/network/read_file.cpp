#include "network/read_file.hpp"

#include <filesystem>
#include <fstream>

namespace whichwire {

FileText read_file(const std::string& path, std::size_t most) {
  std::error_code error;
  const std::filesystem::file_status status = std::filesystem::status(path, error);
  if (!std::filesystem::exists(status)) return {{}, "cannot be read: there is no such file"};
  if (std::filesystem::is_directory(status)) return {{}, "cannot be read: it is a folder"};
  if (!std::filesystem::is_regular_file(status)) return {{}, "cannot be read: it is no ordinary file"};
  std::ifstream in(path, std::ios::binary);
  if (!in) return {{}, "cannot be read: it may not be opened"};
  const std::uintmax_t size = std::filesystem::file_size(path, error);
  if (error) return {{}, "cannot be read: " + error.message()};
  if (size > most) return {{}, "is larger than " + std::to_string(most) + " bytes; it is too large to read"};
  std::string text(static_cast<std::size_t>(size), '\0');
  in.read(text.data(), static_cast<std::streamsize>(size));
  if (in.bad()) return {{}, "cannot be read to its end"};
  text.resize(static_cast<std::size_t>(in.gcount()));
  return {std::move(text), {}};
}

}  // namespace whichwire
