// SPDX-License-Identifier: MIT
#pragma once

#include <optional>
#include <span>
#include <vector>

#include "assessment/sample_assessment.hpp"
#include "statistics/terminal_digits.hpp"
#include "verdict/replicates.hpp"

namespace driftwarden {

// The first reading of a set. Those after it are of the same flow, and say nothing new of its last digit.
struct FirstReading {
  double indicated_l_min = missing;
  double set_to_l_min = missing;  // the flow that the pump may have been set to just before
};

// The last digits of one calibrator's first readings, and how its display steps in units of that digit.
struct LastDigits {
  DigitCounts counts{};
  unsigned step = 1;

  std::size_t readings() const;
  std::size_t most_frequent() const;
};

inline constexpr std::size_t fewest_last_digits = 50;

// The last digits as displayed: of the coarsest decimal place of L/min on which all readings lie. A reading within five
// units of the flow that the pump was set to is left out, for a pump may be set until just this figure shows; whole
// cycles of ten digits are, so that no digit is left out more than another. The display's step is the stated
// resolution, else the coarsest that fits the digits seen.
//
// Empty where the digits need not be even: fewer than 50 readings; readings finer than the display, or in no decimal
// place of L/min; more than a quarter of them within one cycle of ten.
std::optional<LastDigits> last_digits_of(std::span<const FirstReading> readings,
                                         std::optional<double> resolution_l_min);

// From this p on, adjusted for the number of calibrators by Holm's method, last digits are told as uneven.
inline constexpr double rarest_last_digits = 0.001;

// Calibrators whose last digits are not spread as chance spreads them: doubt/last-digits.
void note_last_digits(const Book& book, const std::vector<Replicates>& all, const SamplerFacts& samplers,
                      Diagnostics& doubts);

}  // namespace driftwarden
