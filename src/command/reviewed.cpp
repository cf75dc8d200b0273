// SPDX-License-Identifier: MIT
#include "command/reviewed.hpp"

#include <algorithm>
#include <filesystem>
#include <numeric>

#include "book/book_table.hpp"
#include "book/stamp_text.hpp"
#include "history/instrument_action.hpp"
#include "outside/scratch_place.hpp"
#include "plot/page_charts.hpp"
#include "quantity/rounding.hpp"
#include "report/inline_svg.hpp"
#include "report/review_page.hpp"
#include "system/digest.hpp"
#include "workshop/gnuplot_run.hpp"

namespace driftwarden {
namespace {

namespace fs = std::filesystem;

constexpr std::size_t most_charted_instruments = 60;

// Nothing (told) where one of them is not any more as it was read. One that could not be read has no digest.
std::optional<std::vector<InputFile>> inputs_of(const Book& book, Surroundings& surroundings) {
  std::vector<InputFile> inputs;
  for (const std::string& name : files_of(book)) {
    const Result<HeldFile> file = read_again(book, name);
    if (file) {
      inputs.push_back({name, file->bytes().size(), sha256_of(file->bytes())});
    } else if (was_read(book, name)) {
      tell(surroundings.err, file.faults());
      return std::nullopt;
    } else {
      inputs.push_back({name, 0, ""});
    }
  }
  return inputs;
}

std::vector<WantedChart> wanted_charts(const Review& review) {
  std::vector<WantedChart> wanted;
  for (std::size_t i = 0; i < std::min(review.charted.size(), most_charted_instruments); ++i) {
    for (const SeriesHistory* series : reviewed_series(*review.charted[i]))
      if (has_a_chart(series->series))
        wanted.push_back({review.charted[i], series, !review.asks_about(review.charted[i]->instrument)});
  }
  return wanted;
}

void put(ReviewPage& page, const PageCharts::Chart& chart, std::string picture) {
  page.charts.push_back({chart.of->instrument, chart.series->series.name, std::move(picture)});
}

// Draws the charts into the page; where that can't be done, why.
Diagnostics draw(ReviewPage& page, const PageCharts& charts) {
  const Book& book = page.screening.book();
  std::vector<std::string> files;
  for (const PageCharts::Chart& chart : charts.charts) files.push_back(chart.file);
  const ScratchPlace place;
  if (place.path().empty()) return {place.fault()};
  Diagnostics failures = draw_pictures(charts.script, files, place.path());
  if (!failures.empty()) return failures;
  for (const PageCharts::Chart& chart : charts.charts) {
    const std::string label = "Chart of " + book.instruments[chart.of->instrument].name + ": " +
                              chart.series->series.title + "; described below";
    const Result<HeldFile> drawn = HeldFile::open(place.path() / chart.file, chart.file);
    if (!drawn) return drawn.faults();
    std::optional<InlineSvg> svg = inline_svg(drawn->bytes(), label);
    if (!svg)
      return {error("plot/failed", {chart.file, 0, 0}, "gnuplot drew a picture that can't be read", "draw it again")};
    if (page.chart_symbols.empty()) page.chart_symbols = svg->symbols;
    put(page, chart, std::move(svg->picture));
  }
  return {};
}

// Puts the charts into the page. Where there is nothing to draw them with, it says why it has none; whatever else goes
// wrong with them is returned as well, and then there is no page.
Diagnostics add_charts(ReviewPage& page, const Theme& look, ReviewCharts wanted) {
  if (wanted == ReviewCharts::unasked) {
    page.why_no_charts = "none were asked for.";
    return {};
  }
  const PageCharts charts = page_charts(wanted_charts(page.review), page.screening.book(), look, page.review.load);
  page.calibrator_key = charts.calibrator_key;
  Diagnostics failures;
  if (wanted == ReviewCharts::left_out) {
    for (const PageCharts::Chart& chart : charts.charts) put(page, chart, std::string(no_drawing));
    if (!charts.charts.empty()) page.chart_symbols = std::string(no_drawing) + "\n";
  } else if (!charts.charts.empty()) {
    failures = wanted == ReviewCharts::none ? Diagnostics{no_gnuplot()} : draw(page, charts);
  }
  if (failures.empty()) return failures;
  page.charts.clear();
  page.chart_symbols.clear();
  page.calibrator_key.clear();
  page.why_no_charts = failures.front().message + "; " + failures.front().hint + ".";
  return failures;
}

}  // namespace

// "2026-11-09 to 2026-11-16: 5 actions, 18 open from before; 24 samples and blanks, 2 void, …"
std::string summary_of(const Review& review) {
  const std::size_t recent = review.recent_actions();
  return date_text(review.period.from) + " to " + date_text(review.period.to) + ": " + std::to_string(recent) +
         (recent == 1 ? " action, " : " actions, ") + std::to_string(review.actions.size() - recent) +
         " open from before; " + counted(review.recent.samples, "sample", "samples and blanks") + ": " +
         std::to_string(review.recent.valid) + " valid, " + std::to_string(review.recent.qualified) + " qualified, " +
         std::to_string(review.recent.undecided) + " undecided, " + std::to_string(review.recent.void_) + " void";
}

namespace {

// The three themes, or nothing (told).
struct Themes {
  Theme light, dark, print;
};
std::optional<Themes> read_themes(Surroundings& surroundings) {
  const Result<Theme> light = read_theme(surroundings.share, "light");
  const Result<Theme> dark = read_theme(surroundings.share, "dark");
  const Result<Theme> print = read_theme(surroundings.share, "print");
  for (const Result<Theme>* theme : {&light, &dark, &print}) {
    if (!*theme) tell(surroundings.err, theme->faults());
  }
  if (!light || !dark || !print) return std::nullopt;
  return Themes{*light, *dark, *print};
}

}  // namespace

std::optional<WorkedReview> worked_review(const OpenedBook& opened, int days, Surroundings& surroundings) {
  const Result<ChartChoices> chart = chart_choices(opened.book.settings.history);
  if (!chart) {
    tell(surroundings.err, chart.faults());
    return std::nullopt;
  }
  std::vector<Row> all(opened.book.instruments.size());
  std::iota(all.begin(), all.end(), Row{0});
  WorkedReview worked;
  worked.histories = histories_of(*opened.screening, all, opened.as_of, *chart);
  worked.review = review_of(*opened.screening, worked.histories, opened.as_of, days);
  return worked;
}

std::optional<Reviewed> reviewed(const OpenedBook& opened, const ReviewChoices& choices, Surroundings& surroundings) {
  const std::optional<WorkedReview> worked = worked_review(opened, choices.days, surroundings);
  const std::optional<Themes> themes = worked ? read_themes(surroundings) : std::nullopt;
  const auto inputs = themes ? inputs_of(opened.book, surroundings) : std::nullopt;
  if (!inputs) return std::nullopt;
  const auto& [histories, review] = *worked;
  ReviewPage page{*opened.screening, review, histories, opened.as_of, surroundings.version, *inputs, {}, {}, {}, {}, {},
                  choices.paper};
  page.chart_style = chart_style(themes->light, themes->dark, themes->print);
  Diagnostics why_no_charts = add_charts(page, themes->light, choices.charts);
  if (!why_no_charts.empty() && !is_no_gnuplot(why_no_charts)) {
    tell(surroundings.err, why_no_charts);
    return std::nullopt;
  }
  return Reviewed{review_html(page), summary_of(review), review.recent.open > 0, std::move(why_no_charts)};
}

}  // namespace driftwarden
