// SPDX-License-Identifier: MIT
#include <algorithm>
#include <charconv>
#include <map>

#include "book/workbook.hpp"
#include "book/xml_walk.hpp"
#include "diagnostic/place.hpp"
#include "quantity/number.hpp"
#include "record/moment.hpp"

namespace driftwarden {
namespace {

constexpr std::size_t most_row_bytes = std::size_t{16} << 20;
constexpr const char* content_part = "content.xml";

std::uint32_t count_in(std::string_view digits) {
  std::uint32_t count = 1;
  std::from_chars(digits.data(), digits.data() + digits.size(), count);
  return std::max(count, 1U);
}

std::uint32_t repeated(const XmlAttributes& attributes, std::string_view name) { return count_in(attributes(name)); }

bool is_hidden_by(const XmlAttributes& attributes) {
  const std::string_view visibility = attributes("visibility");
  return visibility == "collapse" || visibility == "filter";
}

// 0: no unit of a duration as ISO 8601 writes it.
double seconds_in(char unit, bool is_time) {
  if (unit == 'D') return seconds_a_day;
  if (unit == 'H') return 3600;
  if (unit == 'M' && is_time) return 60;
  return unit == 'S' ? 1 : 0;
}

// "PT07H15M00S" -> days.
std::optional<double> days_of(std::string_view duration) {
  const bool is_negative = duration.starts_with('-');
  if (is_negative) duration.remove_prefix(1);
  if (!duration.starts_with('P')) return std::nullopt;
  duration.remove_prefix(1);
  double seconds = 0;
  bool is_time = false;
  while (!duration.empty()) {
    if (duration.front() == 'T') {
      is_time = true;
      duration.remove_prefix(1);
      continue;
    }
    const std::size_t end = duration.find_first_not_of("0123456789.");
    if (end == std::string_view::npos) return std::nullopt;
    const std::optional<double> number = number_from(duration.substr(0, end));
    const double factor = seconds_in(duration[end], is_time);
    if (!number || factor == 0) return std::nullopt;
    seconds += *number * factor;
    duration.remove_prefix(end + 1);
  }
  return (is_negative ? -seconds : seconds) / seconds_a_day;
}

// Which sheets there are, and which of them are hidden by their style.
class OdsSheets : public XmlHandler {
 public:
  void start(std::string_view name, const XmlAttributes& attributes) override {
    if (name == "style") style_ = attributes("name");
    if (name == "table-properties" && attributes("display") == "false") hidden_styles_[style_] = true;
    if (name == "table" && depth_++ == 0) {
      const bool is_hidden = hidden_styles_.contains(std::string(attributes("style-name")));
      sheets.push_back({std::string(attributes("name")), is_hidden, std::to_string(sheets.size())});
    }
  }
  void end(std::string_view name) override {
    if (name == "table") --depth_;
  }
  void text(std::string_view) override {}

  std::vector<Sheet> sheets;

 private:
  std::string style_;
  std::map<std::string, bool> hidden_styles_;
  int depth_ = 0;
};

// What a cell's start tag says of it.
struct CellMarks {
  std::uint32_t repeats = 1;
  std::uint32_t wide = 1;
  std::uint32_t high = 1;
  std::string type;
  std::string value;
  bool is_error = false;
  bool has_formula = false;

  void take(std::string_view name, std::string_view text, std::string_view space) {
    if (name == "number-columns-repeated") repeats = count_in(text);
    if (name == "number-columns-spanned") wide = count_in(text);
    if (name == "number-rows-spanned") high = count_in(text);
    if (name == "formula") has_formula = !text.empty();
    if (name == "value-type" && space.find("calcext") != space.npos) is_error = text == "error";
    if (space.find(":office:") == space.npos) return;
    if (name == "value-type") type = text;
    // A cell has one of them; a text may stand beside a figure, and doesn't count then.
    const bool is_text = name == "string-value";
    const bool is_figure = name == "value" || name == "date-value" || name == "time-value" || name == "boolean-value";
    if (!text.empty() && (is_figure || (is_text && value.empty()))) value = text;
  }
};

// The cells of one sheet (ISO/IEC 26300, part 1, 9 and 19).
class OdsSheet : public XmlHandler {
 public:
  OdsSheet(std::size_t wanted, SheetRows& rows) : wanted_(wanted), rows_(rows) {}

