#include "scan/columns.hpp"

#include <algorithm>

#include "scan/hex.hpp"

namespace whichwire {

namespace {

using Kind = LineElement::Kind;

bool names_a_column(const LineElement& element) {
  if (!element.is(Kind::sense)) return false;
  switch (element.sense) {
    case Sense::heading:
    case Sense::codes:
    case Sense::status_byte:
    case Sense::address:
    case Sense::failure_type:
    case Sense::spn:
    case Sense::fmi:
      return true;
    default:
      return false;
  }
}

Column column_named(const LineElement& element) {
  switch (element.sense) {
    case Sense::yes:
    case Sense::present:
      return Column::answers;
    case Sense::fitted:
      return Column::fitted;
    case Sense::codes:
      return Column::codes;
    case Sense::status_byte:
      return Column::status;
    case Sense::failure_type:
      return Column::failure_type;
    case Sense::spn:
      return Column::spn;
    case Sense::fmi:
      return Column::fmi;
    case Sense::address:
      return Column::address;
    case Sense::battery:
    case Sense::volts_at:
      return Column::volts;
    default:
      return Column::other;
  }
}

class Table {
 public:
  Table(const TextLine& line, const std::vector<Column>& columns, const Network& network,
        std::vector<LineElement>& elements)
      : line_(line), columns_(columns), network_(network), e_(elements) {}

  void apply() {
    if (columns_.size() == line_.columns) {
      for (LineElement& element : e_)
        if (alone(element)) give_sense(element, columns_[column(element)]);
      join_number_and_mode();
      join_failure_type();
    }
    lone_yes_or_no();
  }

 private:
  std::size_t column(const LineElement& element) const { return line_.words[element.first].column; }

  bool alone(const LineElement& element) const {
    return std::ranges::count_if(e_, [&](const LineElement& other) { return column(other) == column(element); }) == 1;
  }

  /// Where no heading tells, one lone yes or no is an answer; of two nobody can tell which.
  void lone_yes_or_no() {
    const auto bare = [](const LineElement& e) { return e.says(Sense::bare_yes) || e.says(Sense::bare_no); };
    if (std::ranges::count_if(e_, bare) != 1) return;
    LineElement& element = *std::ranges::find_if(e_, bare);
    const auto at = static_cast<std::size_t>(&element - e_.data());
    const bool module_beside = at > 0 && e_[at - 1].is(Kind::module);
    const bool first = at > 0 && column(e_[at - 1]) != column(element);
    if (first || module_beside) give_sense(element, Column::answers);
  }

  void give_sense(LineElement& element, Column column) {
    const bool yes = element.says(Sense::bare_yes);
    const bool no = element.says(Sense::bare_no);
    const bool figure = element.is(Kind::number) || element.is(Kind::unknown);
    if (column == Column::answers && (yes || no)) element.sense = yes ? Sense::yes : Sense::no;
    if (column == Column::status && (yes || no)) element.sense = yes ? Sense::yes : Sense::no;
    if (column == Column::fitted && (yes || no)) element.sense = yes ? Sense::fitted : Sense::not_fitted;
    if (column == Column::codes && (yes || no)) element.sense = yes ? Sense::yes : Sense::no_codes;
    if (!figure) return;
    const std::string& text = line_.words[element.first].text;
    const auto number = parse_decimal(text);
    const auto byte = text.size() == 2 ? parse_hex(text) : std::nullopt;
    if (column == Column::codes && number && *number < 1000) set(element, Kind::count, *number);
    if (column == Column::status && byte) set(element, Kind::status, *byte);
    if (column == Column::volts && decimal(text).value_or(99) <= 60) set(element, Kind::volts, *decimal(text));
    const auto address = text.starts_with("0x") ? parse_hex(std::string_view(text).substr(2)) : number;
    if (column == Column::address && address && *address < 256) name_by_address(element, static_cast<int>(*address));
  }

  static void set(LineElement& element, Kind kind, double value) {
    element.kind = kind;
    element.value = value;
  }

  void name_by_address(LineElement& element, int address) {
    element.kind = Kind::module;
    element.address = address;
    for (std::size_t i = 0; i < network_.modules.size(); ++i)
      if (network_.modules[i].address == address) element.hits.push_back({i, NameKind::id});
  }

  LineElement* figure_under(Column wanted) {
    for (LineElement& element : e_)
      if ((element.is(Kind::number) || element.is(Kind::unknown)) && alone(element) &&
          columns_[column(element)] == wanted)
        return &element;
    return nullptr;
  }

  void erase(const LineElement* element) { e_.erase(e_.begin() + (element - e_.data())); }

  /// `639` and `9` under SPN and FMI.
  void join_number_and_mode() {
    LineElement* const spn = figure_under(Column::spn);
    if (spn == nullptr) return;
    const LineElement* const fmi = figure_under(Column::fmi);
    std::string text = "SPN " + line_.words[spn->first].text;
    if (fmi != nullptr) text += " FMI " + line_.words[fmi->first].text;
    const auto code = parse_code(text);
    if (!code) return;
    spn->kind = Kind::code;
    spn->code = *code;
    if (fmi != nullptr) erase(fmi);
  }

  void join_failure_type() {
    const LineElement* const type = figure_under(Column::failure_type);
    const auto code = std::ranges::find(e_, Kind::code, &LineElement::kind);
    if (type == nullptr || code == e_.end() || code->code.detail || code->code.letter == 'S') return;
    const std::string& text = line_.words[type->first].text;
    const auto byte = text.size() == 2 ? parse_hex(text) : std::nullopt;
    if (!byte) return;
    code->code.detail = static_cast<std::uint8_t>(*byte);
    erase(type);
  }

  const TextLine& line_;
  const std::vector<Column>& columns_;
  const Network& network_;
  std::vector<LineElement>& e_;
};

}  // namespace

std::vector<Column> columns_of(const TextLine& line, const std::vector<LineElement>& elements) {
  const auto heading = std::ranges::count_if(elements, names_a_column);
  const bool telling =
      std::ranges::any_of(elements, [](const LineElement& e) { return !e.is(Kind::sense) && !e.is(Kind::unknown); });
  const bool plain = std::ranges::all_of(elements, [](const LineElement& e) { return e.is(Kind::sense); });
  const bool titled = line.columns == 2 ? heading == static_cast<std::ptrdiff_t>(elements.size())
                                        : heading > 1 || (heading > 0 && plain);
  if (line.columns < 2 || telling || !titled) return {};
  std::vector<Column> columns(line.columns, Column::other);
  for (const LineElement& element : elements) {
    Column& column = columns[line.words[element.first].column];
    if (element.is(Kind::sense) && column == Column::other) column = column_named(element);
  }
  return columns;
}

void apply_columns(const TextLine& line, const std::vector<Column>& columns, const Network& network,
                   std::vector<LineElement>& elements) {
  Table(line, columns, network, elements).apply();
}

}  // namespace whichwire
