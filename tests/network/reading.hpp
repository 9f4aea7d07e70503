// Small networks for the tests of the reader: what they hold, or what is said about them.
#pragma once

#include <doctest/doctest.h>

#include <string>
#include <string_view>
#include <whichwire/network.hpp>

namespace whichwire::test {

/// A text of the format with these insides.
inline std::string network_text(std::string_view insides) {
  return "{\"format\": \"whichwire.network.v1\", " + std::string(insides) + "}";
}

/// All that is said, without the file, one mistake a line: `line:column: path: message`.
inline std::string said_of(const NetworkResult& result) {
  std::string all;
  for (const Mistake& mistake : result.mistakes) {
    const std::string text = text_of(mistake);
    const std::size_t from = mistake.file.size() + 1;
    all += text.substr(from, text.find('\n') + 1 - from);
  }
  return all;
}

/// What is said about a text, "path: message" a line.
inline std::string said(std::string_view insides) {
  const NetworkResult result = read_network(network_text(insides), "file");
  CHECK(result.network.has_value() == result.mistakes.empty());
  std::string all;
  for (const Mistake& mistake : result.mistakes) all += mistake.path + ": " + mistake.message + "\n";
  return all;
}

/// The network of a text that must be right.
inline Network read(std::string_view insides) {
  NetworkResult result = read_network(network_text(insides), "file");
  const std::string mistakes = said_of(result);
  CHECK(mistakes == "");
  REQUIRE(result.network);
  return std::move(*result.network);
}

/// Two modules on one bus, the frame for tests of other parts.
inline std::string framed(std::string_view more) {
  return R"("modules": {"A": {}, "B": {}}, "buses": {"BUS": {"protocol": "can-hs", "members": ["A", "B"]}}, )" +
         std::string(more);
}

}  // namespace whichwire::test
