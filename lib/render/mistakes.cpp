// What is wrong with inputs, as a page and as `whichwire.mistakes.v1`. Tests: tests/render/mistakes.cpp.
#include "render/json.hpp"
#include "render/page.hpp"

namespace whichwire {

namespace {

using namespace render;

Json mistake_json(const Mistake& mistake) {
  Json json = Json::object();
  if (mistake.line > 0) json["line"] = mistake.line;
  if (mistake.column > 0) json["column"] = mistake.column;
  if (!mistake.path.empty()) json["path"] = mistake.path;
  json["message"] = mistake.message;
  return json;
}

}  // namespace

std::string text_of(std::span<const FileChecked> files, const Look& look) {
  Page page(look);
  std::string text;
  for (const FileChecked& checked : files) {
    for (const Mistake& mistake : checked.mistakes) text += text_of(mistake);
    page.text(0, checked.file + ": ",
              checked.mistakes.empty() ? "fine, a " + checked.contents
                                       : std::to_string(checked.mistakes.size()) +
                                             (checked.mistakes.size() == 1 ? " mistake" : " mistakes"));
    text += page.take();
  }
  return text;
}

std::string json_of(std::span<const FileChecked> files) {
  Json all = Json::array();
  for (const FileChecked& checked : files) {
    Json mistakes = Json::array();
    for (const Mistake& mistake : checked.mistakes) mistakes.push_back(mistake_json(mistake));
    Json one = {{"file", checked.file}};
    if (checked.mistakes.empty()) one["contents"] = checked.contents;
    one["mistakes"] = std::move(mistakes);
    all.push_back(std::move(one));
  }
  return dumped({{"format", "whichwire.mistakes.v1"}, {"files", std::move(all)}});
}

}  // namespace whichwire
