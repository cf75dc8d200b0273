// SPDX-License-Identifier: MIT
#include "book/table_layout.hpp"

#include <algorithm>
#include <array>
#include <set>
#include <span>
#include <utility>

#include "book/empty_marks.hpp"
#include "book/heading_guess.hpp"
#include "book/heading_line.hpp"
#include "book/plain_text.hpp"
#include "book/sheet_cell.hpp"
#include "diagnostic/characters.hpp"
#include "diagnostic/joined.hpp"
#include "diagnostic/letters.hpp"
#include "diagnostic/suggestion.hpp"

namespace driftwarden {
namespace {

constexpr std::size_t most_listed = 20;  // of columns without a meaning: a file of thousands must not bury the rest

constexpr std::size_t most_rows_looked_at = 20;

// A quoted heading may be broken over lines, as spreadsheets do in narrow columns.
constexpr std::string_view blanks = " \t\r\n";

// UTF-16, which spreadsheets call Unicode text: by its mark, or by the zero byte beside each letter.
bool is_sixteen_bit(std::string_view text) {
  return text.starts_with("\xFF\xFE") || text.starts_with("\xFE\xFF") ||
         text.substr(0, 2).find('\0') != std::string_view::npos;
}

bool ends_lines_in_returns(std::string_view text) {
  return text.find('\n') == std::string_view::npos && text.find('\r') < text.size() - 1;
}

const std::string* mapped(std::string_view written, const HeadingMap& owners) {
  const std::string key = heading_key(written);
  for (const auto& [theirs, target] : owners) {
    if (heading_key(theirs) == key) return &target.first;
  }
  return nullptr;
}

// Of any dimension; the plain number that is a ratio's unit is none that brackets would be taken for.
bool is_unit(std::string_view text) {
  constexpr std::array<Dimension, 6> dimensions{
      Dimension::flow,     Dimension::temperature, Dimension::temperature_difference,
      Dimension::pressure, Dimension::time,        Dimension::ratio};
  return text != "1" && std::any_of(dimensions.begin(), dimensions.end(),
                                    [text](Dimension one) { return unit_named(text, one).has_value(); });
}

Heading in_two(std::string_view text, std::size_t name_end, std::string_view unit) {
  return {std::string(trimmed(text.substr(0, name_end), blanks)), std::string(trimmed(unit, blanks))};
}

// "units of flow are L/min, mL/min" and so on
std::string units_hint(Dimension dimension) {
  std::string hint = "units of " + std::string(to_text(dimension)) + " are ";
  bool is_first = true;
  for (const std::string_view name : unit_names(dimension)) {
    hint += (is_first ? "" : ", ") + std::string(name);
    is_first = false;
  }
  return hint;
}

std::string units_hint(const FieldSpec& field) {
  std::string hint = units_hint(field.dimension);
  for (const Dimension other : field.or_dimensions) hint += "; " + units_hint(other);
  return hint;
}

std::vector<std::string_view> names_of(const TableSpec& spec) {
  std::vector<std::string_view> names;
  for (const FieldSpec& field : spec.fields) names.push_back(field.name);
  return names;
}

class LayoutReader {
 public:
  LayoutReader(const std::string& file, const TableSpec& spec, const HeadingMap& owners, Diagnostics& problems)
      : file_(file), spec_(spec), owners_(owners), problems_(problems) {
    layout_.column_of_field.assign(spec.fields.size(), TableLayout::absent);
    layout_.clock_of_field = layout_.column_of_field;
    layout_.unit_of_field.resize(spec.fields.size());
  }

