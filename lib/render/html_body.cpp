// Writes a document's blocks as HTML: sections that fold by themselves, lists, tables, steps with their cautions, and
// the picture that the places of steps lead to. All of it reads without script. Tests: tests/page.
#include <algorithm>
#include <array>

#include "render/html.hpp"
#include "render/markup.hpp"
#include "render/svg.hpp"
#include "render/terms.hpp"

namespace whichwire::render {

namespace {

using Block = Document::Block;
using Kind = Document::Kind;
using Mark = Document::Mark;

/// Blocks that stand in one element together.
enum class Group : std::uint8_t {
  none,
  items,
  items_for,
  items_against,
  shares,
  labels,
  cautions,
  quotes,
  outcomes,
  table
};

Group group_of(const Block& block) {
  switch (block.kind) {
    case Kind::item:
    case Kind::more:
      return block.mark == Mark::plain ? Group::items
                                       : (block.mark == Mark::speaks_for ? Group::items_for : Group::items_against);
    case Kind::share:
      return Group::shares;
    case Kind::labelled:
    case Kind::fact:
      return Group::labels;
    case Kind::caution:
      return Group::cautions;
    case Kind::quote:
      return Group::quotes;
    case Kind::outcome:
      return Group::outcomes;
    case Kind::row:
      return Group::table;
    default:
      return Group::none;
  }
}

struct Around {
  std::string_view begin, end;
};

Around around(Group group) {
  constexpr std::array<Around, 10> all = {{{"", ""},
                                           {"<ul>\n", "</ul>\n"},
                                           {"<ul class=\"for\">\n", "</ul>\n"},
                                           {"<ul class=\"against\">\n", "</ul>\n"},
                                           {"<ul class=\"shares\">\n", "</ul>\n"},
                                           {"<dl class=\"labels\">\n", "</dl>\n"},
                                           {"<div class=\"cautions\"><b>Caution</b>\n<ul>\n", "</ul></div>\n"},
                                           {"<ul class=\"quotes\">\n", "</ul>\n"},
                                           {"<dl class=\"outcomes\">\n", "</dl>\n"},
                                           {"", "</tbody></table>\n"}}};
  return all.at(static_cast<std::size_t>(group));
}

/// What a section or the page before the first one holds.
struct Written {
  std::string heading, html;
  bool foremost = false;
};

std::string all_text(const Block& block) {
  std::string text = block.label + " " + block.text;
  for (const std::string& one : block.texts) text += " " + one;
  return text;
}

std::string words_explained(const std::string& heading, const std::string& text) {
  const std::vector<Term> terms = terms_in(text);
  if (terms.empty()) return "";
  std::string html = "<details class=\"words\">" + tagged("summary", heading) + "\n<dl>\n";
  for (const Term& term : terms) html += tagged("dt", term.words.front()) + tagged("dd", term.explains) + "\n";
  return html + "</dl></details>\n";
}

class BodyWriter {
 public:
  explicit BodyWriter(const Document& document) : document_(document) {}

  std::string write() {
    const std::vector<Block>& blocks = document_.blocks();
    for (std::size_t i = 0; i < blocks.size(); ++i) put(blocks[i], i);
    begin(Group::none, blocks.size());
    end_steps();
    std::string text;
    for (const Block& block : blocks) text += all_text(block) + " . ";
    return "<header>\n" + sections_.front().html + "</header>\n<main>\n" + sections(true) + figure() +
           "<div class=\"rest\">\n<p class=\"tools\"><button type=\"button\" id=\"fold\" hidden>Fold "
           "all</button></p>\n" +
           sections(false) + words_explained("All words explained", text) + "</div>\n</main>\n";
  }

 private:
  void put(const Block& block, std::size_t at) {
    const Group group = group_of(block);
    const bool new_table = group == Group::table && (group_ != group || headings_of(block) != headings_);
    if (group != group_ || new_table) begin(group, at);
    if (block.kind == Kind::step) end_step();
    if (block.kind == Kind::heading || block.kind == Kind::remark) end_steps();
    if (in_step_ || block.kind == Kind::step) step_text_ += all_text(block) + " . ";
    html() += html_of_block(block);
    label_ = block.label;
  }

  void begin(Group group, std::size_t at) {
    html() += around(group_).end;
    group_ = group;
    label_.clear();
    html() += around(group_).begin;
    if (group == Group::table) begin_table(at);
  }

  static std::vector<std::string> headings_of(const Block& block) {
    std::vector<std::string> all;
    for (const Cell& cell : block.cells) all.push_back(cell.heading);
    return all;
  }

  /// The head of a table: the columns that are not empty in all of its rows.
  void begin_table(std::size_t at) {
    headings_ = headings_of(document_.blocks()[at]);
    shown_.assign(headings_.size(), false);
    for (; at < document_.blocks().size(); ++at) {
      const Block& row = document_.blocks()[at];
      if (row.kind != Kind::row || headings_of(row) != headings_) break;
      for (std::size_t i = 0; i < row.cells.size(); ++i) shown_[i] = shown_[i] || !row.cells[i].text.empty();
    }
    constexpr std::ptrdiff_t few = 3;
    html() += std::ranges::count(shown_, true) > few ? "<table class=\"many\">\n<thead><tr>" : "<table>\n<thead><tr>";
    for (std::size_t i = 0; i < headings_.size(); ++i)
      if (shown_[i]) html() += "<th scope=\"col\">" + escaped_markup(headings_[i]) + "</th>";
    html() += "</tr></thead>\n<tbody>\n";
  }

