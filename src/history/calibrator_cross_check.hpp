// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>
#include <map>
#include <string>
#include <vector>

#include "history/heed.hpp"
#include "statistics/trimmed_mean.hpp"

namespace driftwarden {

// What lies longer ago tells nothing of a calibrator today. (This project's choice.)
inline constexpr Day days_of_a_cross_check = 91;
// So many of the newest readings of a pump with a calibrator are taken together.
inline constexpr std::size_t newest_of_a_pump = 4;
// Fewer pumps can't tell a calibrator from a pump.
inline constexpr std::size_t fewest_pumps = 3;
// By how much a calibrator may be off that nobody states a tolerance of, percent. (This project's choice.)
inline constexpr double tolerance_unless_stated = 2;

// One check of a pump before sampling, from its nominal flow, percent.
struct CrossCheck {
  Row pump = no_row;
  Row calibrator = no_row;
  Moment at = no_moment;
  double percent = missing;
};

// One use of a pump: its drift, percent, and with what it was read before and after.
struct CrossUse {
  Row pump = no_row;
  Row before = no_row;
  Row after = no_row;
  Moment at = no_moment;
  double drift = missing;
};

// By what calibrators can be compared on a day: checks and uses of the last phases of all pumps, not void, of the days
// before it, and since the calibrator's newest certificate, which tells how it was before.
struct CrossReadings {
  std::vector<CrossCheck> checks;
  std::vector<CrossUse> uses;
};
CrossReadings cross_readings(const Screening& screening, const std::vector<InstrumentHistory>& histories, Day as_of);

using AllowedErrors = std::map<Row, double>;  // by calibrator, percent
// What the newest certificate or a rule allows, else tolerance_unless_stated; of all calibrators.
AllowedErrors allowed_errors(const Screening& screening, Day as_of);

// Does a calibrator show something else than the others do?
//
//   checks:  y = a_i + c_j + e
//            D_ij = mean over the newest checks of pump i with calibrator j of ( y - mean of the nearest check before
//            and the nearest after it with another calibrator )
//   uses:    d = h_i + c_after - c_before + e
//            D_ij = (A - B)/2, or A - H, or H - B: A, B, H the mean drift of the newest uses of pump i with j after and
//            another before, with j before and another after, with one calibrator before and after
//   both:    H0: |c_j - c| ≤ δ       p = p_beyond(trimmed_mean over pumps i of D_ij, δ)
//
//   y, d     deviation of the flow from nominal, and drift, percent      a_i, h_i  the pump's own
//   c_j, c   what the calibrator, and the others on average, show too much
//   δ        t_j + t, of what the calibrator, and the others it is compared with on average, are allowed
//   Source   two-way layout without interaction, pumps as blocks (common practice); the mean: trimmed_mean
//   Valid    pumps are independent of each other; how the days of one pump hang together matters not, for a pump counts
//            as one. A pump that goes up or down evenly is no matter where it was read with another before and after.
//            Without it, what moves all pumps at once (heat, another filter) at the change of calibrators looks alike.
//            Pumps that are set to nominal by the calibrator at hand show it in their uses only
//   Example  three pumps with 6.1, 5.9, 6.0 % more, δ 0  ->  mean 6.0, u 0.0577, p 9.3e-5
//
// Where fewer than three pumps were read with it and another, the pumps that were read with it alone are held to those
// that were not: D is the difference of the two trimmed means of their newest checks.
struct CalibratorQuestion {
  Row calibrator = no_row;
  bool is_within_uses = false;  // else by the checks before sampling
  std::size_t pumps = 0;        // read with it
  std::size_t other_pumps = 0;  // that it was not read on, where pumps are held to others; 0: each to itself
  TrimmedMean more;             // D, percent
  double allowed = missing;     // δ
  double p = missing;
  Moment newest = no_moment;

  bool is_on_the_same_pumps() const { return other_pumps == 0; }
};

// Up to two a calibrator, where enough was read.
std::vector<CalibratorQuestion> calibrator_questions(const CrossReadings& readings, const AllowedErrors& allowed);

// What the answers that are rarer than chance allows say.
struct CalibratorSuspicion {
  CalibratorQuestion by;  // the rarest of them
  std::vector<Row> who;   // one of these; where it is told, only it
  bool is_told = false;   // which calibrator it is
};

// A calibrator is told where it alone explains all: without what was read with it, the others agree.
std::vector<CalibratorSuspicion> suspicions_among(const CrossReadings& readings, const AllowedErrors& allowed,
                                                  double chance);

// "On 12 pumps VOL-3 shows 6.0 % more than the others on the same pumps, up to 2026-10-25; …"
std::string said_of(const CalibratorSuspicion& suspicion, const Book& book);
// What to do about it: which reading would tell, or what not to do until it is known.
std::string what_to_do(const CalibratorSuspicion& suspicion, const Book& book);

}  // namespace driftwarden
