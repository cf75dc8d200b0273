// SPDX-License-Identifier: MIT
#include <algorithm>
#include <filesystem>
#include <ostream>

#include "command/opened_book.hpp"
#include "diagnostic/suggestion.hpp"
#include "history/instrument_action.hpp"
#include "history/instrument_history.hpp"
#include "outside/whole_file.hpp"
#include "outside/write_fault.hpp"
#include "plot/pictures.hpp"
#include "quantity/rounding.hpp"
#include "report/history_csv.hpp"
#include "report/history_json.hpp"
#include "report/terminal_text.hpp"
#include "verdict/cautions.hpp"
#include "workshop/gnuplot_run.hpp"

namespace driftwarden {
namespace {

namespace fs = std::filesystem;

// The instruments named, in the book's order; all where none is. Nothing (told, with the nearest name) for an unknown
// one.
std::optional<std::vector<Row>> instruments_named(const Book& book, const std::vector<std::string>& names,
                                                  Surroundings& surroundings) {
  std::vector<std::string> known;
  for (const Instrument& instrument : book.instruments) known.push_back(instrument.name);
  bool has_failed = false;
  for (const std::string& name : names) {
    if (std::find(known.begin(), known.end(), name) != known.end()) continue;
    tell(surroundings.err, {error("command/unknown-name", {"command line", 0, 0},
                                  "the book has no instrument " + in_quotes(name), did_you_mean(name, known))});
    has_failed = true;
  }
  if (has_failed) return std::nullopt;
  std::vector<Row> rows;
  for (Row row = 0; row < known.size(); ++row) {
    if (names.empty() || std::find(names.begin(), names.end(), known[row]) != names.end()) rows.push_back(row);
  }
  return rows;
}

bool write_data(const fs::path& folder, const Screening& screening, const std::vector<InstrumentHistory>& histories,
                Day as_of, const ChartChoices& choices, Surroundings& surroundings) {
  std::error_code failure;
  fs::create_directories(folder, failure);
  Diagnostics faults;
  if (failure) faults = {unwritable(folder, failure.value())};
  if (faults.empty()) faults = write_whole(folder / "history.csv", history_csv(screening, histories));
  if (faults.empty()) faults = write_whole(folder / "history.json", history_json(screening, histories, as_of, choices));
  tell(surroundings.err, faults);
  return faults.empty();
}

// "Pre flow, from nominal, 16 points, 12 signals, 1 point beyond the tolerance, on 2026-11-12; no trend that stands out
// from chance"
std::string summary_of(const SeriesHistory& history, const TimeZone& zone) {
  std::size_t signals = 0;
  for (const ControlChart& chart : history.charts)
    signals += chart.kind == ChartKind::individuals ? chart.signals.size() : 0;
  const std::string beyond = beyond_tolerance_said(history.series, zone);
  return history.series.title + ", " + counted(history.series.points.size(), "point", "points") + ", " +
         counted(signals, "signal", "signals") + (beyond.empty() ? "" : ", " + beyond) + "; " + history.forecast.said;
}

// "  advised interval: 456 d (staircase), 365 d (control-chart); advice, applied by nobody but you", and which to go
// by. Nothing where no method has a figure.
std::string advice_of(const InstrumentHistory& history) {
  std::string advised;
  for (const IntervalOpinion& opinion : history.interval) {
    if (is_missing(opinion.advice_days)) continue;
    advised += (advised.empty() ? "" : ", ") +
               (opinion.advice_days > 0 ? with_decimals(opinion.advice_days, 0) + " d" : "now") + " (" +
               opinion.method + ")";
  }
  if (advised.empty()) return "";
  return "  advised interval: " + advised + "; " + std::string(caution_on_advice) +
         "\n  recommended: " + said_of(*recommended(history.interval)) + "\n";
}

// The series that says most of each instrument; of the others, what lies beyond its tolerance; advice on its interval.
void tell_summary(const Book& book, const std::vector<InstrumentHistory>& histories, std::ostream& out) {
  const TimeZone& zone = book.settings.zone;
  for (const InstrumentHistory& history : histories) {
    const std::vector<const SeriesHistory*> told = reviewed_series(history);
    out << book.instruments[history.instrument].name << ": "
        << (told.empty() ? "nothing is known of it" : summary_of(*told.front(), zone));
    for (std::size_t i = 1; i < told.size(); ++i) {
      const std::string beyond = beyond_tolerance_said(told[i]->series, zone);
      if (!beyond.empty()) out << "; " << told[i]->series.title << ": " << beyond;
    }
    out << '\n' << advice_of(history);
  }
}

}  // namespace

int run_history(const HistoryOptions& options, Surroundings& surroundings) {
  const std::unique_ptr<OpenedBook> opened = open_book(options.book, surroundings);
  if (opened == nullptr) return cannot_be_used;
  for (const char* name : {"", "history.csv", "history.json"}) {
    if (tell_over_the_book(opened->book, (fs::path(options.out) / name).string(), surroundings)) return cannot_be_used;
  }
  const std::optional<std::vector<Row>> instruments =
      instruments_named(opened->book, options.instruments, surroundings);
  const Result<ChartChoices> choices = chart_choices(opened->book.settings.history);
  if (!choices) tell(surroundings.err, choices.faults());
  const Result<Theme> theme = read_theme(surroundings.share, options.theme);
  if (!theme) tell(surroundings.err, theme.faults());
  if (!choices || !instruments || !theme) return cannot_be_used;
  const std::vector<InstrumentHistory> histories =
      histories_of(*opened->screening, *instruments, opened->as_of, *choices);
  if (!write_data(options.out, *opened->screening, histories, opened->as_of, *choices, surroundings))
    return cannot_be_used;
  tell_summary(opened->book, histories, surroundings.out);
  const Pictures pictures = pictures_of(*opened->screening, histories, *choices, *theme, format_named(options.format));
  const Diagnostics failures = draw_pictures(pictures.script, pictures.files, options.out);
  tell(surroundings.err, failures);
  if (!failures.empty()) return cannot_be_used;
  surroundings.out << options.out << ": history.csv, history.json, " << pictures.files.size() << " pictures\n\n"
                   << wrapped(cautions, 0, table_width);
  return opened->has_faults() ? cannot_be_used : all_is_well;
}

}  // namespace driftwarden
