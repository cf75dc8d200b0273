// SPDX-License-Identifier: MIT
#include "book/sheet_text.hpp"

#include <algorithm>
#include <cmath>

#include "book/heading_line.hpp"
#include "book/sheet_cell.hpp"

namespace driftwarden {
namespace {

constexpr std::size_t most_cells = 20000000;
constexpr std::size_t most_text_bytes = std::size_t{256} << 20;
constexpr std::size_t most_named = 3;
constexpr double unseen_ms = 1;  // by which a time that a spreadsheet keeps may miss the second it shows

// Names the first few of many: "A2:A4, B7, C9 and 5 more".
class FewNamed {
 public:
  void add(std::string name) {
    if (count_++ < most_named) names_ += (names_.empty() ? "" : ", ") + std::move(name);
  }
  std::size_t count() const { return count_; }
  std::string text() const {
    return count_ <= most_named ? names_ : names_ + " and " + std::to_string(count_ - most_named) + " more";
  }

 private:
  std::string names_;
  std::size_t count_ = 0;
};

class SheetWriter : public SheetRows {
 public:
  explicit SheetWriter(const SheetForm& form) : form_(form) {}

  bool row(std::uint32_t number, std::span<const SheetCell> cells, bool is_hidden) override {
    if (text_.size() > most_text_bytes || cells_ > most_cells) return false;
    while (!cells.empty() && is_nothing(cells.back())) cells = cells.first(cells.size() - 1);
    if (cells.empty()) return true;
    if (is_hidden) hidden_rows_.add("row " + std::to_string(number));
    if (first_row_ == 0) first_row_ = line_ = number;
    for (; line_ < number; ++line_) text_ += '\n';
    const std::size_t begin = text_.size();
    append(number, cells);
    if (percent_.empty() && rows_.size() < most_lines_above)
      percent_ = form_.percent_columns(std::string_view(text_).substr(begin), number);
    const std::uint32_t width = cells.back().column + 1;
    rows_.push_back({text_.size(), width});
    widest_ = std::max(widest_, width);
    cells_ = std::size_t{widest_} * rows_.size();
    return true;
  }
  void hidden_columns(std::uint32_t first, std::uint32_t last) override {
    const std::string name = column_letters(first);
    hidden_columns_.add(first == last ? "column " + name : "columns " + name + " to " + column_letters(last));
  }
  void merged(std::string_view range) override { merged_.add(std::string(range)); }

  bool is_too_large() const { return text_.size() > most_text_bytes || cells_ > most_cells; }
  SheetText finish() { return {padded() + '\n', first_row_, remarks()}; }

 private:
  struct RowEnd {
    std::size_t at;
    std::uint32_t width;
  };

  static bool is_nothing(const SheetCell& cell) { return cell.kind == SheetCell::Kind::text && cell.text.empty(); }

  void append(std::uint32_t number, std::span<const SheetCell> cells) {
    std::uint32_t column = 0;
    for (const SheetCell& cell : cells) {
      text_.append(cell.column - column, sheet_separator);
      column = cell.column;
      const double moved_ms = append_cell(text_, cell, {form_.decimal, column < percent_.size() && percent_[column]});
      if (moved_ms <= unseen_ms) continue;
      moved_.add(cell_name(column + 1, number));
      most_moved_ms_ = std::max(most_moved_ms_, moved_ms);
    }
  }

  // Every row as wide as the widest.
  std::string padded() {
    if (std::all_of(rows_.begin(), rows_.end(), [this](const RowEnd& row) { return row.width == widest_; }))
      return std::move(text_);
    std::string wide;
    wide.reserve(text_.size() + cells_);
    std::size_t begin = 0;
    for (const RowEnd& row : rows_) {
      wide.append(text_, begin, row.at - begin);
      wide.append(widest_ - row.width, sheet_separator);
      begin = row.at;
    }
    return wide;
  }

  Diagnostics remarks() const {
    Diagnostics remarks;
    const auto tell = [&](const FewNamed& which, const char* id, const std::string& message, const std::string& hint) {
      if (which.count() > 0) remarks.push_back(remark(id, {form_.name, 0, 0}, message, hint));
    };
    const std::string all_the_same = " hidden, and read all the same: ";
    const std::string hint = "delete what must not count, or strike it out by the columns of the table";
    tell(hidden_rows_, "workbook/hidden",
         counted(hidden_rows_, "row is", "rows are") + all_the_same + hidden_rows_.text(), hint);
    tell(hidden_columns_, "workbook/hidden",
         counted(hidden_columns_, "stretch of columns is", "stretches of columns are") + all_the_same +
             hidden_columns_.text(),
         hint);
    tell(merged_, "workbook/merged",
         "merged cells hold what they show in their first cell alone; the others are empty: " + merged_.text(),
         "write it into every cell that it is meant for");
    tell(moved_, "workbook/rounded-time",
         counted(moved_, "time was", "times were") + " rounded to the second, by up to " +
             std::to_string(std::lround(most_moved_ms_)) + " ms: " + moved_.text(),
         "times are whole seconds");
    return remarks;
  }
  static std::string counted(const FewNamed& which, const char* one, const char* many) {
    return std::to_string(which.count()) + ' ' + (which.count() == 1 ? one : many);
  }

  const SheetForm& form_;
  std::string text_;
  std::vector<RowEnd> rows_;
  std::vector<bool> percent_;
  std::uint32_t first_row_ = 0;
  std::uint32_t line_ = 0;
  std::uint32_t widest_ = 0;
  std::size_t cells_ = 0;  // of all rows, once each is as wide as the widest
  FewNamed hidden_rows_;
  FewNamed hidden_columns_;
  FewNamed merged_;
  FewNamed moved_;
  double most_moved_ms_ = 0;
};

}  // namespace

Result<SheetText> sheet_text(const Workbook& workbook, const Sheet& sheet, const SheetForm& form) {
  SheetWriter writer(form);
  if (std::optional<Diagnostic> fault = workbook.read(sheet, writer)) return *std::move(fault);
  if (writer.is_too_large()) return too_large_workbook(form.name, "more than 20,000,000 cells, or 256 MB of text");
  return writer.finish();
}

}  // namespace driftwarden
