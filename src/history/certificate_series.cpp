// SPDX-License-Identifier: MIT
#include "history/certificate_series.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <optional>

#include "correction/due.hpp"
#include "quantity/limit.hpp"
#include "quantity/number.hpp"
#include "quantity/units.hpp"
#include "record/moment.hpp"

namespace driftwarden {
namespace {

// "2 L/min", "20 °C", "84.5 kPa"
std::string nominal_text(const CalibratedPoint& point, InstrumentKind kind) {
  if (point.is_flow) return shortest(point.nominal) + " L/min";
  const Unit unit = customary_unit(dimension_of_points(kind));
  return shortest(std::round(1000 * unit.from_inside(point.nominal)) / 1000) + " " + std::string(unit.name);
}

Moment moment_of(const Certificate& certificate) { return static_cast<Moment>(certificate.calibrated) * seconds_a_day; }

SeriesPoint point_from(const Certificate& certificate, const CalibratedPoint& point, Found when) {
  SeriesPoint made{moment_of(certificate), point.error(when), 1, missing, missing, false, certificate.name};
  made.kind = PointKind::calibration;
  if (point.expanded_uncertainty) {
    const double expanded = 2 * *point.expanded_uncertainty / certificate.k();
    made.expanded_uncertainty = point.is_flow ? 100 * expanded / point.reference : expanded;
  }
  return made;
}

// A phase begins after a calibration that found the instrument out of tolerance and adjusted it.
std::vector<PhaseStart> starts_from(const std::vector<const Certificate*>& certificates, const Tolerance& tolerance) {
  std::vector<PhaseStart> starts;
  for (const Certificate* certificate : certificates) {
    const std::optional<CalibratedPoint> worst = worst_point(*certificate, Found::as_found);
    if (!worst || !worst->is_adjusted() || !is_beyond(worst->error(Found::as_found), tolerance)) continue;
    starts.push_back({moment_of(*certificate) + 1, "adjusted " + certificate->name});
  }
  return starts;
}

Series named(std::string name, std::string title, InstrumentKind kind) {
  Series series = empty_series(std::move(name), std::move(title), "%", "of the true flow");
  series.is_by_day = true;
  set_unit_of(kind, series);
  return series;
}

std::optional<CalibratedPoint> point_at(const Certificate& certificate, double nominal) {
  for (const CalibratedPoint& point : points_of(certificate)) {
    if (point.nominal == nominal) return point;
  }
  return std::nullopt;
}

bool is_adjusted(const Certificate& certificate) {
  const std::vector<CalibratedPoint> points = points_of(certificate);
  return std::any_of(points.begin(), points.end(), [](const CalibratedPoint& point) { return point.is_adjusted(); });
}

// The certificates since the last service that another one followed. One of the same day is among them if it says what
// was left then.
std::vector<const Certificate*> since_service(std::vector<const Certificate*> certificates,
                                              const std::vector<PhaseStart>& services) {
  for (const PhaseStart& service : services) {
    if (certificates.empty() || service.at > moment_of(*certificates.back())) continue;
    std::erase_if(certificates, [&](const Certificate* certificate) {
      const Moment left = moment_of(*certificate) + (is_adjusted(*certificate) ? 1 : 0);
      return left < service.at;
    });
  }
  return certificates;
}

// The change at a point (missing: the worst of each calibration) since the calibration before left it; none where
// nothing was ever adjusted.
void add_steps(Series& series, const std::vector<const Certificate*>& certificates, double nominal = missing) {
  bool was_adjusted = false;
  const Certificate* before = nullptr;
  for (const Certificate* certificate : certificates) {
    const std::optional<CalibratedPoint> point =
        is_missing(nominal) ? worst_point(*certificate, Found::as_found) : point_at(*certificate, nominal);
    if (!point || is_missing(point->error(Found::as_found))) continue;
    was_adjusted |= point->is_adjusted();
    const std::optional<CalibratedPoint> left = before == nullptr ? std::nullopt : point_at(*before, point->nominal);
    if (left && certificate->calibrated > before->calibrated) {
      series.steps.push_back({static_cast<double>(certificate->calibrated - before->calibrated),
                              point->error(Found::as_found) - left->error(Found::as_left)});
    }
    series.last_left = point->error(Found::as_left);
    before = certificate;
  }
  if (!was_adjusted) series.steps.clear();
}

Series worst_as_found(const std::vector<const Certificate*>& certificates, const std::vector<PhaseStart>& services,
                      InstrumentKind kind) {
  Series series = named("as-found-error", "Error as found, worst point", kind);
  for (const Certificate* certificate : certificates) {
    const std::optional<CalibratedPoint> worst = worst_point(*certificate, Found::as_found);
    if (worst) series.points.push_back(point_from(*certificate, *worst, Found::as_found));
  }
  add_steps(series, since_service(certificates, services));
  return series;
}

std::vector<Series> at_each_nominal(const std::vector<const Certificate*>& certificates,
                                    const std::vector<PhaseStart>& services, Found when, InstrumentKind kind) {
  const std::string name = when == Found::as_found ? "as-found-error" : "as-left-error";
  const std::string title = when == Found::as_found ? "Error as found" : "Error as left";
  std::map<double, Series> by_nominal;
  for (const Certificate* certificate : certificates) {
    for (const CalibratedPoint& point : points_of(*certificate)) {
      if (is_missing(point.error(when))) continue;
      const std::string where = " at " + nominal_text(point, kind);
      Series& series = by_nominal.try_emplace(point.nominal, named(name + where, title + where, kind)).first->second;
      series.points.push_back(point_from(*certificate, point, when));
    }
  }
  std::vector<Series> all;
  for (auto& [nominal, series] : by_nominal) {
    series.is_charted = when == Found::as_found;  // as left it shows what the calibrator's adjuster did
    if (when == Found::as_found) add_steps(series, since_service(certificates, services), nominal);
    all.push_back(std::move(series));
  }
  return all;
}

}  // namespace

void set_unit_of(InstrumentKind kind, Series& series) {
  const Dimension of = dimension_of_points(kind);
  if (of == Dimension::flow) return;
  series.unit = inside_unit(of).name;
  series.basis.clear();
}

std::vector<CalibratedPoint> points_of(const Certificate& certificate) {
  std::vector<CalibratedPoint> points;
  for (const CertificatePoint& p : certificate.points) {
    if (!(p.reference_l_min > 0)) continue;
    points.push_back({p.nominal_l_min, p.reference_in_use_l_min(), p.found_reference_l_min(), p.as_found_l_min,
                      p.in_use_l_min(), p.expanded_uncertainty_l_min, true});
  }
  for (const ConditionPoint& p : certificate.condition_points) {
    points.push_back(
        {p.nominal, p.reference_in_use(), p.found_reference(), p.as_found, p.in_use(), p.expanded_uncertainty, false});
  }
  return points;
}

double CalibratedPoint::error(Found when) const {
  const std::optional<double>& shown = when == Found::as_left ? as_left : as_found;
  const double truly = when == Found::as_left ? reference : reference_as_found;
  if (!shown) return missing;
  return is_flow ? 100 * (*shown - truly) / truly : *shown - truly;
}

std::optional<CalibratedPoint> worst_point(const Certificate& certificate, Found when) {
  std::optional<CalibratedPoint> worst;
  for (const CalibratedPoint& point : points_of(certificate)) {
    if (is_missing(point.error(when))) continue;
    if (!worst || std::fabs(point.error(when)) > std::fabs(worst->error(when))) worst = point;
  }
  return worst;
}

Tolerance tolerance_of(const Screening& screening, const std::vector<const Certificate*>& certificates) {
  for (auto newest = certificates.rbegin(); newest != certificates.rend(); ++newest) {
    if (const std::optional<double> absolute = (*newest)->condition_tolerance)
      return {-*absolute, *absolute, "certificate " + (*newest)->name};
    if (!(*newest)->tolerance) continue;
    const double percent = 100 * *(*newest)->tolerance;
    return {-percent, percent, "certificate " + (*newest)->name};
  }
  const bool is_of_flow = std::any_of(certificates.begin(), certificates.end(),
                                      [](const Certificate* certificate) { return !certificate->points.empty(); });
  for (const Rule& rule : screening.rules().rules) {
    const bool is_asked = is_of_flow && rule.of == Subject::calibrator &&
                          rule.measure == static_cast<std::size_t>(CalibratorMeasure::as_found_error);
    if (is_asked && !rule.limit.is_absolute) return {100 * rule.limit.low, 100 * rule.limit.high, rule.full_name()};
  }
  return {};
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

std::optional<bool> is_found_in_tolerance(const Certificate& certificate) {
  const std::optional<CalibratedPoint> worst = worst_point(certificate, Found::as_found);
  if (!worst) return std::nullopt;
  const std::optional<double> tolerance = worst->is_flow ? certificate.tolerance : certificate.condition_tolerance;
  if (!tolerance) return std::nullopt;
  const double limit = worst->is_flow ? 100 * *tolerance : *tolerance;
  return side_of_limit(std::fabs(worst->error(Found::as_found)), limit) != Side::above;
}

std::vector<Series> certificate_series(const Screening& screening, Row instrument, Day as_of,
                                       const std::vector<PhaseStart>& services) {
  const std::vector<const Certificate*> certificates = certificates_of(screening.book(), instrument, as_of);
  const InstrumentKind kind = screening.book().instruments[instrument].kind;
  const Tolerance tolerance = tolerance_of(screening, certificates);
  std::vector<PhaseStart> all_starts = starts_from(certificates, tolerance);
  all_starts.insert(all_starts.end(), services.begin(), services.end());
  std::vector<Series> all;
  if (Series worst = worst_as_found(certificates, services, kind); !worst.points.empty())
    all.push_back(std::move(worst));
  for (const Found when : {Found::as_found, Found::as_left}) {
    for (Series& series : at_each_nominal(certificates, services, when, kind)) all.push_back(std::move(series));
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
  series.points.push_back({static_cast<Moment>(as_of) * seconds_a_day, static_cast<double>(due - as_of), 1, missing,
                           missing, false, certificates.back()->name, no_row, no_row, PointKind::calibration});
  cut_into_phases(series, {});
  return {std::move(series)};
}

}  // namespace driftwarden
