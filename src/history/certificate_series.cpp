// SPDX-License-Identifier: MIT
#include "driftwarden/history/certificate_series.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <optional>

#include "driftwarden/correction/due.hpp"
#include "driftwarden/quantity/limit.hpp"
#include "driftwarden/quantity/number.hpp"

namespace driftwarden {
namespace {

// What the instrument showed at a point. Where nothing was adjusted, it was left as it was found.
std::optional<double> indication(const CertificatePoint& point, Found when) {
  if (when == Found::as_found) return point.as_found_l_min;
  return point.as_left_l_min ? point.as_left_l_min : point.as_found_l_min;
}

Moment moment_of(const Certificate& certificate) { return static_cast<Moment>(certificate.calibrated) * 86400; }

SeriesPoint point_from(const Certificate& certificate, const CertificatePoint& point, Found when) {
  SeriesPoint made{moment_of(certificate), error_percent(point, when), 1, missing, missing, false, certificate.name};
  if (point.expanded_uncertainty_l_min && point.reference_l_min > 0) {
    made.expanded_uncertainty =
        2 * 100 * *point.expanded_uncertainty_l_min / (certificate.coverage_factor.value_or(2) * point.reference_l_min);
  }
  return made;
}

bool is_adjusted(const CertificatePoint& point) {
  return point.as_left_l_min && point.as_found_l_min && *point.as_left_l_min != *point.as_found_l_min;
}

// A phase begins after a calibration that found the instrument out of tolerance and adjusted it.
std::vector<PhaseStart> starts_from(const std::vector<const Certificate*>& certificates, const Tolerance& tolerance) {
  std::vector<PhaseStart> starts;
  for (const Certificate* certificate : certificates) {
    const CertificatePoint* worst = worst_point(*certificate, Found::as_found);
    if (worst == nullptr || !is_adjusted(*worst) || !is_beyond(error_percent(*worst, Found::as_found), tolerance))
      continue;
    starts.push_back({moment_of(*certificate) + 1, "adjusted " + certificate->name});
  }
  return starts;
}

Series named(std::string name, std::string title) {
  Series series = empty_series(std::move(name), std::move(title), "%", "of the true flow");
  series.is_by_day = true;
  return series;
}

const CertificatePoint* point_at(const Certificate& certificate, double nominal) {
  for (const CertificatePoint& point : certificate.points) {
    if (point.nominal_l_min == nominal) return &point;
  }
  return nullptr;
}

// The change at a point (missing: the worst of each calibration) since the calibration before left it; none where
// nothing was ever adjusted.
void add_steps(Series& series, const std::vector<const Certificate*>& certificates, double nominal = missing) {
  bool was_adjusted = false;
  const Certificate* before = nullptr;
  for (const Certificate* certificate : certificates) {
    const CertificatePoint* worst =
        is_missing(nominal) ? worst_point(*certificate, Found::as_found) : point_at(*certificate, nominal);
    if (worst == nullptr || is_missing(error_percent(*worst, Found::as_found))) continue;
    was_adjusted |= is_adjusted(*worst);
    const CertificatePoint* left = before == nullptr ? nullptr : point_at(*before, worst->nominal_l_min);
    if (left != nullptr && certificate->calibrated > before->calibrated) {
      series.steps.push_back({static_cast<double>(certificate->calibrated - before->calibrated),
                              error_percent(*worst, Found::as_found) - error_percent(*left, Found::as_left)});
    }
    series.last_left = error_percent(*worst, Found::as_left);
    before = certificate;
  }
  if (!was_adjusted) series.steps.clear();
}

Series worst_as_found(const std::vector<const Certificate*>& certificates) {
  Series series = named("as-found-error", "Error as found, worst point");
  for (const Certificate* certificate : certificates) {
    const CertificatePoint* worst = worst_point(*certificate, Found::as_found);
    if (worst != nullptr) series.points.push_back(point_from(*certificate, *worst, Found::as_found));
  }
  add_steps(series, certificates);
  return series;
}

std::vector<Series> at_each_nominal(const std::vector<const Certificate*>& certificates, Found when) {
  const std::string name = when == Found::as_found ? "as-found-error" : "as-left-error";
  const std::string title = when == Found::as_found ? "Error as found" : "Error as left";
  std::map<double, Series> by_nominal;
  for (const Certificate* certificate : certificates) {
    for (const CertificatePoint& point : certificate->points) {
      if (is_missing(error_percent(point, when))) continue;
      const std::string where = " at " + shortest(point.nominal_l_min) + " L/min";
      Series& series = by_nominal.try_emplace(point.nominal_l_min, named(name + where, title + where)).first->second;
      series.points.push_back(point_from(*certificate, point, when));
    }
  }
  std::vector<Series> all;
  for (auto& [nominal, series] : by_nominal) {
    series.is_charted = when == Found::as_found;  // as left it shows what the calibrator's adjuster did
    if (when == Found::as_found) add_steps(series, certificates, nominal);
    all.push_back(std::move(series));
  }
  return all;
}

}  // namespace

double error_percent(const CertificatePoint& point, Found when) {
  const std::optional<double> shown = indication(point, when);
  if (!shown || !(point.reference_l_min > 0)) return missing;
  return 100 * (*shown - point.reference_l_min) / point.reference_l_min;
}

const CertificatePoint* worst_point(const Certificate& certificate, Found when) {
  const CertificatePoint* worst = nullptr;
  for (const CertificatePoint& point : certificate.points) {
    if (is_missing(error_percent(point, when))) continue;
    if (worst == nullptr || std::fabs(error_percent(point, when)) > std::fabs(error_percent(*worst, when)))
      worst = &point;
  }
  return worst;
}

Tolerance tolerance_of(const Screening& screening, const std::vector<const Certificate*>& certificates) {
  for (auto newest = certificates.rbegin(); newest != certificates.rend(); ++newest) {
    if (!(*newest)->tolerance) continue;
    const double percent = 100 * *(*newest)->tolerance;
    return {-percent, percent, "certificate " + (*newest)->name};
  }
  for (const Rule& rule : screening.rules().rules) {
    const bool is_asked =
        rule.of == Subject::calibrator && rule.measure == static_cast<std::size_t>(CalibratorMeasure::as_found_error);
    if (is_asked && !rule.limit.is_absolute) return {100 * rule.limit.low, 100 * rule.limit.high, rule.full_name()};
  }
  return {};
}

bool is_beyond(double percent, const Tolerance& tolerance) {
  const bool below = !is_missing(tolerance.lower) && side_of_limit(percent, tolerance.lower) == Side::below;
  return below || (!is_missing(tolerance.upper) && side_of_limit(percent, tolerance.upper) == Side::above);
}

std::vector<const Certificate*> certificates_of(const Book& book, Row instrument, Day as_of) {
  std::vector<const Certificate*> found;
  for (const Certificate& certificate : book.certificates) {
    if (certificate.instrument == instrument && certificate.calibrated != no_day && certificate.calibrated <= as_of)
      found.push_back(&certificate);
  }
  std::stable_sort(found.begin(), found.end(),
                   [](const Certificate* a, const Certificate* b) { return a->calibrated < b->calibrated; });
  return found;
}

std::vector<Series> certificate_series(const Screening& screening, Row instrument, Day as_of,
                                       const std::vector<PhaseStart>& starts) {
  const std::vector<const Certificate*> certificates = certificates_of(screening.book(), instrument, as_of);
  const Tolerance tolerance = tolerance_of(screening, certificates);
  std::vector<PhaseStart> all_starts = starts_from(certificates, tolerance);
  all_starts.insert(all_starts.end(), starts.begin(), starts.end());
  std::vector<Series> all;
  if (Series worst = worst_as_found(certificates); !worst.points.empty()) all.push_back(std::move(worst));
  for (const Found when : {Found::as_found, Found::as_left}) {
    for (Series& series : at_each_nominal(certificates, when)) all.push_back(std::move(series));
  }
  for (Series& series : all) {
    series.tolerance = tolerance;
    cut_into_phases(series, all_starts);
  }
  return all;
}

std::vector<Series> due_series(const Screening& screening, Row instrument, Day as_of) {
  const std::vector<const Certificate*> certificates = certificates_of(screening.book(), instrument, as_of);
  if (certificates.empty()) return {};
  const Day due = due_day(*certificates.back(), screening.book().instruments[instrument]);
  if (due == no_day) return {};
  Series series = empty_series("days-to-due", "Days until due", "d");
  series.is_by_day = true;
  series.is_charted = false;
  series.points.push_back({static_cast<Moment>(as_of) * 86400, static_cast<double>(due - as_of), 1, missing, missing,
                           false, certificates.back()->name});
  cut_into_phases(series, {});
  return {std::move(series)};
}

}  // namespace driftwarden
