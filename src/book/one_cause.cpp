// SPDX-License-Identifier: MIT
#include "book/one_cause.hpp"

#include <algorithm>
#include <map>
#include <memory>
#include <set>
#include <span>
#include <tuple>

#include "book/plain_text.hpp"
#include "book/reread_file.hpp"
#include "quantity/number.hpp"

namespace driftwarden {
namespace {

constexpr std::size_t most_places = 3;

// Kinds that are of a cell's form, whatever is written in it: all of a column have one cause.
bool is_of_form(const std::string& id) {
  return id.starts_with("time/") || id.starts_with("cell/") || id.starts_with("workbook/") || id.starts_with("csv/") ||
         id == "reading/not-its-stage" || id == "reading/not-during" ||
         (id.starts_with("receive/") && id != "receive/refused");
}

struct Cause {
  std::string id;
  std::string file;     // "": of the heading lines of several
  int column = -1;      // of the file
  std::string message;  // "" where what is written in the cells doesn't matter
  std::string setting;  // the one that would mend it, whichever column of the file it is: then all are one
  auto operator<=>(const Cause&) const = default;
};

// Files read once more as far as that is asked for.
using Reread = std::function<std::optional<RereadFile>(const std::string& name)>;
class RereadFiles {
 public:
  explicit RereadFiles(const Reread& reread) : reread_(reread) {}

  // nullptr: it is no table's, or can't be read.
  const RereadFile* find(const std::string& name) {
    const auto [found, is_new] = files_.try_emplace(name);
    if (is_new) found->second = reread_(name);
    return found->second ? &*found->second : nullptr;
  }

 private:
  const Reread& reread_;
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
    const auto cell = static_cast<std::size_t>(column);
    if (cell >= row.cell_count()) return;
    const std::string text = with_plain_blanks(trimmed(row.text(cell)));
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

// What would mend a column, by trying it.
struct Mend {
  std::string setting;  // "decimal = ","", where it reads all of the column
  std::string words;    // as a hint
};

std::string how_to_write(const std::string& file, const std::string& setting) {
  return "write " + setting + " in book.toml, for this file under [files.\"" + std::string(split_sheet(file).file) +
         "\"]";
}

// Which order of day and month reads the column.
Mend mend_dates(const RereadFile& file, int column, const EmptyMarks& marks) {
  const std::vector<std::string> texts = texts_of(file, column, marks);
  const std::vector<bool> day = read_with(DateOrder::day_first, texts, *file.manner.zone);
  const std::vector<bool> month = read_with(DateOrder::month_first, texts, *file.manner.zone);
  const auto days = static_cast<std::size_t>(std::count(day.begin(), day.end(), true));
  const auto months = static_cast<std::size_t>(std::count(month.begin(), month.end(), true));
  const std::string all = "every one of its " + std::to_string(texts.size()) + " cells fits ";
  if (days == texts.size() && months == texts.size())
    return {"",
            all + "day first and month first: say which it is, dates = \"day first\" or \"month first\", in book.toml"};
  const auto one_order = [&](const std::string& order, std::size_t of_other) {
    const std::string setting = "dates = \"" + order + "\"";
    return Mend{setting, all + order + ", and " + std::to_string(texts.size() - of_other) +
                             " of them nothing else: " + how_to_write(file.name, setting)};
  };
  if (days == texts.size()) return one_order("day first", months);
  if (months == texts.size()) return one_order("month first", days);
  return {"", "of its " + std::to_string(texts.size()) + " cells " + std::to_string(days) + " fit day first and " +
                  std::to_string(months) + " month first"};
}

// Whether the other decimal sign reads the column.
Mend mend_decimals(const RereadFile& file, int column, const EmptyMarks& marks) {
  const char other = file.manner.decimal == '.' ? ',' : '.';
  const std::vector<std::string> texts = texts_of(file, column, marks);
  const auto is_number = [other](std::string text) {
    if (text.find(other == ',' ? '.' : ',') != std::string::npos) return false;
    std::replace(text.begin(), text.end(), other, '.');
    return number_from(text).has_value();
  };
  const auto read = static_cast<std::size_t>(std::count_if(texts.begin(), texts.end(), is_number));
  const std::string setting = std::string("decimal = \"") + other + "\"";
  if (read != texts.size()) return {};
  return {setting, setting + " would read all " + std::to_string(read) + ": " + how_to_write(file.name, setting)};
}

// What would mend columns, each looked at once.
class Mends {
 public:
  Mends(const EmptyMarks& marks, RereadFiles& files) : marks_(marks), files_(files) {}

  const Mend& of(const std::string& id, const std::string& name, int column) {
    const bool is_date = id == "time/slashes" || id == "time/no-such-date";
    const auto [known, is_new] = mends_.try_emplace({is_date ? "dates" : id, name, column});
    const RereadFile* file = column < 0 ? nullptr : files_.find(name);
    if (!is_new || file == nullptr) return known->second;
    if (is_date) known->second = mend_dates(*file, column, marks_);
    if (id == "cell/not-a-number") known->second = mend_decimals(*file, column, marks_);
    return known->second;
  }

