// SPDX-License-Identifier: MIT
#include "report/ahead_flow.hpp"

#include "quantity/number.hpp"
#include "quantity/rounding.hpp"
#include "report/budget_working.hpp"
#include "report/window_words.hpp"

namespace driftwarden {
namespace {

std::string percent(double ratio, int digits) { return rounded_figure(100 * ratio, digits) + " %"; }

// "beyond ±5 %", "below -2 % or above 10 %"
std::string limits_words(const DriftAhead& drift) {
  if (drift.limit_low == -drift.limit_high) return "beyond ±" + percent(drift.limit_high, 3);
  std::string text;
  if (!is_missing(drift.limit_low)) text = "below " + percent(drift.limit_low, 3);
  if (!is_missing(drift.limit_high)) text += (text.empty() ? "above " : " or above ") + percent(drift.limit_high, 3);
  return text;
}

std::string drift_words(const DriftAhead& drift) {
  const std::string uses = counted(drift.earlier.uses, "earlier use", "earlier uses");
  if (is_missing(drift.within)) return "not foretold: " + uses + " of the pump say too little, five are needed";
  std::string text =
      "within ±" + percent(drift.within, 2) + " in 95 % of its uses: " + uses + ", s = " + percent(drift.earlier.s, 2);
  if (drift.rule == nullptr) return text;
  const std::string chance = drift.beyond_limits < 1e-4 ? "less than 0.01 %" : percent(drift.beyond_limits, 2);
  return text + "; " + limits_words(drift) + ", which voids (" + drift.rule->full_name() + "), in " + chance;
}

std::string volume_words(const SampleOutlook& outlook) {
  const Budget& budget = outlook.rehearsed->budget;
  const FigureUncertainty& of = budget.about(BudgetFigure::volume);
  if (is_missing(of.expanded)) return "U not stated: an input that it leans on is missing; see below";
  const double volume = outlook.rehearsed->figures->measured_volume_l;
  std::string text = litres(volume) + (outlook.rehearsed->figures->is_conventional ? " as measured, in " : " in ") +
                     minutes_text(outlook.minutes) + ", with U = " + with_significant_digits(of.expanded, 2) + " L, " +
                     percent(of.expanded / volume, 2) + " (95 %)";
  if (is_missing(outlook.spare_minutes)) return text;
  const VolumeEnd* most = outlook.volume.most_end();
  const bool is_too_long = most != nullptr && outlook.spare_minutes > most->whole_minutes();
  return text + "; " + planned_minutes(outlook.spare_minutes) + " draw the least volume, " +
         litres(outlook.volume.least_volume()->volume_l) + ", with U to spare" +
         (is_too_long ? ", and are more than the most" : "");
}

// At which flow it is rehearsed: the display has steps.
std::string flow_rehearsed(const SampleOutlook& outlook) {
  const std::string made = rounded_figure(outlook.rehearsed->figures->pre_l_min, 4);
  const double meant = outlook.asked.sample.nominal_l_min;
  if (made == rounded_figure(meant, 4)) return "both at the flow that is meant";
  return "both at " + made + " L/min, for no step of the display is nearer to " + shortest(meant) + " L/min";
}

}  // namespace

std::string flow_section(const Book& book, const SampleOutlook& outlook) {
  const SampleAhead& sample = outlook.asked.sample;
  if (sample.pump == no_row) return {};
  std::string out = "\nFlow: " + book.instruments[sample.pump].name;
  if (sample.calibrator != no_row) out += " with " + book.instruments[sample.calibrator].name;
  out += "\n";
  for (const std::string& why : outlook.against) out += labelled("mind", why);
  out += labelled("drift", drift_words(outlook.drift));
  if (outlook.rehearsed == nullptr) return out + labelled("volume", "not foretold: " + outlook.why_not);
  out += labelled("volume", volume_words(outlook));
  out += labelled("", "As it would come out with one reading before and one after, " + flow_rehearsed(outlook) +
                          ", in the air that is expected. A drift widens it; more readings narrow it.");
  return out + budget_working(*outlook.rehearsed, book.settings.uncertainty);
}

}  // namespace driftwarden
