// SPDX-License-Identifier: MIT
#pragma once

#include <cmath>
#include <compare>
#include <limits>
#include <ostream>
#include <type_traits>

#include "quantity/elementary.hpp"

namespace driftwarden {

// A double whose exp, log, pow and their like are those of quantity/elementary, for Boost.Math, which finds them by the
// type of what it works with. With it Boost neither goes over to a wider type, nor adds up two numbers at a time where
// a processor can, nor asks the system's library; what is left are operations that every machine rounds alike.
class PortableNumber {
 public:
  constexpr PortableNumber() = default;
  template <class Number>
  requires std::is_arithmetic_v<Number>
  constexpr PortableNumber(Number value) : value_(static_cast<double>(value)) {}  // Boost's constants of every type

  template <class Number>
  requires std::is_arithmetic_v<Number>
  constexpr explicit operator Number() const { return static_cast<Number>(value_); }
  constexpr double value() const { return value_; }

  constexpr PortableNumber operator-() const { return -value_; }
  constexpr PortableNumber operator+() const { return value_; }
  constexpr PortableNumber& operator+=(PortableNumber other) { return *this = *this + other; }
  constexpr PortableNumber& operator-=(PortableNumber other) { return *this = *this - other; }
  constexpr PortableNumber& operator*=(PortableNumber other) { return *this = *this * other; }
  constexpr PortableNumber& operator/=(PortableNumber other) { return *this = *this / other; }

  friend constexpr PortableNumber operator+(PortableNumber a, PortableNumber b) { return a.value_ + b.value_; }
  friend constexpr PortableNumber operator-(PortableNumber a, PortableNumber b) { return a.value_ - b.value_; }
  friend constexpr PortableNumber operator*(PortableNumber a, PortableNumber b) { return a.value_ * b.value_; }
  friend constexpr PortableNumber operator/(PortableNumber a, PortableNumber b) { return a.value_ / b.value_; }
  friend constexpr bool operator==(PortableNumber a, PortableNumber b) { return a.value_ == b.value_; }
  friend constexpr auto operator<=>(PortableNumber a, PortableNumber b) { return a.value_ <=> b.value_; }

  friend PortableNumber exp(PortableNumber x) { return elementary::exp(x.value_); }
  friend PortableNumber expm1(PortableNumber x) { return elementary::expm1(x.value_); }
  friend PortableNumber log(PortableNumber x) { return elementary::log(x.value_); }
  friend PortableNumber log1p(PortableNumber x) { return elementary::log1p(x.value_); }
  friend PortableNumber pow(PortableNumber x, PortableNumber y) { return elementary::pow(x.value_, y.value_); }
  friend PortableNumber sin(PortableNumber x) { return elementary::sin(x.value_); }
  friend PortableNumber cos(PortableNumber x) { return elementary::cos(x.value_); }
  friend PortableNumber asin(PortableNumber x) { return elementary::asin(x.value_); }
  friend PortableNumber acos(PortableNumber x) { return elementary::acos(x.value_); }

  // These are exact, or rounded by IEEE 754, everywhere.
  friend PortableNumber sqrt(PortableNumber x) { return std::sqrt(x.value_); }
  friend PortableNumber fabs(PortableNumber x) { return std::fabs(x.value_); }
  friend PortableNumber abs(PortableNumber x) { return std::fabs(x.value_); }
  friend PortableNumber floor(PortableNumber x) { return std::floor(x.value_); }
  friend PortableNumber ceil(PortableNumber x) { return std::ceil(x.value_); }
  friend PortableNumber ldexp(PortableNumber x, int power) { return std::ldexp(x.value_, power); }
  friend PortableNumber frexp(PortableNumber x, int* power) { return std::frexp(x.value_, power); }

  friend std::ostream& operator<<(std::ostream& out, PortableNumber x) { return out << x.value_; }

 private:
  double value_ = 0;
};

}  // namespace driftwarden

template <>
class std::numeric_limits<driftwarden::PortableNumber> : public std::numeric_limits<double> {
  using Number = driftwarden::PortableNumber;
  using OfDouble = std::numeric_limits<double>;

 public:
  static constexpr Number min() { return OfDouble::min(); }
  static constexpr Number max() { return OfDouble::max(); }
  static constexpr Number lowest() { return OfDouble::lowest(); }
  static constexpr Number epsilon() { return OfDouble::epsilon(); }
  static constexpr Number infinity() { return OfDouble::infinity(); }
  static constexpr Number quiet_NaN() { return OfDouble::quiet_NaN(); }
};
