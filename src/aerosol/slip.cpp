// SPDX-License-Identifier: MIT
#include "aerosol/slip.hpp"

#include <cmath>

#include "quantity/elementary.hpp"
#include "statistics/bounds.hpp"

namespace driftwarden {
namespace {

double slip_at(double kn) { return 1.257 + 0.4 * elementary::exp(-1.1 / kn); }

bool are_lengths(double length_um, double mean_free_path_um) { return length_um > 0 && mean_free_path_um >= 0; }

}  // namespace

double slip_correction(double d_um, double mean_free_path_um) {
  if (!are_lengths(d_um, mean_free_path_um)) return no_figure;
  const double kn = 2 * mean_free_path_um / d_um;
  return 1 + kn * slip_at(kn);
}

double slip_slope(double d_um, double mean_free_path_um) {
  if (!are_lengths(d_um, mean_free_path_um)) return no_figure;
  const double kn = 2 * mean_free_path_um / d_um;
  return -(kn * slip_at(kn) + 0.44 * elementary::exp(-1.1 / kn)) / slip_correction(d_um, mean_free_path_um);
}

double without_slip(double a_um, double mean_free_path_um) {
  if (!are_lengths(a_um, mean_free_path_um)) return no_figure;
  if (mean_free_path_um == 0) return a_um;
  double d_um = a_um;
  constexpr int enough = 18;  // 9^18 is beyond the digits of a double
  for (int i = 0; i < enough; ++i) {
    const double half = mean_free_path_um * slip_at(2 * mean_free_path_um / d_um);
    d_um = elementary::hypot(a_um, half) - half;
  }
  return d_um;
}

}  // namespace driftwarden
