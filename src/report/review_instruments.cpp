// SPDX-License-Identifier: MIT
#include <algorithm>
#include <cmath>

#include "book/stamp_text.hpp"
#include "history/instrument_action.hpp"
#include "quantity/number.hpp"
#include "quantity/rounding.hpp"
#include "report/review_parts.hpp"
#include "verdict/cautions.hpp"

namespace driftwarden {
namespace {

constexpr Day far_future = 10000000;

std::string state_of(const InstrumentStanding& standing, Day as_of) {
  if (!standing.is_in_service) return "out of service";
  if (standing.newest == nullptr) return "no certificate";
  if (standing.due == no_day) return "nobody says when it is due";
  if (standing.due < as_of) return "overdue";
  return standing.due <= as_of + soon_days ? "due soon" : "in order";
}

void append_due_row(HtmlText& html, const ReviewPage& page, const InstrumentStanding& standing) {
  const Instrument& instrument = page.screening.book().instruments[standing.instrument];
  const std::string state = state_of(standing, page.as_of);
  html.open("tr", {{"class", state == "overdue" || state == "no certificate" ? "overdue" : "other"}});
  html.open("th", {{"scope", "row"}}).from_book(instrument.name).close();
  html.element(
      "td", instrument.kind == InstrumentKind::calibrator ? to_text(instrument.principle) : to_text(instrument.kind));
  html.element("td", state);
  html.element("td", date_text(standing.due));
  html.element("td", {{"class", "figure"}}, standing.due == no_day ? "" : std::to_string(standing.due - page.as_of));
  html.open("td");
  if (standing.newest != nullptr)
    html.from_book(standing.newest->name).text(", " + date_text(standing.newest->calibrated));
  html.close();
  html.element("td", {{"class", "figure"}}, std::to_string(standing.use.recent_samples));
  html.close().line_end();
}

void append_due_list(HtmlText& html, const ReviewPage& page) {
  std::vector<const InstrumentStanding*> listed;
  for (const InstrumentStanding& standing : page.review.instruments) {
    if (standing.has_to_be_calibrated(page.screening.book())) listed.push_back(&standing);
  }
  if (listed.empty()) {
    html.element("p", "No instrument of the book has to be calibrated.");
    return;
  }
  const auto order = [](const InstrumentStanding* standing) {
    if (!standing->is_in_service) return far_future;
    if (standing->newest == nullptr) return -far_future;
    return standing->due == no_day ? far_future - 1 : standing->due;
  };
  std::stable_sort(listed.begin(), listed.end(),
                   [&](const InstrumentStanding* a, const InstrumentStanding* b) { return order(a) < order(b); });
  open_table(html, "due", "When instruments are due",
             {"Instrument", "What", "State", "Due", "#Days left", "Newest certificate", "#Samples in these days"});
  html.open("tbody").line_end();
  for (const InstrumentStanding* standing : listed) append_due_row(html, page, *standing);
  html.close();
  close_table(html);
}

// "16 points; the last 3.8 % on 2026-11-12; tolerance -5 to 5 %; by its trend it leaves its tolerance on …"
std::string said_of(const SeriesHistory& history, const SignalLoad& load, const TimeZone& zone) {
  const Series& series = history.series;
  std::string text = counted(series.points.size(), "point", "points");
  if (const SeriesPoint* last = last_counted(series)) {
    const double limit = last->value < 0 ? series.tolerance.lower : series.tolerance.upper;
    text +=
        "; the last " +
        (is_missing(limit) ? with_significant_digits(last->value, 3) : with_decimals_beyond(last->value, 1, limit)) +
        " " + series.unit + " on " + date_text(day_of(series, *last, zone));
  }
  if (series.tolerance.is_stated()) {
    const auto end = [](double limit) { return is_missing(limit) ? "any" : shortest(limit); };
    text += "; tolerance " + end(series.tolerance.lower) + " to " + end(series.tolerance.upper) + " " + series.unit;
  }
  if (const std::string beyond = beyond_tolerance_said(series, zone); !beyond.empty()) text += "; " + beyond;
  if (history.resemblance.n > 0)
    text += "; correlation of each point with the one before it " + with_significant_digits(history.resemblance.phi, 2);
  if (const Bounds next = limits_of_next(history, load); !std::isnan(next.lower)) {
    text += "; a next point asks for an action below " + with_significant_digits(next.lower, 3) + " or above " +
            with_significant_digits(next.upper, 3) + " " + series.unit;
  } else if (series.counted() >= fewest_usual_points && !lacks_limits_of_next(history).empty()) {
    text += "; too few to say for a next point, for each resembles the one before it";
  }
  return text + "; " + history.forecast.said + ".";
}

std::string facts_of(const Instrument& instrument, const InstrumentStanding& standing) {
  std::string text = std::string(instrument.kind == InstrumentKind::calibrator ? to_text(instrument.principle) : "") +
                     (instrument.kind == InstrumentKind::calibrator ? " " : "") + std::string(to_text(instrument.kind));
  if (!standing.is_in_service) text += ", out of service since " + date_text(instrument.out_of_service);
  text += standing.use.recent_samples == 0
              ? ", not used in these days"
              : ", " + counted(standing.use.recent_samples, "sample", "samples") + " in these days";
  return text;
}

class Charts {
 public:
  Charts(HtmlText& html, const ReviewPage& page) : html_(html), page_(page), book_(page.screening.book()) {}

