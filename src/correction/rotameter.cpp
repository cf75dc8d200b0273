// SPDX-License-Identifier: MIT
#include "correction/rotameter.hpp"

#include <cmath>

#include "quantity/limit.hpp"

namespace driftwarden {

namespace {

bool is_beyond(double figure, double base, double ratio) {
  return side_of_limit(std::fabs(figure - base) / base, ratio) == Side::above;
}

}  // namespace

double rotameter_factor(Conditions scale, Conditions use) {
  return rotameter_factor(in_numbers(scale), in_numbers(use));
}

bool differs_by_more_than(Conditions a, Conditions b, double ratio) {
  return is_beyond(b.temperature.kelvin, a.temperature.kelvin, ratio) ||
         is_beyond(b.pressure.value, a.pressure.value, ratio);
}

}  // namespace driftwarden
