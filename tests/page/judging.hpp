// Asks the independent judges of tests/page.
#pragma once

#include <nlohmann/json.hpp>
#include <string>
#include <vector>

#include "running.hpp"

namespace whichwire::test {

/// What svg.py reads in the picture.
inline nlohmann::json read_picture(const std::string& svg) {
  const std::string file = scratch() + "/picture.svg";
  write_text(file, svg);
  const Run judged = run(WHICHWIRE_PYTHON " tests/page/svg.py " + file);
  if (judged.status != 0) return {{"complaints", {judged.err}}};
  return nlohmann::json::parse(judged.out);
}

/// What html_page.py reads in each of the pages.
inline std::vector<nlohmann::json> read_pages(const std::vector<std::string>& pages) {
  std::string command = WHICHWIRE_PYTHON " tests/page/html_page.py";
  for (std::size_t i = 0; i < pages.size(); ++i) {
    const std::string file = scratch() + "/page" + std::to_string(i) + ".html";
    write_text(file, pages[i]);
    command += " " + file;
  }
  const Run judged = run(command);
  if (judged.status != 0) return {pages.size(), {{"complaints", {judged.err}}}};
  return nlohmann::json::parse(judged.out);
}

inline bool has(const nlohmann::json& list, const std::string& text) {
  return std::find(list.begin(), list.end(), text) != list.end();
}

/// Texts that would do harm where they were taken for anything but text.
inline std::vector<std::string> hostile_texts() {
  return {"<script>alert(1)</script>",
          "\"><img src=x onerror=alert(1)>",
          "' onmouseover='alert(1)",
          "javascript:alert(1)",
          "]]></style><script>alert(1)</script>",
          "--><svg onload=alert(1)>",
          "&#60;script&#62; &lt;b&gt; &amp;amp; &undefined;",
          "</title></text></svg>",
          "</script></style></html>",
          "{{constructor.constructor('alert(1)')()}} ${alert(1)}",
          "<!--<script>",
          "expression(alert(1)); url(http://example.invalid/x)"};
}

/// The same, and what a network file cannot say but a program that uses the library can.
inline std::vector<std::string> hostile_bytes() {
  std::vector<std::string> texts = hostile_texts();
  texts.insert(texts.end(), {"\x1b[2J\x1b]0;title\x07", "a\nb\rc\td", std::string("nul\0nul", 7), "\u202egnp.gvs\u202c",
                             "\u2066\u2069\u200f", "\xff\xfe broken \xc3", "\ufffe\uffff", "\u0085\u2028\u2029"});
  return texts;
}

}  // namespace whichwire::test
