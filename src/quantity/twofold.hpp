// SPDX-License-Identifier: MIT
#pragma once

#include <cfloat>
#include <cmath>

#ifdef __FAST_MATH__
#error "fast-math reorders sums: what is taken for lost digits here would be nothing"
#endif
static_assert(FLT_EVAL_METHOD == 0, "sums and products must be rounded to a double, each (32-bit x86: -mfpmath=sse)");

namespace driftwarden {

// A number as the sum of two doubles, the second below the last digit of the first: about 104 bits. Only additions,
// subtractions, multiplications, divisions and square roots, which every machine rounds alike.
//
//   Source   T. J. Dekker, A floating-point technique for extending the available precision, Numer. Math. 18 (1971);
//            D. E. Knuth, The Art of Computer Programming 2, 4.2.2, theorems A to C
//   Valid    no overflow, and no digits below 2^-1022: magnitudes between about 2^-900 and 2^900
struct Twofold {
  double high = 0;
  double low = 0;

  constexpr double rounded() const { return high + low; }
};

// a + b without any loss.
constexpr Twofold sum_of(double a, double b) {
  const double sum = a + b;
  const double of_b = sum - a;
  return {sum, (a - (sum - of_b)) + (b - of_b)};
}

// As sum_of, where a is the larger one, or zero.
constexpr Twofold ordered_sum_of(double a, double b) {
  const double sum = a + b;
  return {sum, b - (sum - a)};
}

// The upper 26 bits and the rest.
constexpr Twofold halves_of(double a) {
  const double shifted = a * 0x1.0000002p27;
  const double upper = shifted - (shifted - a);
  return {upper, a - upper};
}

// a · b without any loss.
constexpr Twofold product_of(double a, double b) {
  const double product = a * b;
  const Twofold x = halves_of(a);
  const Twofold y = halves_of(b);
  return {product, ((x.high * y.high - product) + x.high * y.low + x.low * y.high) + x.low * y.low};
}

constexpr Twofold operator-(Twofold a) { return {-a.high, -a.low}; }

constexpr Twofold operator+(Twofold a, Twofold b) {
  const Twofold highs = sum_of(a.high, b.high);
  const Twofold lows = sum_of(a.low, b.low);
  const Twofold sum = ordered_sum_of(highs.high, highs.low + lows.high);
  return ordered_sum_of(sum.high, sum.low + lows.low);
}

constexpr Twofold operator+(Twofold a, double b) {
  const Twofold sum = sum_of(a.high, b);
  return ordered_sum_of(sum.high, sum.low + a.low);
}

constexpr Twofold operator-(Twofold a, Twofold b) { return a + -b; }

constexpr Twofold operator*(Twofold a, Twofold b) {
  const Twofold product = product_of(a.high, b.high);
  return ordered_sum_of(product.high, product.low + (a.high * b.low + a.low * b.high));
}

constexpr Twofold operator*(Twofold a, double b) {
  const Twofold product = product_of(a.high, b);
  return ordered_sum_of(product.high, product.low + a.low * b);
}

// The quotient of the upper parts, and that of what it leaves.
constexpr Twofold operator/(Twofold a, Twofold b) {
  const double quotient = a.high / b.high;
  const Twofold left = a - b * quotient;
  return ordered_sum_of(quotient, left.high / b.high);
}

constexpr Twofold operator/(Twofold a, double b) { return a / Twofold{b, 0}; }

inline Twofold root_of(Twofold a) {
  if (a.high == 0) return {};
  const double root = std::sqrt(a.high);
  const Twofold left = a - product_of(root, root);
  return ordered_sum_of(root, left.high / (2 * root));
}

}  // namespace driftwarden
