// SPDX-License-Identifier: MIT
#include "book/heading_line.hpp"

#include <algorithm>
#include <set>

#include "book/plain_text.hpp"
#include "book/sheet_cell.hpp"

namespace driftwarden {
namespace {

// One line after another, each split by the separator that it has.
class Lines {
 public:
  explicit Lines(const TableText& file)
      : text_(file.text), is_of_sheet_(file.sheet_row > 0), line_(is_of_sheet_ ? file.sheet_row : 1) {
    if (text_.starts_with(byte_order_mark)) at_ = byte_order_mark.size();
  }

  std::size_t at() const { return at_; }
  std::uint32_t line() const { return line_; }
  bool is_at_end() const { return at_ >= text_.size(); }

  // The row that begins here.
  CsvScanner row() const {
    const std::string_view rest = text_.substr(at_);
    CsvScanner scanner(rest, is_of_sheet_ ? sheet_separator : separator_of(rest));
    scanner.next();
    return scanner;
  }
  void pass(const CsvScanner& row) {
    at_ = static_cast<std::size_t>(row.position() - text_.data());
    line_ += 1 + (is_of_sheet_ ? 0 : row.extra_lines());
  }

 private:
  std::string_view text_;
  bool is_of_sheet_;
  std::size_t at_ = 0;
  std::uint32_t line_;
};

// Which columns of a table a row names.
struct Named {
  std::set<std::size_t> fields;

  Named(const CsvScanner& row, const TableSpec& spec, const HeadingMap& owners) {
    for (std::size_t c = 0; c < row.cell_count(); ++c) {
      const std::string ours = our_heading(row.text(c), owners);
      if (const auto field = field_named(spec, split_heading(ours).name)) fields.insert(field->number);
    }
  }
  bool has_all_needed(const TableSpec& spec) const {
    return std::all_of(spec.fields.begin(), spec.fields.end(), [this](const FieldSpec& field) {
      return !field.is_required || fields.contains(static_cast<std::size_t>(field.number));
    });
  }
};

HeadingLine said_line(const TableText& file) {
  Lines lines(file);
  while (!lines.is_at_end() && lines.line() < file.heading_line) lines.pass(lines.row());
  const bool is_there = !lines.is_at_end() && lines.line() == file.heading_line;
  return {is_there ? lines.at() : std::string_view::npos, file.heading_line, false};
}

}  // namespace

HeadingLine heading_line_of(const TableText& file, const TableSpec& spec, const HeadingMap& owners) {
  if (file.heading_line > 0) return said_line(file);
  Lines lines(file);
  const HeadingLine first{lines.at(), lines.line(), false};
  HeadingLine best = first;
  std::size_t most = 1;
  for (std::size_t seen = 0; seen < most_lines_above && !lines.is_at_end();) {
    const CsvScanner row = lines.row();
    if (row.fault() != CsvFault::none) break;
    const Named named(row, spec, owners);
    if (lines.at() == first.at && named.has_all_needed(spec)) return first;
    if (named.fields.size() > most) {
      most = named.fields.size();
      best = {lines.at(), lines.line(), lines.at() != first.at};
    }
    seen += row.is_blank() ? 0U : 1U;
    lines.pass(row);
  }
  return best;
}

}  // namespace driftwarden
