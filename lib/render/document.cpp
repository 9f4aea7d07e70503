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

/// Writes blocks as a page of text: items stand further in under a line that leads them, all of a step under its words.
class TextWriter {
 public:
  explicit TextWriter(const Look& look) : page_(look) {}

  void write(const Document::Block& block) {
    using enum Document::Block::Kind;
    switch (block.kind) {
      case title:
        page_.heading(block.text);
        break;
      case about:
        page_.text(0, block.label + ": ", block.text);
        break;
      case heading:
        page_.heading(block.text);
        inside_ = usual;
        steps_ = 0;
        break;
      case paragraph:
      case claim:
      case lead:
        page_.text(inside_, block.text);
        break;
      case item:
      case more:
      case row:
        page_.text(led_ ? inside_ + 2 : inside_, block.mark == Document::Mark::speaks_for ? "+ " : "- ",
                   block.text + block.label);
        break;
      case share:
        page_.text(led_ ? inside_ + 2 : inside_, block.label + "  ", block.text);
        break;
      case labelled:
        page_.list(inside_, block.label, {block.text});
        break;
      case caution:
        page_.text(inside_, "! ", block.text);
        break;
      case quote:
        page_.quote(usual + 2, block.label + ": ", block.text);
        if (!block.texts.empty()) page_.text(usual + 4, "= ", block.texts.front());
        break;
      case step:
        begin_step(block);
        break;
      case fact:
        page_.text(inside_, block.label + ": ", block.text);
        break;
      case outcome:
        page_.text(inside_, "= ", block.label + ": " + block.text);
        break;
      case remark:
        page_.blank();
        page_.text(0, block.text);
        break;
    }
    led_ = block.kind == lead || (led_ && is_led(block.kind));
    after_heading_ = block.kind == heading;
  }

  std::string take() { return page_.take(); }

 private:
  static constexpr std::size_t usual = 2;

  /// Whether a line that leads goes on leading after it.
  static bool is_led(Document::Kind kind) {
    using enum Document::Block::Kind;
    return kind == item || kind == more || kind == row || kind == share;
  }

  void begin_step(const Document::Block& block) {
    if (!after_heading_) page_.blank();
    const std::string mark = std::to_string(++steps_) + ". ";
    page_.text(usual, mark, block.text);
    inside_ = usual + mark.size();
  }

  Page page_;
  std::size_t inside_ = usual, steps_ = 0;
  bool led_ = false, after_heading_ = false;
};

std::string bold(const std::string& label) { return "**" + escaped(label) + ":** "; }

/// Writes blocks as Markdown; what belongs to a step stands under it.
class MarkdownWriter {
 public:
  void write(const Document::Block& block) {
    using enum Document::Block::Kind;
    const bool in_list = is_listed(block.kind);
    if (!out_.empty() && !(in_list && was_listed_)) out_ += "\n";
    was_listed_ = in_list;
    if (block.kind == heading) in_step_ = false;
    if (in_step_ && block.kind != step) out_ += "   ";
    out_ += line(block) + "\n";
  }

  std::string take() { return std::move(out_); }

 private:
  static bool is_listed(Document::Kind kind) {
    using enum Document::Block::Kind;
    return kind == item || kind == more || kind == labelled || kind == row || kind == share || kind == quote ||
           kind == step || kind == fact || kind == outcome;
  }

  std::string line(const Document::Block& block) {
    using enum Document::Block::Kind;
    switch (block.kind) {
      case title:
        return "# " + escaped(block.text);
      case about:
        return bold(block.label) + escaped(block.text);
      case heading:
        return "## " + escaped(block.text);
      case item:
      case more:
      case row:
        return "- " + escaped(block.text + block.label);
      case labelled:
      case fact:
      case outcome:
      case share:
      case quote:
        return "- " + bold(block.label) + escaped(block.text) +
               (block.kind == quote && !block.texts.empty() ? " = " + escaped(block.texts.front()) : "");
      case caution:
        return "> **Caution:** " + escaped(block.text);
      case step:
        in_step_ = true;
        return "1. " + escaped(block.text);
      default:
        return escaped(block.text);
    }
  }

  std::string out_;
  bool was_listed_ = false, in_step_ = false;
};

}  // namespace

void Document::heading(std::string text, bool foremost) {
  Block block{Kind::heading, "", std::move(text)};
  block.foremost = foremost;
  add(std::move(block));
}

void Document::claim(std::string text, double probability) {
  Block block{Kind::claim, "", std::move(text)};
  block.probability = probability;
  add(std::move(block));
}

void Document::item(std::string text, Mark mark) {
  Block block{Kind::item, "", std::move(text)};
  block.mark = mark;
  add(std::move(block));
}

void Document::share(double probability, std::string text) {
  Block block{Kind::share, percent(probability), std::move(text)};
  block.probability = probability;
  add(std::move(block));
}

void Document::more(std::vector<std::string> texts, std::string hint) {
  std::string text = "and " + std::to_string(texts.size()) + " more";
  add({Kind::more, std::move(hint), std::move(text), std::move(texts)});
}

void Document::labelled(std::string label, std::string text) {
  if (!text.empty()) add({Kind::labelled, std::move(label), std::move(text)});
}

void Document::labelled(std::string label, std::vector<std::string> texts) {
  if (!texts.empty()) add({Kind::labelled, std::move(label), line_of(texts), std::move(texts)});
}

void Document::quote(std::string label, std::string line, std::string understood) {
  Block block{Kind::quote, std::move(label), std::move(line)};
  if (!understood.empty()) block.texts = {std::move(understood)};
  add(std::move(block));
}

void Document::fact(std::string label, std::string text, const Part& part) {
  Block block{Kind::fact, std::move(label), std::move(text)};
  block.part = part;
  add(std::move(block));
}

void Document::row(std::vector<Cell> cells) {
  Block block{Kind::row, "", line_of(cells)};
  block.cells = std::move(cells);
  add(std::move(block));
}

std::string Document::as(ReportAs form, const Look& look) const {
  switch (form) {
    case ReportAs::text:
      return text_of(*this, look);
    case ReportAs::markdown:
      return markdown_of(*this);
    case ReportAs::html:
      return html_of(*this);
  }
  return "";
}

std::string line_of(const std::vector<Cell>& cells) {
  std::string line;
  for (const Cell& cell : cells)
    if (!cell.text.empty()) line += (line.empty() ? "" : cell.before) + cell.text + cell.after;
  return line;
}

std::string line_of(const std::vector<std::string>& texts) {
  std::string line;
  for (const std::string& text : texts) line += (line.empty() ? "" : "; ") + text;
  return line;
}

std::string text_of(const Document& document, const Look& look) {
  TextWriter writer(look);
  for (const Document::Block& block : document.blocks()) writer.write(block);
  return writer.take();
}

std::string markdown_of(const Document& document) {
  MarkdownWriter writer;
  for (const Document::Block& block : document.blocks()) writer.write(block);
  return writer.take();
}

}  // namespace whichwire::render
