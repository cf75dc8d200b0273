// SPDX-License-Identifier: MIT
#include "driftwarden/book/one_cause.hpp"

#include <algorithm>
#include <map>
#include <memory>
#include <span>
#include <tuple>

#include "book/plain_text.hpp"
#include "book/reread_file.hpp"
#include "driftwarden/quantity/number.hpp"

namespace driftwarden {
namespace {

constexpr std::size_t most_places = 3;

// Kinds that are of a cell's form, whatever is written in it: all of a column have one cause.
bool is_of_form(const std::string& id) {
  return id.starts_with("time/") || id.starts_with("cell/") || id.starts_with("workbook/") || id == "csv/cell-count";
}

struct Cause {
  std::string id;
  std::string file;     // "": of the heading lines of several
  int column = -1;      // of the file
  std::string message;  // "" where what is written in the cells doesn't matter
  auto operator<=>(const Cause&) const = default;
};

// The files of a book, read once more as far as that is asked for.
class RereadFiles {
 public:
  explicit RereadFiles(const Book& book) : book_(book) {}

  // nullptr: it is no table's, or can't be read.
  const RereadFile* find(const std::string& name) {
    const auto [found, is_new] = files_.try_emplace(name);
    if (is_new) found->second = reread(book_, name);
    return found->second ? &*found->second : nullptr;
  }

