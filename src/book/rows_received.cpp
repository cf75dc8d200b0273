// SPDX-License-Identifier: MIT
#include "book/rows_received.hpp"

#include <algorithm>
#include <optional>
#include <sstream>

#include "book/csv_scanner.hpp"
#include "book/plain_text.hpp"
#include "book/stamp_text.hpp"
#include "book/table_files.hpp"
#include "diagnostic/characters.hpp"
#include "diagnostic/suggestion.hpp"
#include "system/digest.hpp"
#include "system/held_file.hpp"

namespace driftwarden {
namespace {

constexpr std::string_view name_pattern = "received-0000-00-00-xxxxxxxxxxxx.csv";
constexpr std::size_t digits_of_all = 6;      // of the name: of the whole text as it was written,
constexpr std::size_t digits_of_lasting = 6;  // and of what of it may not be altered

// The column of the form; npos: none.
std::size_t form_column_in(const TableLayout& layout) {
  for (const auto& [column, heading] : layout.notes) {
    if (heading_key(heading) == heading_key(form_column)) return static_cast<std::size_t>(column);
  }
  return std::string::npos;
}

void append_quoted(std::string& row, std::string_view text) {
  if (text.find_first_of("\",\r\n;\t") == std::string_view::npos) {
    row += text;
  } else {
    append_in_csv_quotes(row, text);
  }
}

// What of a row, or of the heading line, stays as it was received: readings may be struck out where they stand.
class LastingCells {
 public:
  LastingCells(const TableSpec& spec, const TableLayout& layout, std::size_t left_out = std::string::npos)
      : columns_(layout.columns), left_out_{left_out} {
    if (&spec != &readings_spec) return;
    for (const std::string_view name : {"void", "note"}) {
      const int column = layout.column_of_field[field_named(spec, name)->number];
      if (column != TableLayout::absent) left_out_.push_back(static_cast<std::size_t>(column));
    }
  }
  std::string operator()(const CsvScanner& row) const {
    std::string text;
    for (std::size_t column = 0; column < columns_; ++column) {
      if (std::find(left_out_.begin(), left_out_.end(), column) != left_out_.end()) continue;
      if (column < row.cell_count()) text += trimmed(row.text(column));
      text += '\n';
    }
    return text;
  }

