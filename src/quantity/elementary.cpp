// SPDX-License-Identifier: MIT
#include "quantity/elementary.hpp"

#include <array>
#include <bit>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <limits>
#include <optional>

#include "quantity/twofold.hpp"

namespace driftwarden::elementary {
namespace {

constexpr double infinite = std::numeric_limits<double>::infinity();
constexpr double no_number = std::numeric_limits<double>::quiet_NaN();
constexpr double to_whole = 0x1.8p52;  // added and taken away again it leaves the nearest whole number

// Computed with mpmath 1.2.1 by tests/support/elementary_values.py. The first two parts of a step leave room for the
// multiplication with a whole number of 17 bits.
constexpr Twofold ln_2 = {0x1.62e42fefa39efp-1, 0x1.abc9e3b39803fp-56};
constexpr Twofold ln_10 = {0x1.26bb1bbb55516p+1, -0x1.f48ad494ea3e9p-53};
constexpr std::array<double, 3> half_pi = {0x1.921fb54442d18p+0, 0x1.1a62633145c07p-54, -0x1.f1976b7ed8fbcp-110};

// Whether the sum is sure to be rounded alike wherever within `doubt` the true one lies.
bool is_sure(Twofold value, double doubt) {
  return value.high + (value.low - doubt) == value.high + (value.low + doubt);
}

// Without the lower 27 bits: the product of two such numbers loses nothing.
double upper_of(double x) { return std::bit_cast<double>(std::bit_cast<std::uint64_t>(x) & ~std::uint64_t{0x7FFFFFF}); }

constexpr unsigned mantissa_bits = 52;
constexpr int exponent_bias = 1023;

// 2^power, for powers of normal numbers.
double power_of_two(int power) {
  return std::bit_cast<double>(static_cast<std::uint64_t>(power + exponent_bias) << mantissa_bits);
}

// x + half·x² + …, half being 1/2 or -1/2, where the next term has the sign of x³. Up to 2^-50 that sign is all that
// counts of it: it decides where x + x²/2 lies in the middle between two doubles.
constexpr double small = 0x1p-50;
constexpr double tiny = 0x1p-60;  // below it x² leaves no trace beside x

double two_terms(double x, double half) {
  if (std::fabs(x) < tiny) return x;
  const Twofold square = product_of(x, x) * half;
  const Twofold sum = ordered_sum_of(x, square.high);
  return sum.high + (sum.low + (square.low + x * x * x));
}

// 1 + x + x²/2! + … to x^terms, as 1 + x(1 + x/2(1 + x/3(…))).
constexpr Twofold exp_series(Twofold x, int terms) {
  Twofold sum{1, 0};
  for (int n = terms; n > 0; --n) sum = x * sum / n + 1;
  return sum;
}

// log((1 + s)/(1 - s)) = 2(s + s³/3 + s⁵/5 + …).
constexpr Twofold log_series(Twofold s, int terms) {
  const Twofold square = s * s;
  Twofold sum = Twofold{1, 0} / (2 * terms + 1);
  for (int n = terms - 1; n >= 0; --n) sum = sum * square + Twofold{1, 0} / (2 * n + 1);
  return s * sum * 2;
}

// ---- exp: x = (64k + i)·ln 2/64 + r, so exp x = 2^k · 2^(i/64) · exp r with |r| ≤ ln 2/128.

constexpr int exp_steps = 64;
constexpr int exp_terms = 13;
constexpr double doubt_of_exp = 0x1p-65;

constexpr auto powers_of_two = [] {
  std::array<Twofold, exp_steps> table;
  for (int i = 0; i < exp_steps; ++i) table[static_cast<std::size_t>(i)] = exp_series(ln_2 * i / exp_steps, 27);
  return table;
}();

struct ReducedExponent {
  int power = 0;  // k
  Twofold step;   // 2^(i/64)
  Twofold rest;   // r
};

ReducedExponent reduced_exponent(Twofold x) {
  constexpr double first = 0x1.62e42fefap-7;  // ln 2/64 in three parts
  constexpr double second = 0x1.cf79abc9ep-46;
  constexpr double third = 0x1.d9cc01f97b57ap-85;
  const double whole = (x.high * (exp_steps / ln_2.high) + to_whole) - to_whole;
  const auto steps = static_cast<int>(whole);
  const Twofold rest = sum_of(x.high - whole * first, -whole * second) + Twofold{x.low - whole * third, 0};
  const auto i = static_cast<unsigned>(steps) % unsigned{exp_steps};
  return {(steps - static_cast<int>(i)) / exp_steps, powers_of_two[i], rest};
}

// Off by less than 2^-66 of itself.
Twofold quick_exp(const ReducedExponent& x) {
  const double r = x.rest.high;
  const double r_upper = upper_of(r);
  const double step_upper = upper_of(x.step.high);
  const double step_lower = (x.step.high - step_upper) + x.step.low;
  const double series = 1.0 / 6 + r * (1.0 / 24 + r * (1.0 / 120 + r * (1.0 / 720 + r * (1.0 / 5040))));
  const double beyond_r = r * r * (0.5 + r * series) + (x.rest.low + r * x.rest.low);
  const Twofold sum = ordered_sum_of(step_upper, step_upper * r_upper);
  return {sum.high, sum.low + (step_upper * (r - r_upper) + (step_lower + step_lower * r) + x.step.high * beyond_r)};
}

Twofold full_exp(const ReducedExponent& x) { return x.step * exp_series(x.rest, exp_terms); }

// value · 2^power of something positive, rounded once. Below the normal numbers doubles lie on a grid.
double scaled(Twofold value, int power) {
  const double result = std::ldexp(value.rounded(), power);
  if (result >= std::numeric_limits<double>::min()) return result;
  const double grid = std::ldexp(0x1p52, std::numeric_limits<double>::min_exponent - 53 - power);
  const Twofold on_grid = sum_of(grid, value.high);
  return std::ldexp(on_grid.high + (on_grid.low + value.low) - grid, power);
}

constexpr double exp_overflows = 710;
constexpr double exp_vanishes = -746;

// 1 + x, and x²/2 counts only where that lies in the middle between two doubles.
double exp_next_to_zero(double x) {
  const Twofold sum = sum_of(1, x);
  const double half_step = sum.high < 1 ? 0x1p-54 : 0x1p-53;
  return sum.low == half_step ? sum.high + 2 * half_step : sum.high;
}

// Where its last digit is beyond doubt.
std::optional<double> sure_exp(Twofold x, double doubt) {
  constexpr int most = 1000;
  const ReducedExponent reduced = reduced_exponent(x);
  const Twofold value = quick_exp(reduced);
  if (reduced.power < -most || reduced.power > most || !is_sure(value, doubt)) return std::nullopt;
  return value.rounded() * power_of_two(reduced.power);
}

// ---- log: x = 2^k · m, and c is a short number close to 1/m, so log x = k·ln 2 - log c + log(1 + z) with z = cm - 1.

constexpr unsigned log_bits = 7;
constexpr std::size_t log_steps = std::size_t{1} << log_bits;
constexpr std::size_t halved_from = 53;  // from 1 + 53/128 = √2 on, m is taken by its half: it lies about 1

struct LogStep {
  double inverse = 1;  // c, 512 of it a whole number; halved with m
  Twofold log;         // -log c
};

constexpr auto log_table = [] {
  std::array<LogStep, log_steps> table;
  for (std::size_t i = 1; i + 1 < log_steps; ++i) {  // at both ends m is close to 1 or 2, and 1 has no logarithm
    const double halves = i < halved_from ? 1 : 2;
    const double middle = (1 + (static_cast<double>(i) + 0.5) / log_steps) / halves;
    const double c = ((512 / middle + to_whole) - to_whole) / 512;
    table[i] = {c / halves, -log_series(Twofold{c - 1, 0} / (c + 1), 21)};
  }
  table.back().inverse = 0.5;
  return table;
}();

struct ReducedLog {
  double power = 0;  // k
  Twofold step;      // -log c
  Twofold rest;      // z

