// A report as headings, paragraphs, lists, tables and steps, which can be written as a page of text, as Markdown or as
// the inside of an HTML page. What is said is put together once; each form only gives it its look.
// Tests: tests/cli/case.cpp, tests/render/findings_text.cpp, tests/page.
#pragma once

#include <string>
#include <utility>
#include <vector>
#include <whichwire/render.hpp>

namespace whichwire::render {

/// One cell of a table row; in a page of text the cells make one line, with what stands around each that is not empty.
struct Cell {
  std::string heading, text, before = "", after = "";
  Part part = {};  ///< what it names, where that has a place in the picture
};

class Document {
 public:
  /// What the items under a leading line speak for.
  enum class Mark : std::uint8_t { plain, speaks_for, speaks_against };

  struct Block {
    enum class Kind : std::uint8_t {
      title,
      about,
      heading,
      paragraph,
      claim,
      lead,
      item,
      more,
      share,
      labelled,
      caution,
      quote,
      step,
      fact,
      outcome,
      row,
      remark
    };
    Kind kind = Kind::paragraph;
    std::string label, text;
    std::vector<std::string> texts = {};
    std::vector<Cell> cells = {};
    Mark mark = Mark::plain;
    bool foremost = false;
    double probability = 0;
    Part part = {};
  };
  using Kind = Block::Kind;

  void title(std::string text) { add({Kind::title, "", std::move(text)}); }
  /// `label: text` below the title.
  void about(std::string label, std::string text) { add({Kind::about, std::move(label), std::move(text)}); }
  /// `foremost`: the section stands first where the page has no end to be read from.
  void heading(std::string text, bool foremost = false);
  void paragraph(std::string text) { add({Kind::paragraph, "", std::move(text)}); }
  /// A paragraph that says how sure it is; the text says it in words too.
  void claim(std::string text, double probability);
  /// A line that the items after it belong to.
  void lead(std::string text) { add({Kind::lead, "", std::move(text)}); }
  void item(std::string text, Mark mark = Mark::plain);
  /// The items that there is no room for in a text, which says only how many and `hint`.
  void more(std::vector<std::string> texts, std::string hint);
  /// `12 %  text`.
  void share(double probability, std::string text);
  /// `label: text`; nothing where the text is empty.
  void labelled(std::string label, std::string text);
  /// `label:` and the texts, nothing where there are none.
  void labelled(std::string label, std::vector<std::string> texts);
  void caution(std::string text) { add({Kind::caution, "", std::move(text)}); }
  /// A line of another's text, and what was understood of it where that is not empty.
  void quote(std::string label, std::string line, std::string understood = "");
  /// One thing to do, numbered on; facts, cautions and outcomes after it belong to it.
  void step(std::string text) { add({Kind::step, "", std::move(text)}); }
  void fact(std::string label, std::string text, const Part& part = {});
  void outcome(std::string label, std::string text) { add({Kind::outcome, std::move(label), std::move(text)}); }
  /// Rows that follow one another have the same headings.
  void row(std::vector<Cell> cells);
  /// At the margin of a page of text, after an empty line.
  void remark(std::string text) { add({Kind::remark, "", std::move(text)}); }
  /// In a page of HTML only; `drawn` outlives the document.
  void picture(const Drawn& drawn) { drawn_ = &drawn; }

  const std::vector<Block>& blocks() const { return blocks_; }
  /// Null where there is none.
  const Drawn* drawn() const { return drawn_; }

  std::string as(ReportAs form, const Look& look) const;

 private:
  void add(Block block) { blocks_.push_back(std::move(block)); }

  std::vector<Block> blocks_;
  const Drawn* drawn_ = nullptr;
};

/// The cells as one line.
std::string line_of(const std::vector<Cell>& cells);
/// `a; b; c`.
std::string line_of(const std::vector<std::string>& texts);

std::string text_of(const Document& document, const Look& look);
std::string markdown_of(const Document& document);
/// A whole HTML file.
std::string html_of(const Document& document);

}  // namespace whichwire::render