 private:
  const EmptyMarks& marks_;
  RereadFiles& files_;
  std::map<std::tuple<std::string, std::string, int>, Mend> mends_;
};

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

// Of one column of a file.
Diagnostic as_one(const Cause& cause, const std::vector<const Diagnostic*>& problems, RereadFiles& files,
                  Mends& mends) {
  Diagnostic one = *problems.front();
  const RereadFile* file = cause.column < 0 ? nullptr : files.find(cause.file);
  const std::string count = std::to_string(problems.size());
  const std::string where = cause.file.empty() ? count + " files"
                            : file != nullptr ? count + " cells of the column " + in_quotes(file->heading(cause.column))
                                              : count + " rows";
  one.message += " (and so in " + where + ", the first are " + places_of(problems, cause) + ")";
  if (const std::string& mend = mends.of(one.id, cause.file, cause.column).words; !mend.empty()) one.hint = mend;
  return one;
}

// Of several columns of a file that one setting mends.
Diagnostic as_one_setting(const Cause& cause, const std::vector<const Diagnostic*>& problems, std::size_t columns,
                          const std::string& file) {
  Diagnostic one = *problems.front();
  const std::string count = std::to_string(problems.size());
  one.message += " (and so in " + count + " cells of " + std::to_string(columns) + " columns, the first are " +
                 places_of(problems, cause) + ")";
  one.hint = cause.setting + " would read all " + count + ": " + how_to_write(file, cause.setting);
  return one;
}

// Problems with one cause, in the order in which they are told.
struct OneCause {
  std::vector<const Diagnostic*> problems;
  std::set<int> columns;
};

// The causes of problems.
class Causes {
 public:
  Causes(const Diagnostics& problems, const EmptyMarks& marks, const Reread& reread)
      : problems_(problems), files_(reread), mends_(marks, files_) {
    const auto counts = counts_of(problems);
    for (const Diagnostic& problem : problems) {
      const bool are_enough = counts.at({problem.id, problem.place.file}) >= fewest_of_one_cause;
      causes_.push_back(cause_of(problem, are_enough));
      if (causes_.back()) of_one_[*causes_.back()].problems.push_back(&problem);
    }
    join_columns();
  }

  Diagnostics told() {
    Diagnostics told;
    for (std::size_t i = 0; i < causes_.size(); ++i) {
      const Diagnostic& problem = problems_[i];
      const OneCause* same = causes_[i] ? &of_one_.at(*causes_[i]) : nullptr;
      const std::size_t fewest = causes_[i] && causes_[i]->file.empty() ? 2 : fewest_of_one_cause;
      if (same == nullptr || same->problems.size() < fewest) {
        told.push_back(problem);
      } else if (same->problems.front() == &problem) {
        told.push_back(same->columns.size() > 1 ? as_one_setting(*causes_[i], same->problems, same->columns.size(),
                                                                 files_.find(causes_[i]->file)->name)
                                                : as_one(*causes_[i], same->problems, files_, mends_));
      }
    }
    return told;
  }

 private:
  // The cause of a problem that may have one with others.
  std::optional<Cause> cause_of(const Diagnostic& problem, bool are_enough) {
    if (problem.id.starts_with("heading/")) return Cause{problem.id, "", -1, problem.message + problem.hint, ""};
    if (!are_enough || problem.place.line == 0) return std::nullopt;
    const RereadFile* file = files_.find(problem.place.file);
    const int column = file == nullptr ? -1 : file->column_at(problem.place);
    return Cause{problem.id, problem.place.file, column, is_of_form(problem.id) ? "" : problem.message, ""};
  }

  // Columns of one file that one setting mends have one cause.
  void join_columns() {
    std::map<std::pair<std::string, std::string>, std::set<int>> columns;
    const auto setting_of = [this](const Cause& cause) {
      return mends_.of(cause.id, cause.file, cause.column).setting;
    };
    for (const auto& [cause, same] : of_one_) {
      if (std::string setting = setting_of(cause); !setting.empty())
        columns[{cause.file, setting}].insert(cause.column);
    }
    for (std::size_t i = 0; i < causes_.size(); ++i) {
      if (!causes_[i]) continue;
      const std::string setting = setting_of(*causes_[i]);
      const auto found = columns.find({causes_[i]->file, setting});
      if (setting.empty() || found->second.size() < 2) continue;
      causes_[i] = Cause{causes_[i]->id, causes_[i]->file, -1, "", setting};
      OneCause& joined = of_one_[*causes_[i]];
      joined.problems.push_back(&problems_[i]);
      joined.columns = found->second;
    }
  }

  const Diagnostics& problems_;
  RereadFiles files_;
  Mends mends_;
  std::vector<std::optional<Cause>> causes_;
  std::map<Cause, OneCause> of_one_;
};

}  // namespace

Diagnostics told_by_cause(const Diagnostics& problems, const EmptyMarks& marks, const Reread& files) {
  return Causes(problems, marks, files).told();
}

Diagnostics told_by_cause(const Book& book) {
  return told_by_cause(book.problems, book.settings.empty_marks,
                       [&book](const std::string& name) { return reread(book, name); });
}

}  // namespace driftwarden
