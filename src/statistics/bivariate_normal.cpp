// SPDX-License-Identifier: MIT
#include "statistics/bivariate_normal.hpp"

#include <cmath>
#include <limits>
#include <numbers>

#include "quantity/elementary.hpp"
#include "statistics/normal_distribution.hpp"

namespace driftwarden {
namespace {

struct Node {
  double at;
  double weight;
};
// Gauss and Legendre's rule of 20 points, those above 0 (numpy.polynomial.legendre.leggauss).
constexpr Node nodes[] = {
    {0.07652652113349734, 0.15275338713072578}, {0.2277858511416451, 0.14917298647260366},
    {0.37370608871541955, 0.14209610931838187}, {0.5108670019508271, 0.13168863844917653},
    {0.636053680726515, 0.11819453196151825},   {0.7463319064601508, 0.10193011981724026},
    {0.8391169718222188, 0.08327674157670467},  {0.9122344282513258, 0.06267204833410944},
    {0.9639719272779138, 0.04060142980038622},  {0.9931285991850949, 0.017614007139153273},
};

double integrand(double h, double x) {
  const double square = 1 + x * x;
  return elementary::exp(-h * h * square / 2) / square;
}

// For 0 ≤ a ≤ 1, where the integrand is smooth.
double integral(double h, double a) {
  double sum = 0;
  for (const Node& node : nodes)
    sum += node.weight * (integrand(h, a * (1 + node.at) / 2) + integrand(h, a * (1 - node.at) / 2));
  return sum * a / (4 * std::numbers::pi);
}

// The share of T that belongs to one of the two limits.
double t_of(double limit, double other, const Correlation& correlation) {
  const double above = other - correlation.rho * limit;
  if (limit == 0) return std::copysign(0.25, other);
  return owens_t(limit, above / (limit * correlation.sine));
}

}  // namespace

double owens_t(double h, double a) {
  if (a < 0) return -owens_t(h, -a);
  const double size = std::fabs(h);
  if (std::isinf(size) || a == 0) return 0;
  if (std::isinf(a)) return normal_cdf(-size) / 2;
  if (a <= 1) return integral(size, a);
  const double p = normal_cdf(-size);
  const double q = normal_cdf(-a * size);
  return (p + q) / 2 - p * q - integral(a * size, 1 / a);
}

double bivariate_normal_cdf(double x, double y, const Correlation& correlation) {
  constexpr double infinite = std::numeric_limits<double>::infinity();
  if (x == -infinite || y == -infinite) return 0;
  if (x == infinite) return normal_cdf(y);
  if (y == infinite) return normal_cdf(x);
  if (x == 0 && y == 0) return 0.25 + elementary::asin(correlation.rho) / (2 * std::numbers::pi);
  const bool is_one_side = x * y > 0 || (x * y == 0 && x + y >= 0);
  return (normal_cdf(x) + normal_cdf(y)) / 2 - t_of(x, y, correlation) - t_of(y, x, correlation) -
         (is_one_side ? 0 : 0.5);
}

}  // namespace driftwarden
