// SPDX-License-Identifier: MIT
#include "command/selection.hpp"

#include <algorithm>

#include "book/stamp_text.hpp"
#include "diagnostic/suggestion.hpp"

namespace driftwarden {
namespace {

void tell_unknown(const std::string& what, const std::string& name, const std::vector<std::string>& known,
                  Surroundings& surroundings) {
  tell(surroundings.err, {error("command/unknown-name", {"command line", 0, 0},
                                "the book has no " + what + " " + in_quotes(name), did_you_mean(name, known))});
}

}  // namespace

std::optional<std::set<TextId>> batches_named(const Book& book, const std::vector<std::string>& names,
                                              Surroundings& surroundings) {
  if (names.empty()) return std::set<TextId>{};
  std::set<TextId> in_book;
  for (const TextId batch : book.samples.batch) in_book.insert(batch);
  std::set<TextId> wanted;
  bool has_failed = false;
  for (const std::string& name : names) {
    const TextId id = book.texts.find(name);
    if (in_book.count(id) > 0) {
      wanted.insert(id);
      continue;
    }
    std::vector<std::string> known;
    for (const TextId batch : in_book) {
      if (batch != 0) known.push_back(book.texts.text(batch));
    }
    std::sort(known.begin(), known.end());
    tell_unknown("batch", name, known, surroundings);
    has_failed = true;
  }
  if (has_failed) return std::nullopt;
  return wanted;
}

std::optional<std::set<Row>> rows_named(const Book& book, const std::vector<std::string>& names,
                                        Surroundings& surroundings) {
  std::set<Row> wanted;
  bool has_failed = false;
  for (const std::string& name : names) {
    const std::optional<Row> row = sample_named(book, name, surroundings);
    if (row) wanted.insert(*row);
    has_failed |= !row.has_value();
  }
  if (has_failed) return std::nullopt;
  return wanted;
}

std::optional<Row> sample_named(const Book& book, const std::string& name, Surroundings& surroundings) {
  std::vector<std::string> known;
  for (Row row = 0; row < book.samples.size(); ++row) {
    if (book.samples.name[row] == name) return row;
  }
  constexpr std::size_t enough = 20000;  // a search among more would take too long for a hint
  for (Row row = 0; row < book.samples.size() && row < enough; ++row) known.emplace_back(book.samples.name[row]);
  tell_unknown("sample", name, known, surroundings);
  return std::nullopt;
}

std::optional<Selection> selected_samples(const OpenedBook& opened, const ScreenOptions& options,
                                          Surroundings& surroundings) {
  const Book& book = opened.book;
  const std::optional<std::set<TextId>> batches = batches_named(book, options.batches, surroundings);
  const std::optional<std::set<Row>> rows = rows_named(book, options.samples, surroundings);
  const bool has_days = !options.since.empty() || !options.until.empty();
  const std::optional<Day> since = as_of_day(options.since, book.settings.zone, surroundings);
  const std::optional<Day> until = as_of_day(options.until, book.settings.zone, surroundings);
  if (!batches || !rows || !since || !until) return std::nullopt;
  if (!options.since.empty() && !options.until.empty() && *since > *until) {
    tell(surroundings.err, {error("command/refused", {"command line", 0, 0},
                                  "--since " + date_text(*since) + " is later than --until " + date_text(*until),
                                  "exchange the two days")});
    return std::nullopt;
  }
  const auto is_wanted = [&](Row row) {
    if (!batches->empty() && batches->count(field(book.samples.batch, row, TextId{0})) == 0) return false;
    if (!rows->empty() && rows->count(row) == 0) return false;
    if (!has_days) return true;
    if (book.samples.started[row] == no_moment) return book.samples.kind[row] == SampleKind::sample;
    const Day day = local_day(book.samples.started[row], book.settings.zone);
    return (options.since.empty() || day >= *since) && (options.until.empty() || day <= *until);
  };
  Selection selected{{}, options.until.empty() ? opened.as_of : std::min(opened.as_of, *until)};
  selected.samples.reserve(book.samples.size());
  for (Row row = 0; row < book.samples.size(); ++row) {
    if (is_wanted(row)) selected.samples.push_back(row);
  }
  return selected;
}

}  // namespace driftwarden
