// A whole HTML file: nothing in it is asked for from elsewhere, and its policy allows no other style and script than
// its own, by their digests (Content Security Policy Level 3). Tests: tests/page.
#include "draw/percent.hpp"
#include "render/html.hpp"
#include "render/markup.hpp"
#include "render/svg.hpp"

namespace whichwire {

namespace data {
extern const std::string_view page_css, page_js, page_css_digest, page_js_digest, picture_css_digest;
}

namespace render {

namespace {

std::string title_of(const Document& document) {
  for (const Document::Block& block : document.blocks())
    if (block.kind == Document::Kind::title) return block.text;
  return "";
}

std::string quoted_digest(std::string_view digest) { return " 'sha256-" + std::string(digest) + "'"; }

std::string policy() {
  return "default-src 'none'; style-src" + quoted_digest(data::picture_css_digest) +
         quoted_digest(data::page_css_digest) + "; script-src" + quoted_digest(data::page_js_digest) +
         "; base-uri 'none'; form-action 'none'";
}

}  // namespace

std::string tag(std::string_view element, std::string_view name) {
  std::string text = "<" + std::string(element);
  if (!name.empty()) text.append(" class=\"").append(name).append("\"");
  return text + ">";
}

std::string prose(std::string_view text) { return escaped_markup(draw::unbroken(text)); }

std::string tagged(std::string_view element, std::string_view text, std::string_view name) {
  return tag(element, name) + prose(text) + "</" + std::string(element) + ">";
}

std::string bar(double share) {
  return "<svg class=\"bar\" viewBox=\"0 0 100 4\" preserveAspectRatio=\"none\" aria-hidden=\"true\">"
         "<rect class=\"bar-all\" width=\"100\" height=\"4\"/><rect class=\"bar-full\" width=\"" +
         coordinate(share * 100) + "\" height=\"4\"/></svg>";
}

std::string html_of(const Document& document) {
  std::string file =
      "<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n"
      "<meta http-equiv=\"Content-Security-Policy\" content=\"" +
      policy() +
      "\">\n"
      "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n"
      "<meta name=\"color-scheme\" content=\"light dark\">\n"
      "<meta name=\"referrer\" content=\"no-referrer\">\n";
  file += tagged("title", title_of(document)) + "\n";
  file.append("<style>").append(picture_style()).append("</style>\n<style>").append(data::page_css);
  file.append("</style>\n</head>\n<body>\n").append(html_body(document));
  file.append("<script>").append(data::page_js).append("</script>\n</body>\n</html>\n");
  return file;
}

}  // namespace render

}  // namespace whichwire
