// SPDX-License-Identifier: MIT
#include "history/forecast.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>

#include "book/stamp_text.hpp"
#include "statistics/robust_trend.hpp"
#include "statistics/rounding_noise.hpp"
#include "statistics/student_t.hpp"

namespace driftwarden {
namespace {

// All pairs of more points than these would take long; then the newest count.
constexpr std::size_t most_points_in_pairs = 1500;

struct Points {
  std::vector<double> days;
  std::vector<double> values;
  std::vector<std::size_t> levels;  // equal where no change of calibrator or certificate stands between two points
  std::size_t number_of_levels = 1;
};

Points last_phase(const Series& series) {
  Points points;
  if (series.phases.empty()) return points;
  const Phase& phase = series.phases.back();
  std::vector<const SeriesPoint*> first_of_level;
  for (std::size_t i = phase.first; i < phase.first + phase.count; ++i) {
    const SeriesPoint& point = series.points[i];
    if (is_missing(point.counted())) continue;
    points.days.push_back(point.day());
    points.values.push_back(point.value);
    const auto is_like = [&](const SeriesPoint* other) { return point.is_read_like(*other); };
    const auto level = std::find_if(first_of_level.begin(), first_of_level.end(), is_like);
    points.levels.push_back(static_cast<std::size_t>(level - first_of_level.begin()));
    if (level == first_of_level.end()) first_of_level.push_back(&point);
  }
  points.values = without_rounding_noise(points.values);
  points.number_of_levels = std::max<std::size_t>(first_of_level.size(), 1);
  return points;
}

Points on_the_last_level(const Points& all) {
  Points points;
  for (std::size_t i = 0; i < all.days.size(); ++i) {
    if (all.levels[i] != all.levels.back()) continue;
    points.days.push_back(all.days[i]);
    points.values.push_back(all.values[i]);
  }
  return points;
}

bool leaves_out_zero(double low, double high) { return low > 0 || high < 0; }

// Every level takes a point of its own.
bool has_enough_points(std::size_t n, std::size_t levels) { return n + 1 >= fewest_points_of_a_trend + levels; }

Trend trend_from(std::string method, const LineFit& line, std::size_t levels = 1) {
  Trend trend;
  trend.method = std::move(method);
  trend.n = line.n;
  trend.slope_per_day = line.slope;
  if (line.dof < 1) return trend;
  const double half = coverage_factor(trend_coverage, line.dof) * line.slope_se();
  trend.low = line.slope - half;
  trend.high = line.slope + half;
  trend.p = line.slope_p();
  trend.is_resolved = has_enough_points(line.n, levels) && leaves_out_zero(trend.low, trend.high);
  return trend;
}

std::optional<Trend> robust_trend(Points points, double phi) {
  if (points.days.size() > most_points_in_pairs) {
    const auto surplus = static_cast<std::ptrdiff_t>(points.days.size() - most_points_in_pairs);
    points.days.erase(points.days.begin(), points.days.begin() + surplus);
    points.values.erase(points.values.begin(), points.values.begin() + surplus);
  }
  const double inflation = inflation_of_many(phi);
  const std::optional<RobustTrend> slopes = theil_sen(points.days, points.values, trend_coverage, inflation);
  if (!slopes) return std::nullopt;
  const TrendTest test = mann_kendall(points.values, inflation);
  const Bounds& bounds = slopes->slope_bounds;
  const bool is_resolved = points.days.size() >= fewest_points_of_a_trend && test.p < 1 - trend_coverage &&
                           leaves_out_zero(bounds.lower, bounds.upper);
  return Trend{"theil-sen", points.days.size(), slopes->slope, bounds.lower, bounds.upper, test.p, is_resolved};
}

void fit_points(Forecast& forecast, const Points& points, double phi) {
  if (points.days.size() < 2) return;
  forecast.origin = points.days.front();
  forecast.first_day = points.days.front();
  forecast.last_day = points.days.back();
  std::vector<double> x;
  for (const double day : points.days) x.push_back(day - forecast.origin);
  forecast.line = fit_parallel_lines(x, points.values, points.levels);
  forecast.levels = points.number_of_levels;
  if (!forecast.line) return;
  forecast.line = resembling(*forecast.line, phi);
  forecast.trend = trend_from("least-squares", *forecast.line, forecast.levels);
  forecast.robust = robust_trend(on_the_last_level(points), phi);
}

void fit_steps(Forecast& forecast, const Series& series) {
  std::vector<double> x;
  std::vector<double> y;
  for (const CalibrationStep& step : series.steps) {
    x.push_back(step.days);
    y.push_back(step.change);
  }
  forecast.origin = series.points.back().day();
  forecast.base = series.last_left;
  forecast.first_day = forecast.origin - std::accumulate(x.begin(), x.end(), 0.0);
  forecast.last_day = forecast.origin;
  forecast.line = fit_through_origin(x, y);
  if (forecast.line) forecast.trend = trend_from("steps-between-calibrations", *forecast.line);
}

void cross(Forecast& forecast, const Series& series, const TimeZone& zone) {
  const Tolerance& tolerance = series.tolerance;
  const auto date_said = [&](double day) { return date_text(day_of(series, day, zone)); };
  const double limit = forecast.line->slope > 0 ? tolerance.upper : tolerance.lower;
  if (is_missing(limit)) {
    forecast.said = "a trend, and no tolerance on the side it moves to";
    return;
  }
  const LimitCrossing met =
      limit_crossing(*forecast.line, limit - forecast.base, prediction_band(*forecast.line, trend_coverage));
  const Crossing crossing{limit, forecast.origin + met.x, forecast.origin + met.earliest, forecast.origin + met.latest};
  const double end = forecast.last_day + forecast.reach_days;
  if (!met.is_bounded) {
    forecast.said = "a trend too faint to say when the tolerance is reached";
  } else if (crossing.earliest > end) {
    forecast.said =
        "by its trend it stays within its tolerance until " + date_said(end) + ", and no forecast looks farther";
  } else if (crossing.day > end) {
    forecast.crossing = crossing;
    forecast.said = "it may leave its tolerance from " + date_said(crossing.earliest) +
                    " on; by the line itself not before " + date_said(end) + ", and no forecast looks farther";
  } else {
    forecast.crossing = crossing;
    const std::string when =
        date_said(crossing.day) + ", between " + date_said(crossing.earliest) + " and " + date_said(crossing.latest);
    forecast.said = (crossing.day <= forecast.last_day ? "by its trend it left its tolerance on "
                                                       : "by its trend it leaves its tolerance on ") +
                    when;
  }
}

std::string why_no_trend(const Forecast& forecast) {
  if (!forecast.trend || !has_enough_points(forecast.trend->n, forecast.levels)) return "too few points for a trend";
  return "no trend that stands out from chance";
}

std::string levels_said(std::size_t levels) {
  return "; jumps between its " + std::to_string(levels) + " calibrators or certificates left out";
}

}  // namespace

Bounds Forecast::band_at(double day) const {
  const Bounds band = driftwarden::band_at(*line, prediction_band(*line, trend_coverage), day - origin);
  return {base + band.lower, base + band.upper};
}

Day day_of(const Series& series, double day, const TimeZone& zone) {
  constexpr double ten_thousand_years = 3652500;  // no calendar of ours reaches farther
  if (!(std::fabs(day) < ten_thousand_years)) return no_day;
  const auto whole = static_cast<Day>(std::floor(day));
  return series.is_by_day ? whole : local_day(static_cast<Moment>(day * seconds_a_day), zone);
}

Resemblance resemblance_of(const Series& series) {
  if (!series.steps.empty() || series.is_by_day) return {};
  const Points points = last_phase(series);
  std::optional<LineFit> line;
  if (points.days.size() > 2) line = fit_line(points.days, points.values);
  if (!line) return {};
  std::vector<double> residuals;
  for (std::size_t i = 0; i < points.days.size(); ++i) residuals.push_back(points.values[i] - line->at(points.days[i]));
  return residual_resemblance(residuals);
}

Forecast forecast_of(const Series& series, double reach_days, const TimeZone& zone, double phi) {
  Forecast forecast;
  if (!series.is_charted || series.points.empty()) return forecast;
  if (series.steps.empty() || is_missing(series.last_left)) {
    fit_points(forecast, last_phase(series), phi);
  } else {
    fit_steps(forecast, series);
  }
  forecast.reach_days = std::max(reach_days, forecast.last_day - forecast.first_day);
  if (!forecast.trend || !forecast.trend->is_resolved) {
    forecast.said = why_no_trend(forecast);
  } else if (!series.tolerance.is_stated()) {
    forecast.said = "a trend, and no tolerance to hold it to";
  } else {
    cross(forecast, series, zone);
    if (forecast.levels > 1) forecast.said += levels_said(forecast.levels);
  }
  return forecast;
}

}  // namespace driftwarden
