// SPDX-License-Identifier: MIT
#include "history/instrument_action.hpp"

#include "book/stamp_text.hpp"
#include "quantity/number.hpp"
#include "quantity/rounding.hpp"
#include "verdict/message.hpp"

namespace driftwarden {
namespace {

constexpr double out_of_tolerance = 3;  // urgency_of: from here on

// "certificate C-7" states what its calibrator is accepted by; anybody else has a limit of their own.
std::string limit_name(const Tolerance& tolerance) {
  if (tolerance.source.empty()) return "the limit";
  const bool is_certificate = tolerance.source.starts_with("certificate ");
  return std::string(is_certificate ? "the acceptance limit of " : "the limit of ") + tolerance.source;
}

// "Drift per use -7.1 % on 2026-11-12; the limit of common-practice/drift is -5 %"
std::string beyond_text(const SeriesHistory& history, const TimeZone& zone) {
  const Series& series = history.series;
  const SeriesPoint& last = *last_counted(series);
  const double limit = last.value < 0 ? series.tolerance.lower : series.tolerance.upper;
  return series.title + " " + with_decimals_beyond(last.value, 1, limit) + " " + series.unit + " on " +
         date_text(day_of(series, last, zone)) + "; " + limit_name(series.tolerance) + " is " + shortest(limit) + " " +
         series.unit;
}

class InstrumentActions {
 public:
  explicit InstrumentActions(const KnownInstrument& known)
      : known_(known),
        book_(known.screening.book()),
        instrument_(book_.instruments[known.standing.instrument]),
        zone_(book_.settings.zone) {}

  std::vector<ReviewAction> all() {
    if (instrument_.kind != InstrumentKind::pump) came_back_beyond();
    if (!known_.standing.is_in_service) return std::move(actions_);
    if (instrument_.kind == InstrumentKind::pump) is_beyond();
    calibration();
    on_its_way();
    findings();
    unusual();
    return std::move(actions_);
  }

 private:
  ReviewAction& add(ActionKind kind, std::string what, std::string why, bool is_recent = true) {
    actions_.push_back({kind,
                        ActionSubject::instrument,
                        instrument_.name,
                        std::move(what),
                        {{std::move(why), ""}},
                        known_.standing.instrument,
                        is_recent});
    return actions_.back();
  }

  void came_back_beyond() {
    const SeriesHistory* found = known_.history.find("as-found-error");
    if (found == nullptr || urgency_of(*found) < out_of_tolerance) return;
    const bool is_recent = known_.standing.newest->calibrated >= known_.recent_from;
    const bool is_balance = instrument_.kind == InstrumentKind::balance;
    add(ActionKind::look_back,
        is_balance
            ? "Look at every mass that was weighed on it since its previous certificate."
            : "Look at every sample that leaned on it since its previous certificate: driftwarden lookback lists them.",
        beyond_text(*found, zone_), is_recent)
        .origin.wrong_until = known_.standing.newest->calibrated;
  }

  // The calibrators whose error could have made the newest point what it is. It is not in a drift read with one of
  // them before and after.
  std::vector<LeansOnCalibrator> calibrators_behind(const Series& series) const {
    const SeriesPoint* last = last_counted(series);
    if (last == nullptr || last->calibrator == no_row || last->calibrator == last->calibrator_after) return {};
    const Day on = day_of(series, *last, zone_);
    std::vector<LeansOnCalibrator> behind{{last->calibrator, on}};
    if (last->calibrator_after != no_row) behind.push_back({last->calibrator_after, on});
    return behind;
  }

  // The action leans on one more series. What no calibrator explains, none explains of the whole.
  void leans_on(ReviewAction& action, const Series& series, bool is_first) {
    const std::vector<LeansOnCalibrator> behind = calibrators_behind(series);
    std::vector<LeansOnCalibrator>& error = action.origin.error;
    if (behind.empty() || (!is_first && error.empty())) {
      error.clear();
    } else {
      error.insert(error.end(), behind.begin(), behind.end());
    }
  }

  // The samples of the last phase whose points lie beyond the tolerance.
  static void add_spoilt(ReviewAction& action, const Series& series) {
    if (series.phases.empty()) return;
    const Phase& phase = series.phases.back();
    for (std::size_t i = phase.first; i < phase.first + phase.count; ++i) {
      const SeriesPoint& point = series.points[i];
      if (!is_missing(point.counted()) && driftwarden::is_beyond(point.value, series.tolerance))
        action.origin.spoilt.push_back(point.from);
    }
  }

  void is_beyond() {
    for (const SeriesHistory* series : reviewed_series(known_.history)) {
      if (series->series.name == "as-found-error" || urgency_of(*series) < out_of_tolerance) continue;
      const std::string why = beyond_text(*series, zone_);
      if (is_out_) {
        actions_.back().why.push_back({why, ""});
      } else {
        add(ActionKind::take_out, "Take it out of use until somebody has found out why and set it right.", why,
            known_.standing.use.recent_samples > 0);
      }
      leans_on(actions_.back(), series->series, !is_out_);
      add_spoilt(actions_.back(), series->series);
      is_out_ = true;
    }
  }

