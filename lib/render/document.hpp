// A report as headings, paragraphs and items, which can be written as a page of text or as Markdown.
// Tests: tests/cli/case.cpp.
#pragma once

#include <string>
#include <vector>
#include <whichwire/render.hpp>

namespace whichwire::render {

class Document {
 public:
  void title(std::string text) { add(Block::Kind::title, "", std::move(text)); }
  void heading(std::string text) { add(Block::Kind::heading, "", std::move(text)); }
  void paragraph(std::string text) { add(Block::Kind::paragraph, "", std::move(text)); }
  void item(std::string text) { add(Block::Kind::item, "", std::move(text)); }
  /// `label: text`; nothing where the text is empty.
  void labelled(std::string label, std::string text);
  /// `label:` and the texts, nothing where there are none.
  void labelled(const std::string& label, const std::vector<std::string>& texts);
  void caution(std::string text) { add(Block::Kind::caution, "", std::move(text)); }

  std::string as(ReportAs form, const Look& look) const;

 private:
  struct Block {
    enum class Kind : std::uint8_t { title, heading, paragraph, item, labelled, caution };
    Kind kind = Kind::paragraph;
    std::string label, text;
  };
  void add(Block::Kind kind, std::string label, std::string text) {
    blocks_.push_back({kind, std::move(label), std::move(text)});
  }
  std::string text(const Look& look) const;
  std::string markdown() const;

  std::vector<Block> blocks_;
};

}  // namespace whichwire::render
