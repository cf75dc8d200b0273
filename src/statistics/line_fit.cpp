// SPDX-License-Identifier: MIT
#include "statistics/line_fit.hpp"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <vector>

#include "statistics/mean_and_spread.hpp"
#include "statistics/student_t.hpp"

namespace driftwarden {

namespace {

struct Points {
  std::span<const double> x;
  std::span<const double> y;
};

// The sums about the point on which the line turns.
struct Sums {
  double centre_x = 0;
  double centre_y = 0;
  double xx = 0;  // about the centre
  double xy = 0;
  double yy = 0;
};

struct PointsOfAGroup {
  std::vector<double> x;
  std::vector<double> y;
};
PointsOfAGroup points_of_group(std::span<const double> x, std::span<const double> y,
                               std::span<const std::size_t> groups, std::size_t group) {
  PointsOfAGroup of;
  for (std::size_t i = 0; i < x.size(); ++i) {
    if (groups[i] != group) continue;
    of.x.push_back(x[i]);
    of.y.push_back(y[i]);
  }
  return of;
}

bool are_usable(const Points& points) { return are_finite(points.x) && are_finite(points.y); }

// Means relative to the first point: dates far from zero lose no digits.
void find_centre(const Points& points, Sums& sums) {
  double x_sum = 0;
  double y_sum = 0;
  for (std::size_t i = 0; i < points.x.size(); ++i) {
    x_sum += points.x[i] - points.x[0];
    y_sum += points.y[i] - points.y[0];
  }
  const auto n = static_cast<double>(points.x.size());
  sums.centre_x = points.x[0] + x_sum / n;
  sums.centre_y = points.y[0] + y_sum / n;
}

Sums sums_about_centre(const Points& points) {
  Sums sums;
  find_centre(points, sums);
  for (std::size_t i = 0; i < points.x.size(); ++i) {
    const double dx = points.x[i] - sums.centre_x;
    sums.xx += dx * dx;
    const double dy = points.y[i] - sums.centre_y;
    sums.xy += dx * dy;
    sums.yy += dy * dy;
  }
  return sums;
}

bool has_two_places(std::span<const double> x) {
  return std::ranges::any_of(x, [&](double value) { return value != x.front(); });
}

double residual_squares(const LineFit& line, const Points& points) {
  double squares = 0;
  for (std::size_t i = 0; i < points.x.size(); ++i) {
    const double residual = points.y[i] - line.at(points.x[i]);
    squares += residual * residual;
  }
  return squares;
}

LineFit line_through(const Points& points, const Sums& sums) {
  LineFit line;
  line.n = points.x.size();
  line.dof = static_cast<double>(line.n) - 2;
  line.centre_x = sums.centre_x;
  line.centre_y = sums.centre_y;
  line.slope = sums.xy / sums.xx;
  line.residual_squares = residual_squares(line, points);
  if (line.dof > 0) line.residual_s = std::sqrt(line.residual_squares / line.dof);
  return line;
}

}  // namespace

double LineFit::slope_se() const { return std::sqrt(slope_variance); }

double LineFit::slope_p() const { return student_t_two_sided_p(slope / slope_se(), dof); }

std::optional<LineFit> fit_line(std::span<const double> x, std::span<const double> y) {
  assert(x.size() == y.size());
  const Points points{x, y};
  if (!are_usable(points) || !has_two_places(x)) return std::nullopt;
  const Sums sums = sums_about_centre(points);
  LineFit line = line_through(points, sums);
  line.residual_variance_of_one = line.residual_s * line.residual_s;
  line.centre_variance = line.residual_variance_of_one / static_cast<double>(line.n);
  line.slope_variance = line.residual_variance_of_one / sums.xx;
  return line;
}

std::optional<LineFit> fit_parallel_lines(std::span<const double> x, std::span<const double> y,
                                          std::span<const std::size_t> groups) {
  assert(x.size() == y.size() && x.size() == groups.size());
  if (x.empty() || !are_usable({x, y})) return std::nullopt;
  LineFit line;
  std::size_t number = 0;
  double xx = 0;
  double xy = 0;
  double yy = 0;
  double n_of_last = 0;
  for (std::size_t group = 0; group <= *std::ranges::max_element(groups); ++group) {
    const PointsOfAGroup of = points_of_group(x, y, groups, group);
    if (of.x.empty()) continue;
    const Sums sums = sums_about_centre({of.x, of.y});
    ++number;
    xx += sums.xx;
    xy += sums.xy;
    yy += sums.yy;
    if (group != groups.back()) continue;
    line.centre_x = sums.centre_x;
    line.centre_y = sums.centre_y;
    n_of_last = static_cast<double>(of.x.size());
  }
  if (!(xx > 0)) return std::nullopt;
  line.n = x.size();
  line.dof = static_cast<double>(line.n) - static_cast<double>(number) - 1;
  line.slope = xy / xx;
  line.residual_squares = std::max(yy - line.slope * xy, 0.0);
  if (line.dof > 0) line.residual_s = std::sqrt(line.residual_squares / line.dof);
  line.residual_variance_of_one = line.residual_s * line.residual_s;
  line.centre_variance = line.residual_variance_of_one / n_of_last;
  line.slope_variance = line.residual_variance_of_one / xx;
  return line;
}

std::optional<LineFit> fit_through_origin(std::span<const double> x, std::span<const double> y) {
  assert(x.size() == y.size());
  const Points points{x, y};
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
  if (line.dof > 0) line.residual_s = std::sqrt(line.residual_squares / line.dof);
  line.residual_variance_of_one = line.residual_s * line.residual_s;
  line.slope_variance = line.residual_variance_of_one / xx;
  return line;
}

}  // namespace driftwarden