  void read_column(int column, std::string_view cell, const Place& place) {
    const std::string written = with_plain_blanks(trimmed(cell, blanks));
    if (written.empty()) {
      layout_.notes.emplace_back(column,
                                 "column " + (layout_.is_of_sheet ? column_letters(static_cast<std::uint32_t>(column))
                                                                  : std::to_string(column + 1)));
      return;
    }
    const Heading heading = split_heading(our_heading(written, owners_));
    const std::optional<NamedField> field = field_named(spec_, heading.name);
    if (!field) {
      layout_.notes.emplace_back(column, written);
      unknown_.push_back(written);
      unknown_columns_.push_back(column);
      if (unknown_place_.line == 0) unknown_place_ = place;
      return;
    }
    const bool is_clock = field->part == NamedField::Part::clock;
    int& taken = (is_clock ? layout_.clock_of_field : layout_.column_of_field)[field->number];
    if (taken != TableLayout::absent) {
      fail("heading/twice", place,
           "the column " + in_quotes(spec_.fields[field->number].name) + " stands twice, here as " + in_quotes(written),
           "keep one of them");
      return;
    }
    taken = column;
    if (field->part == NamedField::Part::date) dates_alone_.push_back(field->number);
    read_unit(field->number, heading, written, place);
  }

  // `below`: the rows behind the heading line.
  std::optional<TableLayout> finish(const Place& heading_place, CsvScanner below) {
    guess(std::move(below));
    join_dates_and_times(heading_place);
    for (std::size_t f = 0; f < spec_.fields.size(); ++f) {
      const FieldSpec& field = spec_.fields[f];
      if (field.is_required && layout_.column_of_field[f] == TableLayout::absent) {
        fail("heading/missing", heading_place, "there is no column " + in_quotes(heading_of(field)) + near_miss(field),
             "add it to the heading line, or map your own heading to it in book.toml under " + headings_table() +
                 line_for(field));
      }
    }
    remark_unknown();
    if (has_failed_) return std::nullopt;
    return std::move(layout_);
  }

  TableLayout& layout() { return layout_; }

 private:
  std::string headings_table() const { return "[headings." + std::string(spec_.table) + "]"; }

  // Looks at the first rows for what the unknown columns may be.
  void guess(CsvScanner below) {
    if (unknown_.empty()) return;
    std::set<std::size_t> taken;
    for (std::size_t f = 0; f < spec_.fields.size(); ++f) {
      if (layout_.column_of_field[f] != TableLayout::absent || layout_.clock_of_field[f] != TableLayout::absent)
        taken.insert(f);
    }
    std::vector<UnknownColumn> columns;
    for (const std::string& heading : unknown_) columns.push_back({heading, {}});
    for (std::size_t rows = 0; rows < most_rows_looked_at && below.next(); ++rows) {
      for (std::size_t i = 0; i < columns.size(); ++i) {
        const auto column = static_cast<std::size_t>(unknown_columns_[i]);
        if (column >= below.cell_count()) continue;
        const std::string_view cell = trimmed(below.text(column), blanks);
        if (!cell.empty()) columns[i].cells.push_back(with_plain_blanks(cell));
      }
    }
    guesses_ = guessed_headings(spec_, taken, columns);
    std::erase_if(guesses_, [&](const HeadingGuess& one) { return !near_name(one.theirs).empty(); });
    for (const UnknownColumn& column : columns) {
      const bool is_time = std::any_of(guesses_.begin(), guesses_.end(), [&](const HeadingGuess& one) {
        const auto field = field_named(spec_, one.ours);
        const bool is_date =
            field && spec_.fields[field->number].type != CellType::quantity && field->part != NamedField::Part::clock;
        return is_date && one.theirs == split_heading(column.heading).name;
      });
      if (is_time && order_.empty()) order_ = only_order_of(column.cells);
    }
  }
  // ": "Date" = "taken date", "Time" = "taken time"" for a column that is lacking.
  std::string line_for(const FieldSpec& field) const {
    std::string lines;
    for (const HeadingGuess& one : guesses_) {
      const auto named = field_named(spec_, one.ours);
      if (named && &spec_.fields[named->number] == &field)
        lines += (lines.empty() ? ", perhaps " : ", ") + one.table_line();
    }
    return lines;
  }

