#include "render/document.hpp"

#include "render/page.hpp"

namespace whichwire::render {

namespace {

/// What a user wrote must not become markup: every sign that Markdown may take for one is escaped (CommonMark 2.4).
std::string escaped(std::string_view text) {
  std::string safe;
  for (char letter : printable(text)) {
    if (std::string_view("\\`*_{}[]<>#|~&!").find(letter) != std::string_view::npos) safe += '\\';
    safe += letter;
  }
  // At the beginning of a line these make lists and rules.
  if (!safe.empty() && std::string_view("-+=").find(safe.front()) != std::string_view::npos) safe.insert(0, "\\");
  return safe;
}

}  // namespace

void Document::labelled(std::string label, std::string text) {
  if (!text.empty()) add(Block::Kind::labelled, std::move(label), std::move(text));
}

void Document::labelled(const std::string& label, const std::vector<std::string>& texts) {
  std::string all;
  for (const std::string& text : texts) all += (all.empty() ? "" : "; ") + text;
  labelled(label, all);
}

std::string Document::as(ReportAs form, const Look& look) const {
  return form == ReportAs::markdown ? markdown() : text(look);
}

std::string Document::text(const Look& look) const {
  Page page(look);
  for (const Block& block : blocks_) {
    switch (block.kind) {
      case Block::Kind::title:
      case Block::Kind::heading:
        page.heading(block.text);
        break;
      case Block::Kind::paragraph:
        page.text(2, block.text);
        break;
      case Block::Kind::item:
        page.text(2, "- ", block.text);
        break;
      case Block::Kind::labelled:
        page.list(2, block.label, {block.text});
        break;
      case Block::Kind::caution:
        page.text(2, "! ", block.text);
        break;
    }
  }
  return page.take();
}

std::string Document::markdown() const {
  std::string out;
  bool in_list = false;
  for (const Block& block : blocks_) {
    const bool item = block.kind == Block::Kind::item || block.kind == Block::Kind::labelled;
    if (!out.empty() && !(item && in_list)) out += "\n";
    in_list = item;
    switch (block.kind) {
      case Block::Kind::title:
        out += "# " + escaped(block.text);
        break;
      case Block::Kind::heading:
        out += "## " + escaped(block.text);
        break;
      case Block::Kind::paragraph:
        out += escaped(block.text);
        break;
      case Block::Kind::item:
        out += "- " + escaped(block.text);
        break;
      case Block::Kind::labelled:
        out += "- **" + escaped(block.label) + ":** " + escaped(block.text);
        break;
      case Block::Kind::caution:
        out += "> **Caution:** " + escaped(block.text);
        break;
    }
    out += "\n";
  }
  return out;
}

}  // namespace whichwire::render
