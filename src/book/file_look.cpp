// SPDX-License-Identifier: MIT
#include "book/file_look.hpp"

#include <algorithm>
#include <memory>
#include <set>
#include <tuple>

#include "book/book_table.hpp"
#include "book/empty_marks.hpp"
#include "book/heading_guess.hpp"
#include "book/heading_line.hpp"
#include "book/pieced_file.hpp"
#include "book/plain_text.hpp"
#include "book/sheet_cell.hpp"
#include "book/sheet_text.hpp"
#include "quantity/number.hpp"
#include "system/held_file.hpp"

namespace driftwarden {
namespace {

constexpr std::string_view blanks = " \t\r\n";
constexpr std::size_t most_rows = 5000;
constexpr std::size_t fewest_headings = 3;

// A file's heading line and the columns below it.
std::vector<UnknownColumn> columns_of(const TableText& text, const HeadingLine& heading) {
  const bool is_sheet = text.sheet_row > 0;
  const std::string_view rest = text.text.substr(heading.at);
  CsvScanner row(rest, is_sheet ? sheet_separator : separator_of(rest));
  std::vector<UnknownColumn> columns;
  if (!row.next()) return columns;
  for (std::size_t c = 0; c < row.cell_count(); ++c)
    columns.push_back({with_plain_blanks(trimmed(row.text(c), blanks)), {}});
  const EmptyMarks marks;
  for (std::size_t rows = 0; rows < most_rows && row.next(); ++rows) {
    for (std::size_t c = 0; c < std::min(columns.size(), row.cell_count()); ++c) {
      const std::string_view cell = trimmed(row.text(c));
      if (!cell.empty() && !marks.hold(cell)) columns[c].cells.push_back(with_plain_blanks(cell));
    }
  }
  return columns;
}

// Where no line names columns of ours: the first with so many texts.
HeadingLine first_line_of_texts(const TableText& text) {
  std::size_t at = text.text.starts_with(byte_order_mark) ? byte_order_mark.size() : 0;
  for (std::uint32_t line = std::max(text.sheet_row, 1U); at < text.text.size() && line < 100; ++line) {
    const std::string_view rest = text.text.substr(at);
    CsvScanner row(rest, text.sheet_row > 0 ? sheet_separator : separator_of(rest));
    if (!row.next()) break;
    std::size_t texts = 0;
    for (std::size_t c = 0; c < row.cell_count(); ++c) texts += trimmed(row.text(c), blanks).empty() ? 0U : 1U;
    if (texts >= fewest_headings) return {at, line, true};
    at = static_cast<std::size_t>(row.position() - text.text.data());
  }
  return {};
}

// What a file would be as one table.
struct AsTable {
  FileLook look;
  std::size_t named = 0;
  bool is_called_so = false;  // by its name or its folder

  // More is better: nothing lacking, then what it is called, then how much of it is known.
  auto rank() const { return std::tuple(look.lacking.empty(), is_called_so, named); }
};

// Dates and figures of the columns that have a meaning.
class Manner {
 public:
  explicit Manner(FileLook& look) : look_(look) {}

  void see(const FieldSpec& field, NamedField::Part part, const std::vector<std::string>& cells) {
    const bool is_time = field.type == CellType::moment || field.type == CellType::date;
    if (is_time && part != NamedField::Part::clock) see_dates(cells);
    if (field.type == CellType::quantity || field.type == CellType::number) see_figures(cells);
  }

 private:
  void see_dates(const std::vector<std::string>& cells) {
    const std::string order = only_order_of(cells);
    if (!order.empty() && look_.dates.empty()) look_.dates = order;
    if (order.empty() && fits_both_orders(cells)) look_.is_order_open = true;
    if (!look_.dates.empty()) look_.is_order_open = false;
  }
  void see_figures(const std::vector<std::string>& cells) {
    const auto has_comma = [](const std::string& cell) { return cell.find(',') != std::string::npos; };
    const auto is_figure = [](std::string cell) {
      if (cell.find('.') != std::string::npos) return false;
      std::replace(cell.begin(), cell.end(), ',', '.');
      return number_from(cell).has_value();
    };
    look_.has_decimal_commas |=
        std::any_of(cells.begin(), cells.end(), has_comma) && std::all_of(cells.begin(), cells.end(), is_figure);
  }