  void start(std::string_view name, const XmlAttributes& attributes) override {
    ++depth_;
    if (name == "table" && table_depth_++ == 0) is_in_ = seen_++ == wanted_;
    if (!is_in_ || table_depth_ > 1) return;
    if (cell_depth_ > 0) return start_in_cell(name, attributes);
    if (name == "table-column") start_column(attributes);
    if (name == "table-row") start_row(attributes);
    if (name == "table-cell" || name == "covered-table-cell") start_cell(attributes);
  }
  void end(std::string_view name) override {
    if (name == "table" && --table_depth_ == 0 && is_in_) is_done_ = true;
    if (is_in_ && table_depth_ == 1) {
      if (depth_ == cell_depth_) finish_cell();
      if (depth_ == text_depth_) text_depth_ = 0;
      if (depth_ == skipped_depth_) skipped_depth_ = 0;
      if (name == "table-row" && cell_depth_ == 0) finish_row();
    }
    --depth_;
  }
  void text(std::string_view text) override {
    if (text_depth_ > 0 && skipped_depth_ == 0) shown_ += text;
  }
  bool is_done() const override { return is_done_ || !fault.empty() || is_too_large; }

  std::string fault;
  bool is_too_large = false;

 private:
  void start_column(const XmlAttributes& attributes) {
    const std::uint32_t count = repeated(attributes, "number-columns-repeated");
    if (is_hidden_by(attributes) && next_declared_ < most_sheet_columns)
      rows_.hidden_columns(next_declared_, std::min(next_declared_ + count, most_sheet_columns) - 1);
    next_declared_ = std::min(next_declared_ + std::min(count, most_sheet_columns), most_sheet_columns);
  }

  void start_row(const XmlAttributes& attributes) {
    row_repeats_ = repeated(attributes, "number-rows-repeated");
    is_hidden_ = is_hidden_by(attributes);
    cells_.clear();
    row_bytes_ = 0;
    column_ = 0;
  }

  void start_cell(const XmlAttributes& attributes) {
    cell_depth_ = depth_;
    marks_ = CellMarks();
    attributes.for_each([this](std::string_view name, std::string_view value, std::string_view space) {
      marks_.take(name, value, space);
    });
    shown_.clear();
    paragraphs_ = 0;
    if (marks_.wide > 1 || marks_.high > 1)
      rows_.merged(cell_name(column_ + 1, row_ + 1) + ":" + cell_name(column_ + marks_.wide, row_ + marks_.high));
  }

  // Of what is in a cell, its paragraphs are its text; comments and drawings are not.
  void start_in_cell(std::string_view name, const XmlAttributes& attributes) {
    if (name == "p" && depth_ == cell_depth_ + 1) {
      text_depth_ = depth_;
      if (paragraphs_++ > 0) shown_ += '\n';
    }
    if (text_depth_ == 0 || skipped_depth_ > 0) return;
    if (name == "annotation" || name == "note" || name == "frame") skipped_depth_ = depth_;
    if (name == "s") shown_.append(std::min(repeated(attributes, "c"), most_sheet_columns), ' ');
    if (name == "tab") shown_ += '\t';
    if (name == "line-break") shown_ += '\n';
  }

  void finish_cell() {
    cell_depth_ = text_depth_ = skipped_depth_ = 0;
    SheetCell cell;
    fill(cell);
    const bool is_nothing = cell.kind == SheetCell::Kind::text && cell.text.empty();
    if (is_nothing) {
      column_ = std::min(column_ + std::min(marks_.repeats, most_sheet_columns), most_sheet_columns);
      return;
    }
    row_bytes_ += marks_.repeats * (cell.text.size() + sizeof cell);
    is_too_large = column_ + std::uint64_t{marks_.repeats} > most_sheet_columns || row_bytes_ > most_row_bytes;
    for (std::uint32_t i = 0; i < marks_.repeats && !is_too_large; ++i) {
      cell.column = column_++;
      cells_.push_back(cell);
    }
  }