 private:
  std::size_t columns_;
  std::vector<std::size_t> left_out_;
};

// The heading line of a text whose layout is known, to be scanned.
CsvScanner heading_of_text(std::string_view text, const TableLayout& layout) {
  text.remove_prefix(layout.heading_begins);
  if (text.starts_with(byte_order_mark)) text.remove_prefix(byte_order_mark.size());
  CsvScanner heading(text, layout.separator);
  heading.next();
  return heading;
}

std::string padded(std::string text) { return text.append(HeldFile::padding, '\0'); }

}  // namespace

// A row, or the heading line, without the cell of the form; or what is wrong with it.
std::optional<Diagnostic> RowsReceived::add(const CsvScanner& row, std::string lasting, std::size_t at,
                                            std::uint32_t line) {
  if (row.fault() != CsvFault::none) return csv_fault(row, came_as, line);
  Line next{{}, std::move(lasting), at, line};
  bool is_first = true;
  for (std::size_t column = 0; column < row.cell_count(); ++column) {
    const std::string_view cell = row.text(column);
    if (column == form_at_) {
      if (lines_.size() == 1) form = cell;
      if (!lines_.empty() && form != cell) {
        return error("receive/forms", {came_as, line, 0},
                     "rows of the file are of different forms, " + in_quotes(form) + " and others",
                     "receive the rows of each form from a file of their own");
      }
      continue;
    }
    if (!is_first) next.text += ',';
    append_quoted(next.text, cell);
    is_first = false;
  }
  next.text += '\n';
  lines_.push_back(std::move(next));
  return std::nullopt;
}

bool is_received_name(std::string_view file) {
  return file.size() == name_pattern.size() &&
         std::equal(file.begin(), file.end(), name_pattern.begin(), [](char c, char meant) {
           const bool is_digit = c >= '0' && c <= '9';
           if (meant == '0') return is_digit;
           return meant == 'x' ? is_digit || (c >= 'a' && c <= 'f') : c == meant;
         });
}

std::set<std::string> names_being_received(const std::filesystem::path& book) {
  std::set<std::string> names;
  const std::string note(receiving_note);
  if (const Result<HeldFile> held = HeldFile::open(book / note, note)) {
    std::istringstream lines{std::string(held->bytes())};
    for (std::string name; std::getline(lines, name);) names.insert(name);
  }
  return names;
}

std::string received_name(const TableSpec& spec, Day day, std::string_view digits) {
  return std::string(spec.table) + "/received-" + date_text(day) + "-" + std::string(digits) + ".csv";
}

std::string received_pattern(const TableSpec& spec) { return std::string(spec.table) + "/received-*.csv"; }

bool is_altered(std::string_view name, std::string_view text, const TableSpec& spec, const TableLayout& layout) {
  const LastingCells lasting(spec, layout);
  std::string all = lasting(heading_of_text(text, layout));
  CsvScanner row(text.substr(layout.rows_begin), layout.separator);
  while (row.next()) {
    if (!row.is_blank()) all += lasting(row);
  }
  const std::size_t dot = name.rfind('.');
  return name.substr(dot - digits_of_lasting, digits_of_lasting) != sha256_of(all).substr(0, digits_of_lasting);
}

std::string RowsReceived::text() const {
  std::string all;
  for (const Line& line : lines_) all += line.text;
  return all;
}

std::string RowsReceived::name_on(Day day) const {
  std::string lasting;
  for (const Line& line : lines_) lasting += line.lasting;
  return received_name(*spec, day,
                       sha256_of(text()).substr(0, digits_of_all) + sha256_of(lasting).substr(0, digits_of_lasting));
}

RowsReceived RowsReceived::without(const std::set<std::size_t>& left_out) const {
  RowsReceived others = *this;
  others.lines_.resize(1);
  for (std::size_t row = 0; row < rows(); ++row) {
    if (!left_out.contains(row)) others.lines_.push_back(lines_[row + 1]);
  }
  return others;
}

std::vector<std::uint32_t> RowsReceived::lines_but(const std::set<std::uint32_t>& those) const {
  std::vector<std::uint32_t> others;
  std::uint32_t begins_on = 1;
  for (const Line& line : lines_) {
    if (begins_on > 1 && !those.contains(begins_on)) others.push_back(begins_on);
    begins_on += static_cast<std::uint32_t>(count_line_ends(line.text));
  }
  return others;
}

// The number, from 0 for the heading line, of what stands on a line of the text.
std::size_t RowsReceived::line_on(std::uint32_t line) const {
  std::size_t end = 1;
  for (std::size_t i = 0; i < lines_.size(); ++i) {
    end += count_line_ends(lines_[i].text);
    if (line < end) return i;
  }
  return lines_.size() - 1;
}

std::size_t RowsReceived::row_on(std::uint32_t line) const { return std::max<std::size_t>(line_on(line), 1) - 1; }

Place RowsReceived::place_in(const Line& line, std::size_t column_as_it_came) const {
  CsvScanner row(std::string_view(came_).substr(line.came_at, came_.size() - HeldFile::padding - line.came_at),
                 layout_.separator);
  if (!row.next() || column_as_it_came >= row.cell_count()) return {came_as, line.came_on, 0};
  return place_in_row(row, row.raw(column_as_it_came), came_as, line.came_on);
}

Place RowsReceived::as_it_came(const Place& of_text) const {
  if (of_text.line == 0) return {came_as, 0, 0};
  const std::size_t number = line_on(of_text.line);
  const Line& line = lines_[number];
  if (of_text.column == 0) return {came_as, line.came_on, 0};
  std::uint32_t begins_on = 1;
  for (std::size_t i = 0; i < number; ++i) begins_on += static_cast<std::uint32_t>(count_line_ends(lines_[i].text));
  const std::string text = padded(line.text);
  CsvScanner row(std::string_view(text).substr(0, line.text.size()), ',');
  row.next();
  std::size_t cell = row.cell_count();
  const auto is_at_or_before = [&](const Place& place) {
    return place.line < of_text.line || (place.line == of_text.line && place.column <= of_text.column);
  };
  while (cell-- > 1 && !is_at_or_before(place_in_row(row, row.raw(cell), came_as, begins_on))) {
  }
  return place_in(line, cell >= form_at_ ? cell + 1 : cell);
}

Place RowsReceived::cell(std::uint32_t line, std::string_view field) const {
  const Line& of_text = lines_[line_on(line)];
  const int column = layout_.column_of_field[field_named(*spec, field)->number];
  if (column == TableLayout::absent) return {came_as, of_text.came_on, 0};
  return place_in(of_text, static_cast<std::size_t>(column));
}

RereadFile RowsReceived::as_it_came_in(const std::string& file, const Settings& settings) const {
  return reread_text(received_pattern(*spec), std::string_view(came_).substr(0, came_.size() - HeldFile::padding),
                     layout_, manner_of(settings, file));
}

Result<RowsReceived> rows_received(const std::filesystem::path& path, const Settings& settings) {
  RowsReceived out;
  out.came_as = path.string();
  const std::string& file = out.came_as;
  const Result<HeldFile> held = HeldFile::open(path, file);
  if (!held) return held.faults();
  const std::string_view came = held->bytes();
  if (came.starts_with("PK\x03\x04") || came.starts_with("\xD0\xCF\x11\xE0")) {
    return error("receive/workbook", {file, 0, 0}, "this is a workbook, and rows are received from CSV files",
                 "save its sheet as CSV in UTF-8; or keep it in the book itself, in samples/ or readings/");
  }
  std::optional<TableLayout> layout;
  Diagnostics why;
  for (const TableSpec* each : {&readings_spec, &samples_spec}) {
    Diagnostics problems;
    layout = read_layout({came, file}, *each, owners_headings(settings, each->table), problems);
    out.spec = each;
    const bool is_of_it =
        layout && (each == &readings_spec || layout->has(static_cast<int>(field_named(*each, "started")->number)));
    if (is_of_it) break;
    layout.reset();
    // A table that has all its columns, and a heading of which can't be: what is wrong is that heading.
    const bool has_faults = std::any_of(problems.begin(), problems.end(), is_error);
    const bool lacks_columns = std::any_of(problems.begin(), problems.end(), [](const Diagnostic& problem) {
      return problem.id == "heading/missing" || problem.id == "heading/none";
    });
    if (has_faults && !lacks_columns) return problems;
    if (why.empty()) why = std::move(problems);
  }
  if (!layout) {
    return error("receive/unknown-table", {file, 1, 0},
                 "these are neither samples nor readings: " + (why.empty() ? "" : why.front().message),
                 "samples need the columns sample and started, readings taken, stage, calibrator and reading with its "
                 "unit");
  }
  out.layout_ = *std::move(layout);
  out.form_at_ = form_column_in(out.layout_);
  out.came_ = padded(std::string(came));
  const LastingCells lasting(*out.spec, out.layout_, out.form_at_);
  const auto add = [&](const CsvScanner& row, std::uint32_t line) {
    return out.add(row, lasting(row), static_cast<std::size_t>(row.row_begin() - came.data()), line);
  };
  const CsvScanner heading = heading_of_text(came, out.layout_);
  if (auto fault = add(heading, out.layout_.first_line - 1 - heading.extra_lines())) return *std::move(fault);
  CsvScanner scanner(came.substr(out.layout_.rows_begin), out.layout_.separator);
  std::uint32_t line = out.layout_.first_line;
  while (scanner.next()) {
    if (!scanner.is_blank()) {
      if (auto fault = add(scanner, line)) return *std::move(fault);
    }
    line += 1 + scanner.extra_lines();
  }
  if (out.rows() == 0)
    return error("receive/empty", {file, 1, 0}, "the file has headings and no rows", "save the form again");
  out.sha256 = sha256_of(came);
  return out;
}

}  // namespace driftwarden
