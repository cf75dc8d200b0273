// SPDX-License-Identifier: MIT
#include "book/heading_guess.hpp"

#include <algorithm>
#include <array>

#include "book/timestamp.hpp"
#include "diagnostic/letters.hpp"
#include "diagnostic/suggestion.hpp"

namespace driftwarden {
namespace {

enum class Look { other, date, clock, moment };

// What people call a column, beside its own name. Common practice, and no more than a hint.
struct OtherName {
  std::string_view theirs;
  std::string_view ours;
};
constexpr std::array<OtherName, 17> other_names{{{"remarks", "note"},
                                                 {"remark", "note"},
                                                 {"comments", "note"},
                                                 {"comment", "note"},
                                                 {"operator", "by"},
                                                 {"technician", "by"},
                                                 {"initials", "by"},
                                                 {"flow", "reading"},
                                                 {"meter", "calibrator"},
                                                 {"sn", "serial"},
                                                 {"laboratory", "issuer"},
                                                 {"cassette", "medium"},
                                                 {"filter", "medium"},
                                                 {"tube", "medium"},
                                                 {"true", "reference"},
                                                 {"indicated", "as left"},
                                                 {"rh", "humidity"}}};

std::vector<std::string> words_of_heading(const std::string& name) {
  std::vector<std::string> words{""};
  for (const char c : in_small_letters(name)) {
    const bool is_word = (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || static_cast<unsigned char>(c) >= 0x80;
    if (c == '/') continue;  // "S/N" is one word
    if (is_word) words.back() += c;
    if (!is_word && !words.back().empty()) words.emplace_back();
  }
  return words;
}

Look look_of(const std::string& cell) {
  const auto has = [&cell](const char* any) { return cell.find_first_of(any) != std::string::npos; };
  if (!has("0123456789")) return Look::other;
  const bool has_clock = cell.find(':') != std::string::npos;
  const bool has_date =
      std::count_if(cell.begin(), cell.end(), [](char c) { return c == '.' || c == '/' || c == '-'; }) >= 2;
  if (has_clock) return has_date ? Look::moment : Look::clock;
  return has_date ? Look::date : Look::other;
}

// What nearly all cells look like: of a column of dates an empty one or a word may be another.
Look look_of(const std::vector<std::string>& cells) {
  for (const Look look : {Look::date, Look::clock, Look::moment}) {
    const auto count =
        std::count_if(cells.begin(), cells.end(), [look](const std::string& it) { return look_of(it) == look; });
    if (count > 0 && static_cast<std::size_t>(count) * 4 >= cells.size() * 3) return look;
  }
  return Look::other;
}

class Guesser {
 public:
  Guesser(const TableSpec& spec, const std::set<std::size_t>& taken) : spec_(spec) {
    for (std::size_t f = 0; f < spec.fields.size(); ++f) {
      if (!taken.contains(f)) free_.push_back(f);
      const bool is_free_moment = !taken.contains(f) && spec.fields[f].type == CellType::moment;
      if (is_free_moment) dates_.push_back(f), clocks_.push_back(f);
    }
  }

  std::string guess(const UnknownColumn& column) {
    const Heading heading = split_heading(column.heading);
    const Look look = look_of(column.cells);
    if (look == Look::date || look == Look::clock || look == Look::moment) return of_time(look, heading.name);
    std::string ours = heading.unit ? by_unit(heading) : by_name(heading.name, CellType::quantity);
    return ours;
  }

 private:
  std::string take(std::size_t field) {
    std::erase(free_, field);
    return std::string(spec_.fields[field].name);
  }

  // Moments take their dates and their times of day in the order in which they stand.
  std::string of_time(Look look, const std::string& name) {
    const auto first = [](std::vector<std::size_t>& fields) {
      const std::size_t field = fields.front();
      fields.erase(fields.begin());
      return field;
    };
    if (look == Look::clock) return clocks_.empty() ? "" : take(first(clocks_)) + " time";
    if (dates_.empty()) return date_alone(name);
    const std::string moment = take(first(dates_));
    if (look == Look::date) return moment + " date";
    std::erase_if(clocks_, [&](std::size_t f) { return spec_.fields[f].name == moment; });
    return moment;
  }
  // Of a table of dates without a time of day: the one that has to be there.
  std::string date_alone(const std::string& name) {
    if (std::string near = by_name(name, CellType::moment); !near.empty()) return near;
    for (const std::size_t field : free_) {
      const bool is_it = spec_.fields[field].type == CellType::date && spec_.fields[field].is_required;
      if (is_it) return take(field);
    }
    return {};
  }

  // Among the columns that are not of a type.
  std::string by_name(const std::string& name, CellType not_of) {
    std::vector<std::string_view> names;
    for (const std::size_t field : free_) {
      if (spec_.fields[field].type != not_of) names.push_back(spec_.fields[field].name);
    }
    std::string found = nearest(name, names);
    const std::vector<std::string> words = words_of_heading(name);
    for (const std::string_view ours : names) {
      if (found.empty() && std::find(words.begin(), words.end(), ours) != words.end()) found = ours;
    }
    for (const OtherName& other : other_names) {
      const bool is_free = std::find(names.begin(), names.end(), other.ours) != names.end();
      if (found.empty() && is_free && std::find(words.begin(), words.end(), other.theirs) != words.end())
        found = other.ours;
    }
    for (const std::size_t field : free_) {
      if (!found.empty() && spec_.fields[field].name == found) return take(field);
    }
    return {};
  }

  bool takes_unit(const FieldSpec& field, const std::string& unit) const {
    if (field.type != CellType::quantity) return false;
    const auto is_of = [&unit](Dimension dimension) { return unit_named(unit, dimension).has_value(); };
    return is_of(field.dimension) || std::any_of(field.or_dimensions.begin(), field.or_dimensions.end(), is_of);
  }
  std::string by_unit(const Heading& heading) {
    std::vector<std::size_t> fitting;
    std::vector<std::size_t> needed;
    for (const std::size_t field : free_) {
      if (!takes_unit(spec_.fields[field], *heading.unit)) continue;
      fitting.push_back(field);
      if (spec_.fields[field].is_required) needed.push_back(field);
    }
    std::swap(free_, fitting);
    std::string named = by_name(heading.name, CellType::text);
    std::swap(free_, fitting);
    if (!named.empty()) std::erase_if(free_, [&](std::size_t field) { return spec_.fields[field].name == named; });
    if (named.empty() && needed.size() == 1) named = take(needed.front());
    return named;
  }

  const TableSpec& spec_;
  std::vector<std::size_t> free_;
  std::vector<std::size_t> dates_;
  std::vector<std::size_t> clocks_;
};

bool are_read(DateOrder order, const std::vector<std::string>& cells) {
  const TimeZone utc = TimeZone::utc();
  StampReader reader(utc, order);
  return std::all_of(cells.begin(), cells.end(), [&reader](const std::string& cell) {
    Moment moment = no_moment;
    Day day = no_day;
    return reader.read(cell, moment) || reader.read_date(cell, day);
  });
}

}  // namespace

std::string HeadingGuess::table_line() const { return '"' + theirs + "\" = \"" + ours + '"'; }

std::vector<HeadingGuess> guessed_headings(const TableSpec& spec, const std::set<std::size_t>& taken,
                                           const std::vector<UnknownColumn>& unknown) {
  Guesser guesser(spec, taken);
  std::vector<HeadingGuess> guesses;
  for (const UnknownColumn& column : unknown) {
    const std::string ours = guesser.guess(column);
    const std::string theirs = split_heading(column.heading).name;
    const bool can_be_written = theirs.find_first_of("\"\\\n\r") == std::string::npos;
    if (!ours.empty() && can_be_written) guesses.push_back({theirs, ours});
  }
  return guesses;
}

std::string only_order_of(const std::vector<std::string>& cells) {
  if (cells.empty() || are_read(DateOrder::iso, cells)) return {};
  const bool day = are_read(DateOrder::day_first, cells);
  const bool month = are_read(DateOrder::month_first, cells);
  if (day == month) return {};
  return day ? "day first" : "month first";
}

bool fits_both_orders(const std::vector<std::string>& cells) {
  return !cells.empty() && !are_read(DateOrder::iso, cells) && are_read(DateOrder::day_first, cells) &&
         are_read(DateOrder::month_first, cells);
}

}  // namespace driftwarden