  std::string row_of(const Block& block) const {
    std::string row = "<tr>";
    for (std::size_t i = 0; i < block.cells.size(); ++i) {
      const Cell& cell = block.cells[i];
      if (shown_[i])
        row += "<td data-heading=\"" + escaped_markup(cell.heading) + "\">" + linked(cell.text, cell.part) + "</td>";
    }
    return row + "</tr>\n";
  }

  /// The text; where the part has a place in the picture, as a link to it.
  std::string linked(const std::string& text, const Part& part) const {
    const std::string place = document_.drawn() == nullptr ? "" : link_to(*document_.drawn(), part);
    return place.empty() ? prose(text) : "<a href=\"#" + place + "\">" + prose(text) + "</a>";
  }

  std::string html_of_block(const Block& block) {
    switch (block.kind) {
      case Kind::title:
        return tagged("h1", block.text) + "\n";
      case Kind::about:
        return "<p>" + tagged("b", block.label + ":") + " " + prose(block.text) + "</p>\n";
      case Kind::heading:
        sections_.push_back({block.text, "", block.foremost});
        return "";
      case Kind::claim:
        return tagged("p", block.text, "claim") + "\n" + bar(block.probability) + "\n";
      case Kind::lead:
        return tagged("p", block.text, "lead") + "\n";
      case Kind::paragraph:
      case Kind::remark:
        return tagged("p", block.text) + "\n";
      case Kind::item:
      case Kind::caution:
        return tagged("li", block.text) + "\n";
      case Kind::more:
        return more_of(block);
      case Kind::share:
        return "<li>" + tagged("b", block.label) + bar(block.probability) + tagged("span", block.text) + "</li>\n";
      case Kind::labelled:
      case Kind::fact:
      case Kind::outcome:
        return pair_of(block);
      case Kind::quote:
        return "<li>" + tagged("b", block.label + ":") + " " + tagged("q", block.text) +
               (block.texts.empty() ? "" : tagged("span", "= " + block.texts.front())) + "</li>\n";
      case Kind::step:
        return begin_step(block);
      case Kind::row:
        return row_of(block);
    }
    return "";
  }

  static std::string more_of(const Block& block) {
    std::string all = "<li><details class=\"more\">" + tagged("summary", block.text) + "<ul>\n";
    for (const std::string& text : block.texts) all += tagged("li", text) + "\n";
    return all + "</ul></details></li>\n";
  }

  std::string pair_of(const Block& block) const {
    std::string pair = block.label == label_ ? "" : tagged("dt", block.label);
    if (block.texts.empty()) pair += "<dd>" + linked(block.text, block.part) + "</dd>";
    for (const std::string& text : block.texts) pair += tagged("dd", text);
    return pair + "\n";
  }

  std::string begin_step(const Block& block) {
    const bool first = !in_steps_;
    in_steps_ = in_step_ = true;
    return (first ? "<ol class=\"steps\">\n<li>" : "<li>") + tagged("h3", block.text) + "\n";
  }

  void end_step() {
    if (in_step_) html() += words_explained("Words explained", step_text_) + "</li>\n";
    in_step_ = false;
    step_text_.clear();
  }

  void end_steps() {
    end_step();
    if (in_steps_) html() += "</ol>\n";
    in_steps_ = false;
  }

  std::string sections(bool foremost) const {
    std::string all;
    for (auto section = sections_.begin() + 1; section != sections_.end(); ++section) {
      if (section->foremost != foremost) continue;
      const std::string heading = tagged("h2", section->heading);
      all += foremost
                 ? "<section class=\"result\">" + heading + "\n" + section->html + "</section>\n"
                 : "<details class=\"part\" open><summary>" + heading + "</summary>\n" + section->html + "</details>\n";
    }
    return all;
  }

  static std::string sheet(const Drawn& drawn) {
    return "<section class=\"sheet\" aria-label=\"Picture of the network\" tabindex=\"0\">\n" +
           svg_element(drawn, SvgFor::page) + "</section>";
  }

  std::string figure() const {
    if (document_.drawn() == nullptr) return "";
    const Drawn& drawn = *document_.drawn();
    if (drawn.brief == nullptr) return "<figure class=\"snug\">" + svg_patterns() + sheet(drawn) + "</figure>\n";
    const Drawn brief{drawn.network, drawn.marks, *drawn.brief};
    return "<figure class=\"wide\">" + svg_patterns() + "<section class=\"brief\">\n" +
           svg_element(brief, SvgFor::beside) + "</section>\n" + sheet(drawn) + "</figure>\n";
  }

  std::string& html() { return sections_.back().html; }

  const Document& document_;
  std::vector<Written> sections_ = {{}};
  Group group_ = Group::none;
  std::string label_;  ///< of the block before in the group
  std::vector<std::string> headings_;
  std::vector<bool> shown_;
  bool in_step_ = false, in_steps_ = false;
  std::string step_text_;
};

}  // namespace

std::string html_body(const Document& document) { return BodyWriter(document).write(); }

}  // namespace whichwire::render
