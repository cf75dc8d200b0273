// SPDX-License-Identifier: MIT
#include "statistics/student_t.hpp"

#include <array>
#include <bit>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <limits>

#include "statistics/bounds.hpp"
#include "statistics/normal_distribution.hpp"
#include "statistics/special_functions.hpp"

namespace driftwarden {

namespace {

// A quantile costs about 5 µs and the same few are asked for again and again. The store is bounded and each thread's
// own: no lock, and no effect on a figure.
struct Remembered {
  double probability = no_figure;
  double dof = no_figure;
  double quantile = no_figure;
};

constexpr unsigned store_bits = 11;
using Store = std::array<Remembered, std::size_t{1} << store_bits>;

// The top bits of a product depend on all bits of its factors; small whole degrees of freedom differ only in high ones.
std::size_t place_of(double probability, double dof) {
  const std::uint64_t mixed =
      (std::bit_cast<std::uint64_t>(probability) * 31 + std::bit_cast<std::uint64_t>(dof)) * 0x9E3779B97F4A7C15U;
  return static_cast<std::size_t>(mixed >> (64U - store_bits));
}

// A quantile for many degrees of freedom from the normal one z: Cornish and Fisher's expansion in 1/ν, Abramowitz and
// Stegun 26.7.5 with all its five terms. From 1000 on, and for |z| up to 4, what it leaves out is below the last digit.
constexpr double many_dof = 1000;
constexpr double farthest_z = 4;

double quantile_of_many(double z, double dof) {
  const double q = z * z;
  const double g1 = z * (q + 1) / 4;
  const double g2 = z * ((5 * q + 16) * q + 3) / 96;
  const double g3 = z * (((3 * q + 19) * q + 17) * q - 15) / 384;
  const double g4 = z * ((((79 * q + 776) * q + 1482) * q - 1920) * q - 945) / 92160;
  const double g5 = z * (((((27 * q + 339) * q + 930) * q - 1782) * q - 765) * q + 17955) / 368640;
  return z + (g1 + (g2 + (g3 + (g4 + g5 / dof) / dof) / dof) / dof) / dof;
}

double computed_quantile(double probability, double dof) {
  if (std::isinf(dof)) return normal_quantile(probability);
  return special::student_t_quantile(dof, probability);
}

}  // namespace

double student_t_cdf(double t, double dof) {
  if (!(dof > 0) || std::isnan(t)) return no_figure;
  if (std::isinf(dof)) return normal_cdf(t);
  if (std::isinf(t)) return t < 0 ? 0 : 1;
  return special::student_t_cdf(dof, t);
}

double student_t_quantile(double probability, double dof) {
  if (!(dof > 0) || !(probability >= 0 && probability <= 1)) return no_figure;
  if (probability == 0 || probability == 1) return normal_quantile(probability);
  if (dof >= many_dof && std::isfinite(dof)) {
    const double z = student_t_quantile(probability, std::numeric_limits<double>::infinity());
    if (std::fabs(z) <= farthest_z) return quantile_of_many(z, dof);
  }
  thread_local Store store;
  Remembered& entry = store[place_of(probability, dof)];
  if (entry.probability != probability || entry.dof != dof) {
    entry = {probability, dof, computed_quantile(probability, dof)};
  }
  return entry.quantile;
}

double student_t_two_sided_p(double t, double dof) { return 2 * student_t_cdf(-std::fabs(t), dof); }

// Taken from the lower tail, where a probability close to 1 loses no digits.
double coverage_factor(double coverage, double dof) { return -student_t_quantile((1 - coverage) / 2, dof); }

}  // namespace driftwarden