  void fill(SheetCell& cell) {
    using Kind = SheetCell::Kind;
    if (marks_.is_error || (marks_.has_formula && (shown_.starts_with('#') || shown_.starts_with("Err:")))) {
      cell.kind = Kind::error;
      cell.text = shown_;
    } else if (marks_.has_formula && marks_.type.empty() && shown_.empty()) {
      cell.kind = Kind::not_worked_out;
    } else if (marks_.type == "boolean") {
      cell.kind = Kind::boolean;
      cell.number = marks_.value == "true" ? 1 : 0;
    } else if (marks_.type == "date") {
      cell.kind = Kind::moment;
      cell.text = marks_.value;
    } else if (marks_.type == "float" || marks_.type == "percentage" || marks_.type == "currency") {
      fill_number(cell, number_from(marks_.value));
    } else if (marks_.type == "time" && days_of(marks_.value)) {
      cell.kind = Kind::duration;
      cell.number = *days_of(marks_.value);
    } else {
      cell.text = !shown_.empty() || marks_.type != "string" ? shown_ : marks_.value;
    }
  }

  void fill_number(SheetCell& cell, std::optional<double> number) {
    cell.text = number ? "" : marks_.value;
    if (!number) return;
    cell.kind = SheetCell::Kind::number;
    cell.number = *number;
    if (marks_.type == "percentage") cell.look.kind = NumberLook::Kind::percent;
    const bool is_noughts_first = shown_.size() > 1 && shown_.size() < 16 && shown_.front() == '0' &&
                                  shown_.find_first_not_of("0123456789") == std::string::npos;
    if (is_noughts_first) cell.look.digits = static_cast<int>(shown_.size());
  }

  void finish_row() {
    if (cells_.empty()) {
      row_ += std::min(row_repeats_, most_sheet_rows - std::min(row_, most_sheet_rows));
      return;
    }
    for (std::uint32_t i = 0; i < row_repeats_ && !is_done(); ++i) {
      is_too_large = ++row_ > most_sheet_rows;
      if (!is_too_large) is_done_ = !rows_.row(row_, cells_, is_hidden_);
    }
  }

  const std::size_t wanted_;
  SheetRows& rows_;
  std::size_t seen_ = 0;
  bool is_in_ = false;
  bool is_done_ = false;
  int depth_ = 0;
  int table_depth_ = 0;
  int cell_depth_ = 0;  // of the cell that is open, of its paragraph, of what is passed over in that; 0: none
  int text_depth_ = 0;
  int skipped_depth_ = 0;
  std::vector<SheetCell> cells_;
  std::size_t row_bytes_ = 0;
  std::uint32_t row_ = 0;
  std::uint32_t column_ = 0;
  std::uint32_t next_declared_ = 0;
  std::uint32_t row_repeats_ = 1;
  bool is_hidden_ = false;
  CellMarks marks_;  // of the cell that is open
  std::string shown_;
  int paragraphs_ = 0;
};

// Whether the parts of the file are locked (ISO/IEC 26300, part 3, 4.8.5).
class Locks : public XmlHandler {
 public:
  void start(std::string_view name, const XmlAttributes&) override { is_locked |= name == "encryption-data"; }
  void end(std::string_view) override {}
  void text(std::string_view) override {}

  bool is_locked = false;
};

class OdsWorkbook : public Workbook {
 public:
  OdsWorkbook(ZippedFile file, std::vector<Sheet> sheets) : file_(std::move(file)), sheets_(std::move(sheets)) {}

  const std::vector<Sheet>& sheets() const override { return sheets_; }
  std::optional<Diagnostic> read(const Sheet& sheet, SheetRows& rows) const override {
    OdsSheet part(static_cast<std::size_t>(number_from(sheet.part).value_or(0)), rows);
    std::optional<Diagnostic> fault = walk(file_, content_part, part);
    if (!fault && part.is_too_large)
      return too_large_workbook(file_.name(), "more rows or columns than a sheet can have");
    if (!fault && !part.fault.empty()) return unreadable_workbook(file_.name(), part.fault);
    return fault;
  }

 private:
  ZippedFile file_;
  std::vector<Sheet> sheets_;
};

}  // namespace

Result<std::unique_ptr<Workbook>> open_ods(ZippedFile file) {
  Locks locks;
  const std::string manifest = "META-INF/manifest.xml";
  if (file.has(manifest)) {
    if (auto fault = walk(file, manifest, locks)) return *std::move(fault);
  }
  if (locks.is_locked) return locked_workbook(file.name());
  OdsSheets list;
  if (auto fault = walk(file, content_part, list)) return *std::move(fault);
  return std::unique_ptr<Workbook>(std::make_unique<OdsWorkbook>(std::move(file), std::move(list.sheets)));
}

}  // namespace driftwarden