  Twofold and_log_of_rest(Twofold log_of_rest) const { return ln_2 * power + step + log_of_rest; }
};

// Of a positive number, no subnormal one.
ReducedLog reduced_log(Twofold x) {
  constexpr std::uint64_t mantissa = (std::uint64_t{1} << mantissa_bits) - 1;
  constexpr std::uint64_t one = std::bit_cast<std::uint64_t>(1.0);
  const auto bits = std::bit_cast<std::uint64_t>(x.high);
  const std::size_t i = (bits & mantissa) >> (mantissa_bits - log_bits);
  const int power = static_cast<int>(bits >> mantissa_bits) - exponent_bias;
  const double m = std::bit_cast<double>((bits & mantissa) | one);
  const double m_low = x.low == 0 ? 0 : std::ldexp(x.low, -power);
  const LogStep& step = log_table[i];
  const double upper = upper_of(m);
  const Twofold rest = sum_of(step.inverse * upper - 1, step.inverse * (m - upper));
  return {static_cast<double>(power + (i < halved_from ? 0 : 1)), step.log,
          m_low == 0 ? rest : rest + m_low * step.inverse};
}

// Off by less than 2^-67 of itself.
constexpr double doubt_of_log = 0x1p-66;

Twofold quick_log(const ReducedLog& x) {
  constexpr double ln_2_upper = 0x1.62e42fefa38p-1;  // 42 bits: room for the multiplication with a power
  constexpr double ln_2_lower = 0x1.ef35793c7673p-45;
  const double r = x.rest.high;
  const double upper = upper_of(r);
  const double of_6 = 1.0 / 7 + r * (-1.0 / 8 + r * (1.0 / 9 + r * (-1.0 / 10)));
  const double beyond_square = r * r * r * (1.0 / 3 + r * (-0.25 + r * (0.2 + r * (-1.0 / 6 + r * of_6))));
  const Twofold first = ordered_sum_of(r, -0.5 * upper * upper);
  const double lower = first.low + (beyond_square - 0.5 * (r - upper) * (r + upper)) + (x.rest.low - r * x.rest.low);
  const Twofold whole = sum_of(x.power * ln_2_upper, x.step.high);
  const Twofold sum = sum_of(whole.high, first.high);
  return ordered_sum_of(sum.high, sum.low + (whole.low + (x.power * ln_2_lower + x.step.low) + lower));
}

Twofold full_log(const ReducedLog& x) { return x.and_log_of_rest(log_series(x.rest / (x.rest + 2), 8)); }

double log_of_positive(Twofold x) {
  const ReducedLog reduced = reduced_log(x);
  const Twofold quick = quick_log(reduced);
  if (is_sure(quick, std::fabs(quick.high) * doubt_of_log)) return quick.rounded();
  return full_log(reduced).rounded();
}

// A subnormal number is brought up first; what that adds to the logarithm is taken off again.
constexpr int lift = 64;

ReducedLog reduced_log_of(double x) {
  if (x >= std::numeric_limits<double>::min()) return reduced_log({x, 0});
  ReducedLog lifted = reduced_log({std::ldexp(x, lift), 0});
  lifted.power -= lift;
  return lifted;
}

// What log is where it is no finite number.
double log_beyond(double x) {
  if (x == 0) return -infinite;
  return x > 0 ? x : no_number;
}

bool has_log(double x) { return x > 0 && x < infinite; }

// ---- pow: exp(y·log x).

// What is closer to the middle between two doubles than the working can tell is taken for the middle, as 1.5 to the
// 33rd is one, and goes to the even one.
Twofold on_the_middle(Twofold value) {
  const double coarse = 0x1.8p-42 * std::fabs(value.high);
  return {value.high, (value.low + coarse) - coarse};
}

bool is_whole(double x) { return std::floor(x) == x; }
bool is_odd(double x) { return is_whole(x) && !is_whole(x / 2); }

double pow_of_positive(double base, double exponent) {
  if (std::isinf(exponent) || base == 0 || std::isinf(base)) {
    return base == 1 ? 1 : (base > 1) == (exponent > 0) ? infinite : 0;
  }
  if (exponent == 1) return base;
  const ReducedLog reduced = reduced_log_of(base);
  const Twofold log_of_base = quick_log(reduced);
  const double estimate = log_of_base.high * exponent;
  if (estimate > exp_overflows) return infinite;
  if (estimate < exp_vanishes) return 0;
  if (std::fabs(estimate) < tiny) return 1;
  const double doubt = doubt_of_exp + std::fabs(estimate) * doubt_of_log;
  if (const auto sure = sure_exp(log_of_base * exponent, doubt)) return *sure;
  const ReducedExponent again = reduced_exponent(full_log(reduced) * exponent);
  return scaled(on_the_middle(full_exp(again)), again.power);
}

// ---- sin, cos: x = k·π/2 + r with |r| ≤ π/4.

constexpr double largest_angle = 1e5;

struct Circle {
  Twofold sin;
  Twofold cos;
};

// x - x³/3! + …, and 1 - x²/2! + …
Circle circle_at(Twofold x) {
  const Twofold square = -(x * x);
  Twofold sin{1, 0};
  Twofold cos{1, 0};
  for (int n = 14; n > 0; --n) {
    sin = sin * square / (2.0 * n * (2 * n + 1)) + 1;
    cos = cos * square / (2.0 * n * (2 * n - 1)) + 1;
  }
  return {x * sin, cos};
}

Circle circle_of(double x) {
  const double quarters = (x * (1 / half_pi[0]) + to_whole) - to_whole;
  Twofold rest{x, 0};
  for (const double part : half_pi) rest = rest - product_of(quarters, part);
  const Circle at = circle_at(rest);
  switch (static_cast<unsigned>(static_cast<int>(quarters)) % 4U) {
    case 0:
      return at;
    case 1:
      return {at.cos, -at.sin};
    case 2:
      return {-at.sin, -at.cos};
    default:
      return {-at.cos, at.sin};
  }
}

// The angle in the first quarter whose sine and cosine these are. With an estimate a of it, sin·cos a - cos·sin a is
// the sine d of what is missing, and d + d³/6 that itself: off by d⁵, so two steps do.
Twofold angle_of(Twofold sin, Twofold cos) {
  if (sin.high > cos.high) {
    const Twofold rest = angle_of(cos, sin);
    return sum_of(half_pi[0], half_pi[1]) - rest;
  }
  const double tan = sin.high / cos.high;
  Twofold angle{tan / (1 + 0.28 * tan * tan), 0};
  for (int step = 0; step < 3; ++step) {
    const Circle at = circle_at(angle);
    const Twofold d = sin * at.cos - cos * at.sin;
    angle = angle + (d + d * d * d / 6);
  }
  return angle;
}

// √(1 - x²).
Twofold other_leg(double x) { return root_of(sum_of(1, x) * sum_of(1, -x)); }

}  // namespace

double exp(double x) {
  if (std::isnan(x)) return x;
  if (x > exp_overflows) return infinite;
  if (x < exp_vanishes) return 0;
  if (const auto sure = sure_exp({x, 0}, doubt_of_exp)) return *sure;
  if (std::fabs(x) < 0x1p-52) return exp_next_to_zero(x);
  const ReducedExponent reduced = reduced_exponent({x, 0});
  return scaled(full_exp(reduced), reduced.power);
}

double expm1(double x) {
  constexpr double one_vanishes = 700;
  constexpr double first_step = 0.005;  // up to there exp begins with 1 + x, and nothing is lost in a difference
  if (std::isnan(x)) return x;
  if (x > one_vanishes) return exp(x);
  if (x < -one_vanishes) return -1;
  if (std::fabs(x) < small) return two_terms(x, 0.5);
  if (std::fabs(x) < first_step) {
    Twofold sum{1, 0};
    for (int n = exp_terms; n > 1; --n) sum = sum * x / n + 1;
    return (sum * x).rounded();
  }
  const ReducedExponent reduced = reduced_exponent({x, 0});
  const double scale = power_of_two(reduced.power);
  const Twofold value = full_exp(reduced);
  return (Twofold{value.high * scale, value.low * scale} + -1).rounded();
}

double log(double x) {
  if (!has_log(x)) return log_beyond(x);
  if (std::fabs(x - 1) < small) return two_terms(x - 1, -0.5);
  if (x >= std::numeric_limits<double>::min()) return log_of_positive({x, 0});
  return full_log(reduced_log_of(x)).rounded();
}

double log1p(double x) {
  if (std::fabs(x) < small) return two_terms(x, -0.5);
  return has_log(1 + x) ? log_of_positive(sum_of(1, x)) : log_beyond(1 + x);
}

double log10(double x) { return has_log(x) ? (full_log(reduced_log_of(x)) / ln_10).rounded() : log_beyond(x); }

double pow(double base, double exponent) {
  if (exponent == 0 || base == 1) return 1;
  if (std::isnan(base) || std::isnan(exponent)) return no_number;
  if (!std::signbit(base)) return pow_of_positive(base, exponent);
  if (std::isfinite(base) && base != 0 && !is_whole(exponent)) return no_number;
  const double size = pow_of_positive(-base, exponent);
  return is_odd(exponent) && std::isfinite(exponent) ? -size : size;
}

double hypot(double a, double b) {
  if (std::isinf(a) || std::isinf(b)) return infinite;
  if (std::isnan(a) || std::isnan(b)) return no_number;
  const double larger = std::fmax(std::fabs(a), std::fabs(b));
  if (larger == 0) return 0;
  const int power = std::ilogb(larger);
  const double x = std::ldexp(larger, -power);
  const double y = std::ldexp(std::fmin(std::fabs(a), std::fabs(b)), -power);
  return y < tiny ? larger : scaled(root_of(product_of(x, x) + product_of(y, y)), power);
}

double sin(double x) {
  if (!(std::fabs(x) <= largest_angle)) return no_number;
  return std::fabs(x) < tiny ? x : circle_of(x).sin.rounded();
}

double cos(double x) { return std::fabs(x) <= largest_angle ? circle_of(x).cos.rounded() : no_number; }

double asin(double x) {
  if (std::fabs(x) < tiny) return x;
  if (!(std::fabs(x) <= 1)) return no_number;
  return std::copysign(angle_of({std::fabs(x), 0}, other_leg(x)).rounded(), x);
}

double acos(double x) {
  if (!(std::fabs(x) <= 1)) return no_number;
  const Twofold angle = angle_of(other_leg(x), {std::fabs(x), 0});
  return (x >= 0 ? angle : Twofold{2 * half_pi[0], 2 * half_pi[1]} - angle).rounded();
}

}  // namespace driftwarden::elementary
