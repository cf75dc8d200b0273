// SPDX-License-Identifier: MIT
#pragma once

#include <optional>
#include <span>
#include <vector>

#include "assessment/sample_assessment.hpp"
#include "doubt/replicates.hpp"
#include "statistics/terminal_digits.hpp"

namespace driftwarden {

// The first readings of a pump's sets after sampling at one flow, in order of time. Those after the first of a set are
// of the same flow, and say nothing new of its last digit; before sampling a pump may be set until just this figure
// shows.
using FirstReadings = std::vector<double>;

// The last digits of one calibrator's first readings, and how its display steps in units of that digit.
struct LastDigits {
  DigitCounts counts{};
  unsigned step = 1;

  std::size_t readings() const;
  std::size_t most_frequent() const;
};

inline constexpr std::size_t fewest_last_digits = 50;

// The last digits as displayed: of the coarsest decimal place of L/min on which all readings lie. The display's step is
// the stated resolution, else the coarsest that fits the digits seen.
//
// A pump that returns to its flow makes the same digits again, honestly: only those of pumps count whose readings
// differ from use to use by half a cycle of ten or more, in the median.
//
// Empty where the digits need not be even: fewer than 50 readings; readings finer than the display, or in no decimal
// place of L/min.
std::optional<LastDigits> last_digits_of(std::span<const FirstReadings> pumps, std::optional<double> resolution_l_min);

// Calibrators whose last digits are not spread as chance spreads them, by p below `false_doubts_a_book`, adjusted for
// the number of calibrators by Holm's method: doubt/last-digits.
void note_last_digits(const Book& book, const std::vector<Replicates>& all, const SamplerFacts& samplers,
                      Diagnostics& doubts);

}  // namespace driftwarden