  // A time of day whose date has no column of its own is of the first moment's date: "date, started, stopped".
  void join_dates_and_times(const Place& heading_place) {
    const auto miss = [&](std::size_t f, const std::string& part) {
      const std::string name(spec_.fields[f].name);
      fail("heading/missing", heading_place,
           "there is no column " + in_quotes(name + ' ' + part) + " beside " +
               in_quotes(name + (part == "time" ? " date" : " time")),
           "date and time of day are one moment: map both, or one column with both to " + in_quotes(name));
    };
    for (const std::size_t f : dates_alone_) {
      if (layout_.clock_of_field[f] == TableLayout::absent) miss(f, "time");
    }
    for (std::size_t f = 0; f < spec_.fields.size(); ++f) {
      if (layout_.clock_of_field[f] == TableLayout::absent) continue;
      int& date = layout_.column_of_field[f];
      if (date == TableLayout::absent && !dates_alone_.empty())
        date = layout_.column_of_field[*std::min_element(dates_alone_.begin(), dates_alone_.end())];
      if (date == TableLayout::absent) miss(f, "date");
    }
  }

  void fail(std::string id, Place place, std::string message, std::string hint) {
    has_failed_ = true;
    problems_.push_back(error(std::move(id), std::move(place), std::move(message), std::move(hint)));
  }

  void read_unit(std::size_t f, const Heading& heading, std::string_view written, const Place& place) {
    const FieldSpec& field = spec_.fields[f];
    if (field.type == CellType::number && heading.unit && !heading.unit->empty()) {
      fail("heading/unknown-unit", place, "the heading " + in_quotes(written) + " has a unit, and is a plain number",
           "write it as in " + in_quotes(field.name) + ", and plain numbers below it");
    }
    if (field.type != CellType::quantity) return;
    if (!heading.unit) {
      fail("heading/no-unit", place, "the heading " + in_quotes(written) + " carries no unit",
           "write it as in " + in_quotes(heading_of(field)) + "; " + units_hint(field));
      return;
    }
    std::optional<Unit> unit = unit_named(*heading.unit, field.dimension);
    for (const Dimension other : field.or_dimensions) {
      if (!unit) unit = unit_named(*heading.unit, other);
    }
    if (!unit) {
      fail("heading/unknown-unit", place,
           "the heading " + in_quotes(written) + " has a unit that is not one of " +
               std::string(to_text(field.dimension)),
           units_hint(field));
      return;
    }
    layout_.unit_of_field[f] = *unit;
  }

  // " (is 'X' meant?)" for a required column that a near heading may stand for.
  std::string near_miss(const FieldSpec& field) const {
    const std::array<std::string_view, 1> one{field.name};
    std::vector<std::string> theirs;
    for (const auto& [heading, target] : owners_) {
      if (heading_key(split_heading(target.first).name) == heading_key(field.name)) theirs.push_back(heading);
    }
    for (const std::string& heading : unknown_) {
      const bool is_near = !nearest(split_heading(heading).name, one).empty() || !nearest(heading, theirs).empty();
      if (is_near) return " (is " + in_quotes(heading) + " meant?)";
    }
    return {};
  }

  // The owner's heading, or a name of ours, that may have been misspelt.
  std::string near_name(const std::string& heading) const {
    std::vector<std::string> theirs;
    for (const auto& [name, target] : owners_) theirs.push_back(name);
    const std::string near = nearest(heading, theirs);
    return near.empty() ? nearest(split_heading(heading).name, names_of(spec_)) : near;
  }

  void remark_unknown() {
    if (unknown_.empty()) return;
    const std::string fate = field_named(spec_, "note") ? "kept as notes" : "not used";
    std::string hint;
    const std::size_t listed = std::min(unknown_.size(), most_listed);
    for (const std::string& heading : std::span(unknown_).first(listed)) {
      const std::string near = near_name(heading);
      if (!near.empty())
        hint += (hint.empty() ? "" : "; ") + ("did you mean " + in_quotes(near) + " by " + in_quotes(heading) + "?");
    }
    std::string list = joined(std::span(unknown_).first(listed), ", ", in_quotes);
    if (!guesses_.empty()) hint += (hint.empty() ? "" : "; ") + guessed();
    if (unknown_.size() > listed) list += " and " + std::to_string(unknown_.size() - listed) + " more";
    problems_.push_back(
        remark("heading/unknown", unknown_place_, "columns without a meaning here are " + fate + ": " + list, hint));
  }

  // "if they are these, write under [headings.readings]: …; and dates = "day first""
  std::string guessed() const {
    std::string hint = "if that is meant, write in book.toml under " + headings_table() + " " +
                       joined(guesses_, ", ", &HeadingGuess::table_line);
    if (!order_.empty())
      hint += "; and dates = \"" + order_ + "\", for this file under [files.\"" + std::string(split_sheet(file_).file) +
              "\"]";
    return hint;
  }

