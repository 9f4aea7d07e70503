// Pasted text in whatever encoding it was saved in, as UTF-8. Tested in tests/scan/decode.cpp.
#pragma once

#include <string>
#include <string_view>

namespace whichwire {

/// UTF-16 by its byte order mark, else UTF-8; bytes that are no UTF-8 are taken as ISO 8859-1.
std::string decoded(std::string_view bytes);

}  // namespace whichwire
