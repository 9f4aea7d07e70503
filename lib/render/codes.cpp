// What trouble codes say, as a page and as `whichwire.codes.v1`. Tests: tests/render/codes.cpp, tests/cli/codes.cpp.
#include "render/json.hpp"
#include "render/page.hpp"

namespace whichwire {

namespace {

using namespace render;

/// What a code of this kind speaks for, in a sentence; the heart of reading network codes.
std::string_view lesson_of(CodeKind kind) {
  switch (kind) {
    case CodeKind::lost_communication:
      return "Look at the module that is named and at the way from it, not at the module that stores the code.";
    case CodeKind::invalid_data:
      return "The named module is alive and its messages arrive; their content is what is wrong.";
    case CodeKind::software_incompatible:
      return "The named module answers; its programming does not fit.";
    case CodeKind::bus_fault:
      return "The bus itself is in doubt where the module that stores the code sits.";
    case CodeKind::bus_off:
      return "Look first at the module that stores the code, its stub and its segment.";
    case CodeKind::self:
      return "The code is about the module that stores it.";
    case CodeKind::other:
      return "The code does not speak of the network.";
  }
  return "";
}

void say_code(Page& page, const CodeAsked& asked) {
  page.heading(asked.code ? text_of(*asked.code) : asked.written);
  if (!asked.code) {
    page.text(2, "Not a code in a form known here (U0100, U0100-87, SPN 2000 FMI 9).");
    return;
  }
  const CodeMeaning meaning = meaning_of(*asked.code);
  if (!meaning.title.empty()) page.text(2, meaning.title);
  page.text(2, meaning.explanation);
  page.text(2, lesson_of(meaning.kind));
  if (meaning.about_configuration) page.text(2, "The failure type points at configuration or programming.");
  if (!meaning.subject.empty()) {
    page.text(2, "About: ", meaning.subject + (meaning.qualifier.empty() ? "" : ", " + meaning.qualifier));
  }
  page.text(2, "Kind: ", word_for(meaning.kind));
  if (!meaning.standard.empty()) page.text(2, "Source: ", meaning.standard);
}

Json code_json(const CodeAsked& asked) {
  Json json = {{"written", asked.written}};
  if (!asked.code) return json;
  const CodeMeaning meaning = meaning_of(*asked.code);
  json["code"] = text_of(*asked.code);
  json["kind"] = word_for(meaning.kind);
  if (!meaning.subject.empty()) json["about"] = meaning.subject;
  if (!meaning.qualifier.empty()) json["qualifier"] = meaning.qualifier;
  json["title"] = meaning.title;
  json["explanation"] = meaning.explanation;
  json["standard"] = meaning.standard;
  json["about_configuration"] = meaning.about_configuration;
  return json;
}

}  // namespace

std::string text_of(std::span<const CodeAsked> codes, const Look& look) {
  Page page(look);
  for (const CodeAsked& asked : codes) say_code(page, asked);
  return page.take();
}

std::string json_of(std::span<const CodeAsked> codes) {
  Json all = Json::array();
  for (const CodeAsked& asked : codes) all.push_back(code_json(asked));
  return dumped({{"format", "whichwire.codes.v1"}, {"codes", std::move(all)}});
}

}  // namespace whichwire
