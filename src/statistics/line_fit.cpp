// SPDX-License-Identifier: MIT
#include "statistics/line_fit.hpp"

#include <algorithm>
#include <cassert>
#include <cmath>

#include "statistics/mean_and_spread.hpp"
#include "statistics/student_t.hpp"

namespace driftwarden {

namespace {

// Points with their weights, and the sums about the point on which their line turns.
struct WeightedPoints {
  std::span<const double> x;
  std::span<const double> y;
  std::span<const double> u;  // empty: all weights 1

  double weight(std::size_t i) const { return u.empty() ? 1 : 1 / (u[i] * u[i]); }
};

struct Sums {
  double weights = 0;
  double centre_x = 0;
  double centre_y = 0;
  double xx = 0;  // about the centre
  double xy = 0;
};

bool are_usable(const WeightedPoints& points) {
  const bool has_good_weights = std::ranges::all_of(points.u, [](double u) { return u > 0 && std::isfinite(u); });
  return are_finite(points.x) && are_finite(points.y) && has_good_weights;
}

// Means relative to the first point: dates far from zero lose no digits.
void find_centre(const WeightedPoints& points, Sums& sums) {
  double x_sum = 0;
  double y_sum = 0;
  for (std::size_t i = 0; i < points.x.size(); ++i) {
    sums.weights += points.weight(i);
    x_sum += points.weight(i) * (points.x[i] - points.x[0]);
    y_sum += points.weight(i) * (points.y[i] - points.y[0]);
  }
  sums.centre_x = points.x[0] + x_sum / sums.weights;
  sums.centre_y = points.y[0] + y_sum / sums.weights;
}

Sums sums_about_centre(const WeightedPoints& points) {
  Sums sums;
  find_centre(points, sums);
  for (std::size_t i = 0; i < points.x.size(); ++i) {
    const double dx = points.x[i] - sums.centre_x;
    sums.xx += points.weight(i) * dx * dx;
    sums.xy += points.weight(i) * dx * (points.y[i] - sums.centre_y);
  }
  return sums;
}

bool has_two_places(std::span<const double> x) {
  return std::ranges::any_of(x, [&](double value) { return value != x.front(); });
}

double residual_squares(const LineFit& line, const WeightedPoints& points) {
  double squares = 0;
  for (std::size_t i = 0; i < points.x.size(); ++i) {
    const double residual = points.y[i] - line.at(points.x[i]);
    squares += points.weight(i) * residual * residual;
  }
  return squares;
}

LineFit line_through(const WeightedPoints& points, const Sums& sums) {
  LineFit line;
  line.n = points.x.size();
  line.dof = static_cast<double>(line.n) - 2;
  line.centre_x = sums.centre_x;
  line.centre_y = sums.centre_y;
  line.slope = sums.xy / sums.xx;
  line.residual_squares = residual_squares(line, points);
  line.explained_squares = line.slope * sums.xy;
  if (line.dof > 0) line.residual_s = std::sqrt(line.residual_squares / line.dof);
  return line;
}

}  // namespace

double LineFit::slope_se() const { return std::sqrt(slope_variance); }

double LineFit::intercept_se() const { return std::sqrt(centre_variance + centre_x * centre_x * slope_variance); }

double LineFit::r_squared() const {
  const double all = explained_squares + residual_squares;
  return all > 0 ? explained_squares / all : no_figure;
}

double LineFit::f_statistic() const { return explained_squares / (residual_squares / dof); }

double LineFit::slope_p() const { return student_t_two_sided_p(slope / slope_se(), dof); }

double LineFit::birge_ratio() const { return dof > 0 ? std::sqrt(residual_squares / dof) : no_figure; }

std::optional<LineFit> fit_line(std::span<const double> x, std::span<const double> y) {
  assert(x.size() == y.size());
  const WeightedPoints points{x, y, {}};
  if (x.size() < 2 || !are_usable(points) || !has_two_places(x)) return std::nullopt;
  const Sums sums = sums_about_centre(points);
  LineFit line = line_through(points, sums);
  line.residual_variance_of_one = line.residual_s * line.residual_s;
  line.centre_variance = line.residual_variance_of_one / static_cast<double>(line.n);
  line.slope_variance = line.residual_variance_of_one / sums.xx;
  return line;
}

std::optional<LineFit> fit_weighted_line(std::span<const double> x, std::span<const double> y,
                                         std::span<const double> u) {
  assert(x.size() == y.size() && x.size() == u.size());
  const WeightedPoints points{x, y, u};
  if (x.size() < 2 || !are_usable(points) || !has_two_places(x)) return std::nullopt;
  const Sums sums = sums_about_centre(points);
  LineFit line = line_through(points, sums);
  line.centre_variance = 1 / sums.weights;
  line.slope_variance = 1 / sums.xx;
  return line;
}

std::optional<LineFit> fit_through_origin(std::span<const double> x, std::span<const double> y) {
  assert(x.size() == y.size());
  const WeightedPoints points{x, y, {}};
  double xx = 0;
  double xy = 0;
  for (std::size_t i = 0; i < x.size(); ++i) {
    xx += x[i] * x[i];
    xy += x[i] * y[i];
  }
  if (!are_usable(points) || !(xx > 0)) return std::nullopt;
  LineFit line;
  line.n = x.size();
  line.dof = static_cast<double>(line.n) - 1;
  line.slope = xy / xx;
  line.centre_variance = 0;
  line.residual_squares = residual_squares(line, points);
  line.explained_squares = line.slope * xy;  // about the origin, not about the mean
  if (line.dof > 0) line.residual_s = std::sqrt(line.residual_squares / line.dof);
  line.residual_variance_of_one = line.residual_s * line.residual_s;
  line.slope_variance = line.residual_variance_of_one / xx;
  return line;
}

}  // namespace driftwarden