  void calibration() {
    const InstrumentStanding& standing = known_.standing;
    if (!standing.has_to_be_calibrated(book_)) return;
    if (standing.newest == nullptr) {
      add(ActionKind::find_certificate, "Add its certificate to the book, or have it calibrated before it is used.",
          "The book holds no certificate of it", standing.use.recent_samples > 0);
    } else if (standing.due != no_day && standing.due < known_.as_of) {
      std::string why = "It was due on " + date_text(standing.due) + ", " +
                        counted(static_cast<std::size_t>(known_.as_of - standing.due), "day", "days") + " ago";
      if (standing.use.overdue_samples > 0)
        why += "; " + counted(standing.use.overdue_samples, "sample has", "samples have") + " leaned on it since";
      add(ActionKind::recalibrate, "Have it calibrated before it is used again.", why);
    } else if (standing.due != no_day && standing.due <= known_.as_of + soon_days) {
      add(ActionKind::recalibrate_soon, "Have it calibrated by then, or put another in its place.",
          "It is due on " + date_text(standing.due))
          .by = standing.due;
    }
  }

  void on_its_way() {
    if (is_out_ || !known_.standing.is_worth_a_line(book_)) return;
    for (const SeriesHistory* series : reviewed_series(known_.history)) {
      if (!series->forecast.crossing || series->forecast.trend->p > known_.load.chance()) continue;
      const Day earliest = day_of(series->series, series->forecast.crossing->earliest, zone_);
      if (earliest > known_.as_of + soon_days) continue;
      ReviewAction& action =
          add(ActionKind::adjust_soon, what_to_do_by(earliest), series->series.title + ": " + series->forecast.said);
      action.by = std::max(earliest, known_.as_of);
      leans_on(action, series->series, true);
      return;
    }
  }

  // No deadline lies before today.
  std::string what_to_do_by(Day earliest) const {
    if (earliest > known_.as_of) return "Adjust it, or put another in its place, before " + date_text(earliest) + ".";
    return "It may be beyond it already: check it before it is used again, and adjust it.";
  }

  // Rules about it: what is known already has got another reason; what isn't is to be watched.
  void findings() {
    if (known_.findings == nullptr || !known_.standing.is_worth_a_line(book_)) return;
    for (const SubjectFinding& finding : known_.findings->findings) {
      const Rule& rule = known_.screening.rules().rules[finding.rule];
      const Reason reason{message_of(known_.screening, finding), rule.full_name()};
      const std::string_view measure = measure_of(rule).name;
      ReviewAction* known = nullptr;
      for (ReviewAction& action : actions_) {
        const bool is_of_due =
            measure == "due" && (action.kind == ActionKind::recalibrate || action.kind == ActionKind::recalibrate_soon);
        const bool is_of_error = measure == "as-found.error" && action.kind == ActionKind::look_back;
        if (is_of_due || is_of_error || action.kind == ActionKind::watch) known = &action;
      }
      if (known == nullptr) known = &add(ActionKind::watch, "Look at its chart before it goes out again.", "");
      Reason& first = known->why.front();
      // That it is past due has been said, with the day; how far it may be past due would be more.
      if (measure == "due" && known->kind == ActionKind::recalibrate && finding.judgement.limit == 0) {
        first.rule = reason.rule;
        continue;
      }
      if (first.said.empty()) known->why.clear();
      known->why.push_back(reason);
    }
  }

  // It behaves otherwise than it did, and so rarely by chance that the page may say so.
  void unusual() {
    if (!actions_.empty()) return;
    for (const BehaviourTest& signal : known_.signals) {
      const std::string why = said_of(signal, zone_);
      const bool is_first = actions_.empty();
      if (is_first) {
        add(ActionKind::watch, "Look at its chart before it goes out again.", why);
      } else {
        actions_.back().why.push_back({why, ""});
      }
      leans_on(actions_.back(), signal.series->series, is_first);
    }
  }

  const KnownInstrument& known_;
  const Book& book_;
  const Instrument& instrument_;
  const TimeZone& zone_;
  std::vector<ReviewAction> actions_;
  bool is_out_ = false;
};

}  // namespace

std::vector<const SeriesHistory*> reviewed_series(const InstrumentHistory& history) {
  std::vector<const SeriesHistory*> found;
  for (const std::string_view name : names_asked_about) {
    if (name == "pre-flow" && !found.empty()) continue;
    const SeriesHistory* series = history.find(name);
    if (series != nullptr && series->series.is_charted && !series->series.points.empty()) found.push_back(series);
  }
  return found;
}

std::vector<ReviewAction> actions_about(const KnownInstrument& known) { return InstrumentActions(known).all(); }

}  // namespace driftwarden
