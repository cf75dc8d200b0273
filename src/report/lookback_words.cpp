// SPDX-License-Identifier: MIT
#include "report/lookback_words.hpp"

#include <algorithm>
#include <cmath>

#include "book/stamp_text.hpp"
#include "quantity/number.hpp"
#include "quantity/rounding.hpp"

namespace driftwarden {
namespace {

std::string_view name_of_certificate(const Book& book, std::int32_t certificate) {
  return book.certificates[static_cast<std::size_t>(certificate)].name;
}

}  // namespace

std::string batch_of(const Book& book, Row sample) {
  return book.texts.text(field(book.samples.batch, sample, TextId{0}));
}

std::string date_text_or(Day day, std::string_view otherwise) {
  return day == no_day ? std::string(otherwise) : date_text(day);
}

std::string_view bearing_word(Bearing bearing) {
  switch (bearing) {
    case Bearing::on_the_volume:
      return "volume";
    case Bearing::on_drift_too:
      return "drift and volume";
    case Bearing::incomplete:
      return "incomplete";
    case Bearing::on_checks_only:
      break;
  }
  return "checks";
}

std::string_view bearing_sentence(Bearing bearing) {
  switch (bearing) {
    case Bearing::on_the_volume:
      return "Same calibrator before and after: the drift stands, the volume does not.";
    case Bearing::on_drift_too:
      return "Only one of the two sets leans on it, or each by another certificate: drift and volume both move.";
    case Bearing::incomplete:
      return "The set before or after sampling is lacking: no drift was known, and none is now.";
    case Bearing::on_checks_only:
      break;
  }
  return "Neither the pre nor the post set leans on it: flow, drift and volume stand, only other checks move.";
}

std::string_view change_word(Change change) {
  constexpr std::string_view words[] = {"verdict", "figures", "nothing", "open before"};
  return words[static_cast<std::size_t>(change)];
}

std::string_view change_heading(Change change) {
  constexpr std::string_view headings[] = {"The verdict changes", "The verdict stays, figures or findings change",
                                           "Nothing changes", "Undecided before, for want of something else"};
  return headings[static_cast<std::size_t>(change)];
}

std::vector<const LookedBackSample*> samples_with(const Lookback& lookback, Change change) {
  std::vector<const LookedBackSample*> found;
  for (const LookedBackSample& looked : lookback.samples) {
    if (looked.change() == change) found.push_back(&looked);
  }
  return found;
}

std::string leans_text(const Book& book, const Lookback& lookback, const LookedBackSample& looked,
                       std::string_view separator) {
  std::string text;
  for (const LeaningSet& set : looked.sets) {
    if (!text.empty()) text += separator;
    text += to_text(set.stage);
    if (set.calibrator != lookback.window.instrument) text += " via " + book.instruments[set.calibrator].name;
  }
  return text;
}

std::string tolerance_text(const Tolerance& tolerance) {
  if (!tolerance.is_stated()) return "not stated";
  const std::string upper = shortest(tolerance.upper);
  if (tolerance.lower == -tolerance.upper) return "±" + upper + " %";
  if (is_missing(tolerance.lower) || std::isinf(tolerance.lower)) return "up to " + upper + " %";
  if (is_missing(tolerance.upper) || std::isinf(tolerance.upper)) return "from " + shortest(tolerance.lower) + " %";
  return shortest(tolerance.lower) + " to " + upper + " %";
}

std::string as_found_text(const LookbackWindow& window) {
  const double limit = window.as_found_percent < 0 ? window.tolerance.lower : window.tolerance.upper;
  const bool is_limited = window.is_beyond_tolerance() && std::isfinite(limit);
  return (is_limited ? with_decimals_beyond(window.as_found_percent, 1, limit)
                     : with_decimals(window.as_found_percent, 1)) +
         " %" +
         (is_missing(window.as_found_expanded_percent)
              ? ""
              : " (U " + with_significant_digits(window.as_found_expanded_percent, 2) + " %)") +
         " at " + shortest(window.worst.nominal) + " L/min";
}

std::string as_left_text(const Certificate& certificate) {
  double low = missing;
  double high = missing;
  for (const CalibratedPoint& point : points_of(certificate)) {
    const double percent = point.error(Found::as_left);
    low = std::fmin(low, percent);
    high = std::fmax(high, percent);
  }
  return "left with errors from " + with_decimals(low, 1) + " to " + with_decimals(high, 1) + " %";
}

std::string_view supposition_sentence(Supposition supposition) {
  return supposition == Supposition::sudden
             ? "the whole error as found, at once on the first day of the window and held"
             : "from the error as left to the error as found, by the same amount each day";
}

std::string drift_text(const JudgedSample& judged) {
  const double percent = 100 * judged.drift;
  return is_missing(judged.drift_limit) ? with_decimals(percent, 1)
                                        : with_decimals_beyond(percent, 1, 100 * judged.drift_limit);
}

std::vector<const ToldFinding*> findings_only_in(const JudgedSample& here, const JudgedSample& there) {
  std::vector<const ToldFinding*> found;
  for (const ToldFinding& finding : here.findings) {
    if (!holds(there, finding)) found.push_back(&finding);
  }
  return found;
}

std::string leaning_text(const Book& book, const LeaningCertificate& leaning) {
  const Certificate& certificate = book.certificates[static_cast<std::size_t>(leaning.certificate)];
  std::string text = certificate.name + " of " + book.instruments[certificate.instrument].name + ", made against " +
                     book.instruments[leaning.standard.instrument].name + " on " + date_text(certificate.calibrated);
  if (leaning.standard.certificate >= 0)
    text += " by its certificate " + std::string(name_of_certificate(book, leaning.standard.certificate));
  return text;
}

std::size_t changed_under(const Lookback& lookback, Supposition supposition) {
  return static_cast<std::size_t>(
      std::count_if(lookback.samples.begin(), lookback.samples.end(), [supposition](const LookedBackSample& looked) {
        const JudgedSample* judged = supposition == Supposition::sudden ? &looked.sudden
                                     : looked.linear                    ? &*looked.linear
                                                                        : nullptr;
        return looked.change() == Change::verdict && judged != nullptr && judged->verdict != looked.before.verdict;
      }));
}

std::string summary_text(const Lookback& lookback) {
  const std::size_t count = lookback.samples.size();
  if (count == 0) return "No sample leaned on it in the window.";
  std::string text = std::to_string(count) + (count == 1 ? " sample" : " samples") + " leaned on it; the verdict of " +
                     std::to_string(changed_under(lookback, Supposition::sudden)) +
                     " changes if the error came suddenly";
  text += lookback.window.last_good < 0
              ? "; linear growth can't be reckoned"
              : ", of " + std::to_string(changed_under(lookback, Supposition::linear)) + " if it grew linearly";
  const std::size_t open = samples_with(lookback, Change::open_before).size();
  return text + (open == 0 ? "" : "; " + std::to_string(open) + (open == 1 ? " was" : " were") + " undecided before") +
         ".";
}

}  // namespace driftwarden