  void append() {
    all_of(InstrumentKind::calibrator, "How the calibrators have behaved");
    all_of(InstrumentKind::pump, "How the pumps have behaved");
  }

 private:
  // Thermometers and the like stand with the calibrators.
  void all_of(InstrumentKind kind, std::string_view heading) {
    std::vector<const InstrumentHistory*> found;
    for (const InstrumentHistory* history : page_.review.charted) {
      if ((book_.instruments[history->instrument].kind == InstrumentKind::pump) == (kind == InstrumentKind::pump))
        found.push_back(history);
    }
    if (found.empty()) return;
    std::stable_partition(found.begin(), found.end(), [&](const InstrumentHistory* history) {
      return page_.review.asks_about(history->instrument);
    });
    html_.element("h3", heading).open("div", {{"class", "instruments"}}).line_end();
    for (const InstrumentHistory* history : found) instrument(*history);
    html_.close().line_end();
  }

  void instrument(const InstrumentHistory& history) {
    const Instrument& instrument = book_.instruments[history.instrument];
    html_.open("article", {{"id", instrument_anchor(history.instrument)},
                           {"class", page_.review.asks_about(history.instrument) ? "asked" : "quiet"}});
    html_.element_from_book("h4", {}, instrument.name);
    html_.element("p", {{"class", "facts"}}, facts_of(instrument, page_.review.instruments[history.instrument]));
    if (!instrument.note.empty()) html_.element_from_book("p", {{"class", "facts"}}, instrument.note);
    if (const IntervalOpinion* opinion = recommended(history.interval); opinion != nullptr) {
      html_.open("p", {{"class", "facts"}}).text("Recommended interval: ").from_book(said_of(*opinion));
      html_.text("; " + std::string(caution_on_advice) + ".").close();
    }
    for (const SeriesHistory* series : reviewed_series(history)) figure(history.instrument, *series);
    html_.close().line_end();
  }

  void figure(Row row, const SeriesHistory& history) {
    html_.open("figure");
    for (const PageChart& chart : page_.charts) {
      if (chart.instrument == row && chart.series == history.series.name) html_.markup(chart.svg);
    }
    html_.open("figcaption").element("strong", history.series.title);
    html_.element("span", {{"class", "said"}}, ": " + said_of(history, page_.review.load, book_.settings.zone))
        .close()
        .close();
  }

  HtmlText& html_;
  const ReviewPage& page_;
  const Book& book_;
};

}  // namespace

void append_instruments(HtmlText& html, const ReviewPage& page) {
  open_section(html, 4, "instruments", "Pumps and calibrators");
  html.element("h3", "When they are due");
  append_due_list(html, page);
  append_kits(html, page);
  if (!page.why_no_charts.empty()) {
    html.element("p", {{"class", "note"}}, "There are no charts on this page: " + page.why_no_charts);
  } else {
    html.element(
        "p", {{"class", "lead"}},
        "The charts: most urgent first. Filled marks: points, with their expanded uncertainty where it is known; a "
        "diamond around one: a signal; crosses: void, not counted. Drawn out: centre line and trend; dashes: control "
        "limits; dash and dots: tolerance; tinted ground: the points that the limits come from. Where nothing is to be "
        "done, charts of one kind share one scale: larger marks lie beyond the tolerance, triangles on an edge off the "
        "scale.");
    if (!page.calibrator_key.empty())
      html.element("p", {{"class", "lead"}}, "Pumps were read with: " + page.calibrator_key + ".");
  }
  html.markup(page.chart_symbols);
  Charts(html, page).append();
  html.close().line_end();
}

}  // namespace driftwarden
