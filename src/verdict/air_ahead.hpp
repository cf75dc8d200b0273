// SPDX-License-Identifier: MIT
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "verdict/screening.hpp"

namespace driftwarden {

// Air at which a calibrator will be read; a missing figure is NaN.
struct AirAhead {
  double temperature_k = missing;
  double pressure_kpa = missing;
  double humidity = missing;
};

// What is said beforehand of the air; the rest is supposed.
struct SaidAir {
  std::optional<double> temperature_k;
  std::optional<double> pressure_kpa;
  std::optional<double> humidity;
};

// The air around which a sheet's table is made, and where each figure is from: "as given", "as at the last reading,
// 2026-11-13", "at the site's altitude".
struct AirExpected {
  AirAhead air;
  std::string temperature_from;
  std::string pressure_from;
  std::string humidity_from;
};

// As said; else as the book's newest reading up to a day that has such a figure, the temperature to 5 °C and the
// pressure to 1 kPa; else the site's pressure by its altitude. What nobody says stays missing.
AirExpected air_expected(const Screening& screening, const SaidAir& said, Day as_of);

// The calibrator that was read with last, up to a day; no_row: none.
Row calibrator_used_last(const Book& book, Day as_of);

// Figures around a centre, in equal steps: `each_side` of them below and as many above.
std::vector<double> around(double centre, double step, int each_side);

}  // namespace driftwarden
