// Asks the independent judges of tests/page.
#pragma once

#include <nlohmann/json.hpp>
#include <regex>
#include <sstream>
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

/// A page without style and script, which have tests of their own, and without their digests.
inline std::string without_style_and_script(std::string page) {
  page = std::regex_replace(page, std::regex("sha256-[A-Za-z0-9+/=]{44}"), "");
  for (const std::string tag : {"style", "script"}) {
    const std::string last = "</" + tag + ">\n";
    for (std::size_t begin; (begin = page.find("<" + tag + ">")) != std::string::npos;) {
      const std::size_t end = page.find(last, begin);
      if (end == std::string::npos) return "without an end: " + tag;
      page.erase(begin, end + last.size() - begin);
    }
  }
  return page;
}

/// As html_page.py gives texts.
inline std::string with_single_blanks(const std::string& text) {
  return std::regex_replace(text, std::regex("\\s+"), " ");
}

inline bool says(const nlohmann::json& page, const std::string& text) {
  return page["text"].get<std::string>().find(with_single_blanks(text)) != std::string::npos;
}

/// Words of the text that the page does not have, whatever the breaks.
inline std::vector<std::string> words_missing(const nlohmann::json& page, const std::string& text) {
  std::istringstream words(text);
  const std::string all = " " + page["text"].get<std::string>() + " ";
  std::vector<std::string> missing;
  for (std::string word; words >> word;) {
    while (!word.empty() && std::string_view(":;,.()").find(word.back()) != std::string_view::npos) word.pop_back();
    while (!word.empty() && word.front() == '(') word.erase(0, 1);
    const bool sign = word.find_first_not_of("!=+-0123456789") == std::string::npos;
    if (!sign && all.find(word) == std::string::npos) missing.push_back(word);
  }
  std::erase_if(missing, [](const std::string& word) { return word == "--json" || word == "lists" || word == "them"; });
  return missing;
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
