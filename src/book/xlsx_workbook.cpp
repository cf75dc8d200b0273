// SPDX-License-Identifier: MIT
#include <charconv>
#include <limits>

#include "book/xlsx_parts.hpp"
#include "quantity/number.hpp"

namespace driftwarden {
namespace {

constexpr double from_1900_to_1904 = 1462;  // days

std::uint32_t count_from(std::string_view digits, std::uint32_t otherwise) {
  std::uint32_t number = otherwise;
  std::from_chars(digits.data(), digits.data() + digits.size(), number);
  return number;
}

// "C12" -> 2; nothing where there are no letters, or too many.
std::optional<std::uint32_t> column_of(std::string_view reference) {
  std::uint32_t column = 0;
  std::size_t i = 0;
  for (; i < reference.size() && i < 4 && reference[i] >= 'A' && reference[i] <= 'Z'; ++i)
    column = 26 * column + static_cast<std::uint32_t>(reference[i] - 'A' + 1);
  return i == 0 || column > most_sheet_columns ? std::nullopt : std::optional(column - 1);
}

// The cells of a sheet (ECMA-376-1, 18.3.1).
class SheetPart : public XmlHandler {
 public:
  SheetPart(const XlsxParts& parts, SheetRows& rows) : parts_(parts), rows_(rows) {}

  void start(std::string_view name, const XmlAttributes& attributes) override {
    taken_ = nullptr;
    if (name == "c") return start_cell(attributes);
    if (name == "v") taken_ = &value_;
    if (name == "t" && in_phonetic_ == 0) taken_ = &inline_;
    if (name == "f") has_formula_ = true;
    if (name == "rPh") ++in_phonetic_;
    if (name == "row") start_row(attributes);
    if (name == "mergeCell") rows_.merged(attributes("ref"));
    if (name == "col" && attributes("hidden") == "1") {
      rows_.hidden_columns(count_from(attributes("min"), 1) - 1, count_from(attributes("max"), 1) - 1);
    }
  }
  void end(std::string_view name) override {
    taken_ = nullptr;
    if (name == "c") finish_cell();
    if (name == "rPh") --in_phonetic_;
    if (name == "row" && count_ > 0 && fault.empty()) is_done_ = !rows_.row(row_, {cells_.data(), count_}, is_hidden_);
  }
  void text(std::string_view text) override {
    if (taken_ != nullptr) *taken_ += text;
  }
  bool is_done() const override { return is_done_ || !fault.empty(); }

  std::string fault;

 private:
  void start_row(const XmlAttributes& attributes) {
    const std::uint32_t number = count_from(attributes("r"), row_ + 1);
    if (number <= row_) fault = "rows stand out of order";
    if (number > most_sheet_rows) fault = "it has more rows than a sheet can have";
    row_ = number;
    is_hidden_ = attributes("hidden") == "1" || attributes("hidden") == "true";
    count_ = 0;
    next_column_ = 0;
  }

  void start_cell(const XmlAttributes& attributes) {
    const std::string_view reference = attributes("r");
    const std::optional<std::uint32_t> column = reference.empty() ? next_column_ : column_of(reference);
    if (!column || *column < next_column_ || *column >= most_sheet_columns) fault = "cells stand out of order";
    column_ = column.value_or(0);
    next_column_ = column_ + 1;
    type_ = attributes("t");
    const std::uint32_t style = count_from(attributes("s"), 0);
    look_ = style < parts_.looks.size() ? parts_.looks[style] : NumberLook{};
    value_.clear();
    inline_.clear();
    has_formula_ = false;
  }

  void finish_cell() {
    const bool lacks_result = has_formula_ && (parts_.is_not_worked_out || (value_.empty() && type_ != "str"));
    const bool is_empty = value_.empty() && inline_.empty();
    if (!lacks_result && is_empty) return;
    if (count_ == cells_.size()) cells_.emplace_back();
    SheetCell& cell = cells_[count_++];
    cell.column = column_;
    cell.look = look_;
    cell.text.clear();
    if (lacks_result) {
      cell.kind = SheetCell::Kind::not_worked_out;
    } else {
      fill(cell);
    }
  }

  void fill(SheetCell& cell) {
    using Kind = SheetCell::Kind;
    cell.kind = Kind::text;
    if (type_ == "s") return fill_shared(cell);
    if (type_ == "inlineStr" || type_ == "str") {
      cell.text = unescaped_xlsx(type_ == "str" ? value_ : inline_);
    } else if (type_ == "e") {
      cell.kind = Kind::error;
      cell.text = value_;
    } else if (type_ == "d") {
      cell.kind = Kind::moment;
      cell.text = value_;
    } else {
      fill_number(cell);
    }
  }

  void fill_shared(SheetCell& cell) {
    const std::uint32_t number = count_from(value_, std::numeric_limits<std::uint32_t>::max());
    if (number < parts_.strings.size()) {
      cell.text = parts_.strings[number];
    } else {
      fault = "a cell names a text that is not there";
    }
  }

  void fill_number(SheetCell& cell) {
    const std::optional<double> number = number_from(value_);
    cell.text = number ? "" : value_;
    cell.number = number.value_or(0);
    if (!number) return;
    cell.kind = type_ == "b" ? SheetCell::Kind::boolean : SheetCell::Kind::number;
    using Look = NumberLook::Kind;
    const bool is_day =
        look_.kind == Look::date || look_.kind == Look::date_time || (look_.kind == Look::time && cell.number >= 1);
    if (parts_.is_1904 && is_day) cell.number += from_1900_to_1904;
  }

  const XlsxParts& parts_;
  SheetRows& rows_;
  std::vector<SheetCell> cells_;  // of the row; the first count_ of them
  std::size_t count_ = 0;
  std::uint32_t row_ = 0;
  std::uint32_t column_ = 0;
  std::uint32_t next_column_ = 0;
  bool is_hidden_ = false;
  std::string type_;
  NumberLook look_;
  std::string value_;
  std::string inline_;
  std::string* taken_ = nullptr;
  bool has_formula_ = false;
  bool is_done_ = false;
  int in_phonetic_ = 0;
};

class XlsxWorkbook : public Workbook {
 public:
  XlsxWorkbook(ZippedFile file, XlsxParts parts) : file_(std::move(file)), parts_(std::move(parts)) {}

  const std::vector<Sheet>& sheets() const override { return parts_.sheets; }
  std::optional<Diagnostic> read(const Sheet& sheet, SheetRows& rows) const override {
    SheetPart part(parts_, rows);
    std::optional<Diagnostic> fault = walk(file_, sheet.part, part);
    if (!fault && !part.fault.empty()) return unreadable_workbook(file_.name(), part.fault);
    return fault;
  }

 private:
  ZippedFile file_;
  XlsxParts parts_;
};

}  // namespace

Result<std::unique_ptr<Workbook>> open_xlsx(ZippedFile file) {
  Result<XlsxParts> parts = read_xlsx_parts(file);
  if (!parts) return parts.faults();
  return std::unique_ptr<Workbook>(std::make_unique<XlsxWorkbook>(std::move(file), *std::move(parts)));
}

}  // namespace driftwarden