 private:
  const Book& book_;
  std::map<std::string, std::optional<RereadFile>> files_;
};

// By kind and file, whether there are enough to look for a cause at all.
std::map<std::pair<std::string, std::string>, std::size_t> counts_of(const Diagnostics& problems) {
  std::map<std::pair<std::string, std::string>, std::size_t> counts;
  for (const Diagnostic& problem : problems) ++counts[{problem.id, problem.place.file}];
  return counts;
}

// What stands in a column's cells, "" left out.
std::vector<std::string> texts_of(const RereadFile& file, int column, const EmptyMarks& marks) {
  std::vector<std::string> texts;
  file.for_each_row([&](const CsvScanner& row, std::uint32_t) {
    if (static_cast<std::size_t>(column) >= row.cell_count()) return;
    const std::string text = with_plain_blanks(trimmed(row.cells()[column].text));
    if (!text.empty() && !marks.hold(text)) texts.push_back(text);
  });
  return texts;
}

std::vector<bool> read_with(DateOrder order, const std::vector<std::string>& texts, const TimeZone& zone) {
  StampReader reader(zone, order);
  std::vector<bool> are_read;
  for (const std::string& text : texts) {
    Moment moment = no_moment;
    Day day = no_day;
    are_read.push_back(reader.read(text, moment) || reader.read_date(text, day));
  }
  return are_read;
}

std::string setting(const std::string& file, const std::string& words) {
  return "write " + words + " in book.toml, for this file under [files.\"" + std::string(split_sheet(file).file) +
         "\"]";
}

// Which order of day and month reads the column, by trying both.
std::string mend_dates(const RereadFile& file, int column, const Book& book) {
  const std::vector<std::string> texts = texts_of(file, column, book.settings.empty_marks);
  const std::vector<bool> day = read_with(DateOrder::day_first, texts, *file.manner.zone);
  const std::vector<bool> month = read_with(DateOrder::month_first, texts, *file.manner.zone);
  const auto of_all = static_cast<std::size_t>(std::count(day.begin(), day.end(), true));
  const auto months = static_cast<std::size_t>(std::count(month.begin(), month.end(), true));
  const std::string all = "every one of its " + std::to_string(texts.size()) + " cells fits ";
  if (of_all == texts.size() && months == texts.size())
    return all + "day first and month first: say which it is, dates = \"day first\" or \"month first\", in book.toml";
  if (of_all == texts.size())
    return all + "day first, and " + std::to_string(texts.size() - months) +
           " of them nothing else: " + setting(file.name, "dates = \"day first\"");
  if (months == texts.size())
    return all + "month first, and " + std::to_string(texts.size() - of_all) +
           " of them nothing else: " + setting(file.name, "dates = \"month first\"");
  return "of its " + std::to_string(texts.size()) + " cells " + std::to_string(of_all) + " fit day first and " +
         std::to_string(months) + " month first";
}

// Whether the other decimal sign reads the column.
std::string mend_decimals(const RereadFile& file, int column, const Book& book) {
  const char other = file.manner.decimal == '.' ? ',' : '.';
  const std::vector<std::string> texts = texts_of(file, column, book.settings.empty_marks);
  const auto is_number = [other](std::string text) {
    if (text.find(other == ',' ? '.' : ',') != std::string::npos) return false;
    std::replace(text.begin(), text.end(), other, '.');
    return number_from(text).has_value();
  };
  const auto read = static_cast<std::size_t>(std::count_if(texts.begin(), texts.end(), is_number));
  const std::string words = std::string("decimal = \"") + other + "\"";
  if (read == texts.size()) return words + " would read all " + std::to_string(read) + ": " + setting(file.name, words);
  return {};
}

std::string mend_of(const Cause& cause, const Book& book, RereadFiles& files) {
  const RereadFile* file = cause.column < 0 ? nullptr : files.find(cause.file);
  if (file == nullptr) return {};
  if (cause.id == "time/slashes" || cause.id == "time/no-such-date") return mend_dates(*file, cause.column, book);
  if (cause.id == "cell/not-a-number") return mend_decimals(*file, cause.column, book);
  return {};
}

// "lines 2, 3 and 4", "C2, C3 and C4", "W45.csv, W46.csv and W47.csv"
std::string places_of(const std::vector<const Diagnostic*>& problems, const Cause& cause) {
  const bool is_sheet = !split_sheet(cause.file).sheet.empty();
  std::string text = is_sheet || cause.file.empty() ? "" : "lines ";
  const std::size_t named = std::min(problems.size(), most_places);
  for (std::size_t i = 0; i < named; ++i) {
    const Place& place = problems[i]->place;
    text += i == 0 ? "" : i + 1 == named ? " and " : ", ";
    text += cause.file.empty() ? place.file
            : is_sheet         ? cell_name(place.column, place.line)
                               : std::to_string(place.line);
  }
  return text;
}

Diagnostic as_one(const Cause& cause, const std::vector<const Diagnostic*>& problems, const Book& book,
                  RereadFiles& files) {
  Diagnostic one = *problems.front();
  const RereadFile* file = cause.column < 0 ? nullptr : files.find(cause.file);
  const std::string count = std::to_string(problems.size());
  const std::string where = cause.file.empty() ? count + " files"
                            : file != nullptr ? count + " cells of the column " + in_quotes(file->heading(cause.column))
                                              : count + " rows";
  one.message += " (and so in " + where + ", the first are " + places_of(problems, cause) + ")";
  if (const std::string mend = mend_of(cause, book, files); !mend.empty()) one.hint = mend;
  return one;
}

// The cause of each problem that may have one with others.
std::vector<std::optional<Cause>> causes_of(const Book& book, RereadFiles& files) {
  const auto counts = counts_of(book.problems);
  std::vector<std::optional<Cause>> causes;
  for (const Diagnostic& problem : book.problems) {
    const bool is_of_headings = problem.id.starts_with("heading/");
    const bool are_enough = counts.at({problem.id, problem.place.file}) >= fewest_of_one_cause;
    causes.emplace_back();
    if (is_of_headings) causes.back() = Cause{problem.id, "", -1, problem.message + problem.hint};
    if (is_of_headings || !are_enough || problem.place.line == 0) continue;
    const RereadFile* file = files.find(problem.place.file);
    const int column = file == nullptr ? -1 : file->column_at(problem.place);
    causes.back() = Cause{problem.id, problem.place.file, column, is_of_form(problem.id) ? "" : problem.message};
  }
  return causes;
}

}  // namespace

Diagnostics told_by_cause(const Book& book) {
  RereadFiles files(book);
  const std::vector<std::optional<Cause>> causes = causes_of(book, files);
  std::map<Cause, std::vector<const Diagnostic*>> of_one;
  for (std::size_t i = 0; i < causes.size(); ++i) {
    if (causes[i]) of_one[*causes[i]].push_back(&book.problems[i]);
  }
  Diagnostics told;
  for (std::size_t i = 0; i < causes.size(); ++i) {
    const Diagnostic& problem = book.problems[i];
    const std::vector<const Diagnostic*> alone{&problem};
    const std::vector<const Diagnostic*>& same = causes[i] ? of_one[*causes[i]] : alone;
    const std::size_t fewest = causes[i] && causes[i]->file.empty() ? 2 : fewest_of_one_cause;
    if (same.size() < fewest) {
      told.push_back(problem);
    } else if (same.front() == &problem) {
      told.push_back(as_one(*causes[i], same, book, files));
    }
  }
  return told;
}

}  // namespace driftwarden