  const std::string& file_;
  const TableSpec& spec_;
  const HeadingMap& owners_;
  Diagnostics& problems_;
  TableLayout layout_;
  std::vector<std::string> unknown_;
  std::vector<int> unknown_columns_;
  std::vector<HeadingGuess> guesses_;
  std::string order_;  // of day and month, that the dates among the unknown columns are in
  Place unknown_place_;
  std::vector<std::size_t> dates_alone_;  // moments whose column is a date's
  bool has_failed_ = false;
};

// Another encoding, in which a sign such as ° is a single byte.
std::optional<Diagnostic> heading_not_utf8(const CsvScanner& line, const std::string& file, std::uint32_t number) {
  for (std::size_t c = 0; c < line.cell_count(); ++c) {
    const std::string_view cell = line.text(c);
    if (is_utf8(cell)) continue;
    return error("csv/not-utf-8", place_in_row(line, line.raw(c), file, number),
                 "the heading " + in_quotes(trimmed(cell, blanks)) + " is not UTF-8", "save it as CSV in UTF-8");
  }
  return std::nullopt;
}

// What keeps a heading line from being read at all.
std::optional<Diagnostic> fault_of_heading_line(std::string_view file_text, const CsvScanner& line,
                                                const std::string& file, std::uint32_t number) {
  if (is_sixteen_bit(file_text)) {
    return error("csv/not-utf-8", {file, 0, 0}, "the file is in UTF-16, and not in UTF-8", "save it as CSV in UTF-8");
  }
  if (line.cell_count() == 0 || line.is_blank()) {
    return error("heading/none", {file, number, 0}, "there is no heading line",
                 "begin the file with the columns' names");
  }
  if (line.fault() != CsvFault::none) return csv_fault(line, file, number);
  if (ends_lines_in_returns(file_text)) {
    return error("csv/line-ends", {file, 0, 0}, "the lines end in carriage returns alone",
                 "save it with line ends of today: LF, or CR and LF");
  }
  return heading_not_utf8(line, file, number);
}

}  // namespace

Heading split_heading(std::string_view text) {
  text = trimmed(text, blanks);
  const std::size_t open = text.find('[');
  // What follows the brackets may change what the column is: "reading [L/min] uncorrected".
  if (open != std::string_view::npos && text.ends_with(']'))
    return in_two(text, open, text.substr(open + 1, text.size() - open - 2));
  const std::size_t round = text.rfind('(');
  if (round != std::string_view::npos && text.ends_with(')')) {
    const std::string_view inside = trimmed(text.substr(round + 1, text.size() - round - 2), blanks);
    if (is_unit(inside)) return in_two(text, round, inside);
  }
  const std::size_t comma = text.rfind(',');
  if (comma != std::string_view::npos && is_unit(trimmed(text.substr(comma + 1), blanks)))
    return in_two(text, comma, text.substr(comma + 1));
  return {std::string(text), std::nullopt};
}

std::string our_heading(std::string_view written, const HeadingMap& owners) {
  const Heading heading = split_heading(written);
  const std::string* ours = mapped(written, owners);
  if (ours == nullptr) ours = mapped(heading.name, owners);
  if (ours == nullptr) return std::string(written);
  const bool takes_unit = heading.unit && !split_heading(*ours).unit;
  return takes_unit ? *ours + " [" + *heading.unit + "]" : *ours;
}

std::optional<NamedField> field_named(const TableSpec& spec, std::string_view name) {
  const std::string key = heading_key(name);
  for (std::size_t f = 0; f < spec.fields.size(); ++f) {
    const FieldSpec& field = spec.fields[f];
    const std::string own = heading_key(field.name);
    if (own == key) return NamedField{f};
    if (field.type != CellType::moment || !key.starts_with(own)) continue;
    if (key == own + "date") return NamedField{f, NamedField::Part::date};
    if (key == own + "time") return NamedField{f, NamedField::Part::clock};
  }
  return std::nullopt;
}

std::string heading_of(const FieldSpec& field) {
  std::string text(field.name);
  if (field.type != CellType::quantity) return text;
  return text + " [" + std::string(field.usual_unit.empty() ? customary_unit(field.dimension).name : field.usual_unit) +
         "]";
}

std::string heading_key(std::string_view name) {
  std::string key;
  for (const char c : with_plain_blanks(name)) {
    if (blanks.find(c) != std::string_view::npos || c == '-' || c == '_') continue;
    key += small_letter(c);
  }
  return key;
}

char separator_of(std::string_view heading_line) {
  std::size_t commas = 0;
  std::size_t semicolons = 0;
  std::size_t tabs = 0;
  bool is_quoted = false;
  char before = ',';
  for (const char c : heading_line) {
    // Only where a cell begins does a quote open one; a doubled quote closes and opens it again.
    const bool may_open = before == '"' || before == ',' || before == ';' || before == '\t';
    if (c == '"' && (is_quoted || may_open)) is_quoted = !is_quoted;
    before = c;
    if (is_quoted) continue;
    if (c == '\n') break;
    commas += c == ',' ? 1U : 0U;
    semicolons += c == ';' ? 1U : 0U;
    tabs += c == '\t' ? 1U : 0U;
  }
  if (semicolons > commas && semicolons >= tabs) return ';';
  return tabs > commas ? '\t' : ',';
}

void check_owners_headings(const HeadingMap& owners, const TableSpec& spec, Diagnostics& problems) {
  for (const auto& [theirs, target] : owners) {
    const auto& [ours, place] = target;
    if (field_named(spec, split_heading(ours).name)) continue;
    problems.push_back(error("heading/unknown-target", place,
                             in_quotes(ours) + " is no column of " + std::string(spec.table),
                             did_you_mean(split_heading(ours).name, names_of(spec))));
  }
}

std::optional<TableLayout> read_layout(const TableText& file, const TableSpec& spec, const HeadingMap& owners,
                                       Diagnostics& problems) {
  const bool is_of_sheet = file.sheet_row > 0;
  const HeadingLine heading = heading_line_of(file, spec, owners);
  const std::uint32_t line = heading.line;
  if (heading.at == std::string_view::npos) {
    problems.push_back(error("heading/none", {file.file, line, 0}, "there is no such line",
                             "say in book.toml on which line the headings stand, or leave 'heading' out"));
    return std::nullopt;
  }
  const std::string_view text = file.text.substr(heading.at);
  const char separator = is_of_sheet ? sheet_separator : separator_of(text);
  CsvScanner scanner(text, separator);
  scanner.next();
  if (std::optional<Diagnostic> fault =
          is_of_sheet ? std::nullopt : fault_of_heading_line(file.text, scanner, file.file, line)) {
    problems.push_back(*std::move(fault));
    return std::nullopt;
  }
  if (heading.was_found) {
    problems.push_back(remark("heading/found", {file.file, line, 0},
                              "line " + std::to_string(line) +
                                  " is taken as the heading line; what stands above it is "
                                  "not read",
                              "if it is another, say heading = … in book.toml under [files.\"" +
                                  std::string(split_sheet(file.file).file) + "\"]"));
  }
  LayoutReader reader(file.file, spec, owners, problems);
  reader.layout().is_of_sheet = is_of_sheet;
  Place place{file.file, line, 1};
  const char* counted = scanner.row_begin();
  for (std::size_t c = 0; c < scanner.cell_count(); ++c) {
    if (is_of_sheet) {
      place.column = static_cast<std::uint32_t>(c + 1);
    } else {
      move_on(place, std::exchange(counted, scanner.raw(c)), scanner.raw(c));
    }
    reader.read_column(static_cast<int>(c), scanner.text(c), place);
  }
  std::optional<TableLayout> layout = reader.finish({file.file, line, 0}, scanner);
  if (layout) {
    layout->columns = scanner.cell_count();
    layout->separator = separator;
    layout->heading_begins = heading.at;
    layout->rows_begin = static_cast<std::size_t>(scanner.position() - file.text.data());
    layout->first_line = line + 1 + (is_of_sheet ? 0 : scanner.extra_lines());
  }
  return layout;
}

}  // namespace driftwarden
