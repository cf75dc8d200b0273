// SPDX-License-Identifier: MIT
#include "statistics/chart_constants.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "statistics/special_functions.hpp"

namespace driftwarden {

namespace {

struct RangeMoments {
  double d2 = 0;
  double d3 = 0;
};

// From n = 2. E[R] = ∫P(R > w)dw and E[R²] = 2∫w·P(R > w)dw with P(R ≤ w) = n∫φ(x)[Φ(x + w) - Φ(x)]^(n-1) dx, all
// twelve decimals; agrees with the six of a separate computation.
constexpr std::array<RangeMoments, largest_chart_group - 1> range_moments = {{
    {1.128379167096, 0.852502466427},  // 2
    {1.692568750643, 0.888368004045},  // 3
    {2.058750746008, 0.879808202825},  // 4
    {2.325928947281, 0.864081941100},  // 5
    {2.534412721223, 0.848039686117},  // 6
    {2.704356751214, 0.833205335622},  // 7
    {2.847200612091, 0.819831489792},  // 8
    {2.970026324418, 0.807834274553},  // 9
    {3.077505461670, 0.797050673519},  // 10
    {3.172872703816, 0.787314620550},  // 11
    {3.258455279744, 0.778478341203},  // 12
    {3.335980354098, 0.770416202064},  // 13
    {3.406763108200, 0.763023095625},  // 14
    {3.471826889882, 0.756211429728},  // 15
    {3.531982786110, 0.749908089410},  // 16
    {3.587883961765, 0.744051783961},  // 17
    {3.640063757937, 0.738590853378},  // 18
    {3.688963023208, 0.733481495519},  // 19
    {3.734950119597, 0.728686345707},  // 20
    {3.778335829843, 0.724173340717},  // 21
    {3.819384643363, 0.719914808434},  // 22
    {3.858323423285, 0.715886735492},  // 23
    {3.895348148451, 0.712068175148},  // 24
    {3.930629219507, 0.708440765889},  // 25
}};

}  // namespace

double c4(std::size_t n) {
  if (n < 2) return no_figure;
  const double half_dof = static_cast<double>(n - 1) / 2;
  return std::sqrt(1 / half_dof) / special::gamma_ratio(half_dof, 0.5);  // Γ(a) / Γ(a + 1/2)
}

std::optional<ChartConstants> chart_constants(std::size_t n) {
  if (n < 2 || n > largest_chart_group) return std::nullopt;
  const RangeMoments& range = range_moments[n - 2];
  const double root_n = std::sqrt(static_cast<double>(n));
  const double mean_s = c4(n);
  const double s_reach = 3 * std::sqrt(1 - mean_s * mean_s) / mean_s;
  const double range_reach = 3 * range.d3 / range.d2;
  ChartConstants constants;
  constants.d2 = range.d2;
  constants.d3 = range.d3;
  constants.c4 = mean_s;
  constants.a2 = 3 / (range.d2 * root_n);
  constants.a3 = 3 / (mean_s * root_n);
  constants.b3 = std::max(0.0, 1 - s_reach);
  constants.b4 = 1 + s_reach;
  constants.big_d3 = std::max(0.0, 1 - range_reach);
  constants.big_d4 = 1 + range_reach;
  return constants;
}

}  // namespace driftwarden
