// SPDX-License-Identifier: MIT
#include "command/opened_book.hpp"

#include <algorithm>
#include <functional>
#include <map>
#include <ostream>
#include <thread>

#include "book/one_cause.hpp"
#include "book/stamp_text.hpp"
#include "command/output_file.hpp"
#include "command/progress.hpp"
#include "doubt/doubtful.hpp"
#include "report/terminal_text.hpp"

namespace driftwarden {
namespace {

// What a date with slashes may mean: "write 2026-11-23", "write 2026-04-03 or 2026-03-04".
std::string dates_hint(const std::string& text, const TimeZone& zone) {
  std::string meant;
  for (const DateOrder order : {DateOrder::day_first, DateOrder::month_first}) {
    Day day = no_day;
    if (!StampReader(zone, order).read_date(text, day) || meant == date_text(day)) continue;
    meant += (meant.empty() ? "" : " or ") + date_text(day);
  }
  return "write " + (meant.empty() ? "year-month-day, as 2026-09-21" : meant);
}

Diagnostics first_of_each_kind(const Diagnostics& diagnostics, std::size_t most_of_a_kind,
                               const std::string& way_to_all) {
  Diagnostics some;
  std::map<std::string, std::size_t> of_kind;
  for (const Diagnostic& diagnostic : diagnostics) {
    if (++of_kind[diagnostic.id] <= most_of_a_kind) some.push_back(diagnostic);
  }
  for (const auto& [id, count] : of_kind) {
    if (count <= most_of_a_kind) continue;
    some.push_back(remark(id, {}, "and " + std::to_string(count - most_of_a_kind) + " more of this kind", way_to_all));
  }
  return some;
}

}  // namespace

unsigned threads_of(const BookOptions& options) {
  return options.threads > 0 ? options.threads : std::max(1U, std::thread::hardware_concurrency());
}

int refuse(const Diagnostics& why, Surroundings& surroundings) {
  tell(surroundings.err, why);
  return cannot_be_used;
}

void tell(std::ostream& err, const Diagnostics& diagnostics) {
  for (const Diagnostic& diagnostic : diagnostics) err << for_terminal(to_text(diagnostic)) << '\n';
}

void tell_first(std::ostream& err, const Diagnostics& diagnostics) {
  constexpr std::size_t most_of_a_kind = 20;
  tell(err, first_of_each_kind(diagnostics, most_of_a_kind, "'driftwarden check --all' tells all of them"));
}

void tell_all(const Diagnostics& diagnostics, Surroundings& surroundings) {
  constexpr std::size_t most_of_a_kind = 200;
  if (!surroundings.err_is_terminal) return tell(surroundings.err, diagnostics);
  tell(surroundings.err, first_of_each_kind(diagnostics, most_of_a_kind,
                                            "'driftwarden check BOOK 2>FILE' writes all of them into a file"));
}

bool tell_over_the_book(const Book& book, const std::string& file, Surroundings& surroundings) {
  if (is_of_the_book(book, file)) return tell(surroundings.err, {over_the_book(file)}), true;
  std::vector<std::filesystem::path> shipped;
  for (const char* folder : {"rules", "plots"}) {
    std::error_code ignored;
    for (const auto& entry : std::filesystem::directory_iterator(surroundings.share / folder, ignored))
      shipped.push_back(entry.path());
  }
  if (is_among(shipped, file)) return tell(surroundings.err, {over_an_input(file)}), true;
  return false;
}

void tell_doubts(OpenedBook& opened, Surroundings& surroundings) {
  const Diagnostics doubts = doubts_of(opened.book, opened.screening->basis().samplers, opened.as_of);
  tell_first(surroundings.err, doubts);
  add_problems(opened.book, doubts);
}

std::optional<Day> as_of_day(const std::string& text, const TimeZone& zone, Surroundings& surroundings) {
  if (text.empty()) return local_day(surroundings.now, zone);
  Day day = no_day;
  StampReader reader(zone, DateOrder::iso);
  if (reader.read_date(text, day)) return day;
  StampFault why = reader.why_date(text);
  if (why.id == "time/slashes") why.hint = dates_hint(text, zone);  // no book.toml is asked here
  tell(surroundings.err, {error(why.id, {"command line", 0, 0}, why.message, why.hint)});
  return std::nullopt;
}

Result<Book> read_watched(const BookOptions& options, Surroundings& surroundings) {
  Progress progress(surroundings);
  return read_book(options.book, threads_of(options), std::ref(progress));
}

std::unique_ptr<OpenedBook> open_book(const BookOptions& options, Surroundings& surroundings) {
  Result<Book> book = read_watched(options, surroundings);
  if (!book) {
    tell(surroundings.err, book.faults());
    return nullptr;
  }
  tell_first(surroundings.err, told_by_cause(*book));
  const std::optional<Day> as_of = as_of_day(options.as_of, book->settings.zone, surroundings);
  Result<RuleSet> rules = read_rules(*book, surroundings.share / "rules");
  if (!rules) tell(surroundings.err, rules.faults());
  if (!rules || !as_of) return nullptr;
  tell(surroundings.err, rules->remarks);
  Diagnostics found;
  auto opened = put_together(*std::move(book), *std::move(rules), *as_of, threads_of(options), found);
  tell(surroundings.err, found);
  return opened;
}

}  // namespace driftwarden