  FileLook& look_;
};

AsTable as_table(const TableText& text, const TableSpec& spec) {
  HeadingLine heading = heading_line_of(text, spec, {});
  std::vector<UnknownColumn> columns = columns_of(text, heading);
  const auto our_field = [&spec](const UnknownColumn& column) {
    return field_named(spec, split_heading(column.heading).name);
  };
  if (std::none_of(columns.begin(), columns.end(), our_field)) columns = columns_of(text, first_line_of_texts(text));
  AsTable result;
  result.look.table = spec.table;
  std::set<std::size_t> taken;
  std::vector<UnknownColumn> unknown;
  Manner manner(result.look);
  for (const UnknownColumn& column : columns) {
    const auto field = our_field(column);
    if (field) taken.insert(field->number), ++result.named;
    if (field) manner.see(spec.fields[field->number], field->part, column.cells);
    if (!field && !column.heading.empty()) unknown.push_back(column);
  }
  for (const HeadingGuess& one : guessed_headings(spec, taken, unknown)) {
    const auto of = std::find_if(unknown.begin(), unknown.end(), [&](const UnknownColumn& column) {
      return split_heading(column.heading).name == one.theirs;
    });
    const auto field = field_named(spec, one.ours);
    manner.see(spec.fields[field->number], field->part, of->cells);
    taken.insert(field->number);
    ++result.named;
    result.look.headings.emplace_back(one.theirs, one.ours);
    unknown.erase(of);
  }
  for (const UnknownColumn& column : unknown) result.look.unplaced.push_back(column.heading);
  for (const FieldSpec& field : spec.fields) {
    if (field.is_required && !taken.contains(static_cast<std::size_t>(field.number)))
      result.look.lacking.push_back(heading_of(field));
  }
  return result;
}

// The table that a text is most likely; none, where it has no two columns of any.
FileLook likeliest(const TableText& text, const std::string& name, const std::string& sheet) {
  AsTable best;
  for (const BookTable& table : book_tables()) {
    if (table.is_of_parts) continue;
    AsTable one = as_table(text, *table.spec);
    const std::filesystem::path path(name);
    const auto is_it = [&](const std::string& called) { return heading_key(called) == heading_key(table.name()); };
    one.is_called_so = is_it(sheet) || is_it(path.stem().string()) || is_it(path.parent_path().filename().string());
    if (table.is_kept_by_few && !one.is_called_so) continue;
    if (one.named >= 2 && (best.look.table.empty() || one.rank() > best.rank())) best = std::move(one);
  }
  best.look.sheet = sheet;
  return best.look;
}

FileLooks looks_of_workbook(const HeldFile& bytes, const std::string& name) {
  const Result<std::unique_ptr<Workbook>> workbook = open_workbook(bytes.bytes(), name);
  if (!workbook) return {{}, workbook.faults()};
  FileLooks looks;
  for (const Sheet& sheet : (*workbook)->sheets()) {
    const SheetForm form{name, '.', [](std::string_view, std::uint32_t) { return std::vector<bool>(); }};
    const Result<SheetText> made = sheet_text(**workbook, sheet, form);
    if (!made) return {{}, made.faults()};
    if (made->first_row == 0 || sheet.is_hidden) continue;
    const PiecedFile text = PiecedFile::of_text(made->text);
    looks.looks.push_back(likeliest({text.bytes(), name, made->first_row}, name, sheet.name));
  }
  return looks;
}

}  // namespace

FileLooks look_at(const std::filesystem::path& path, const std::string& name) {
  const Result<HeldFile> bytes = HeldFile::open(path, name);
  if (!bytes) return {{}, bytes.faults()};
  if (is_document_name(name)) {
    FileLook look;
    look.table = "certificates";
    return {{look}, {}};
  }
  if (is_workbook_name(name)) return looks_of_workbook(*bytes, name);
  return {{likeliest({bytes->bytes(), name}, name, "")}, {}};
}

}  // namespace driftwarden
