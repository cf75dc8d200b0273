// SPDX-License-Identifier: MIT
#pragma once

#include <cstdint>
#include <map>
#include <span>
#include <vector>

#include "correction/certificate_error.hpp"

namespace driftwarden {

using ErrorCurve = std::vector<ErrorPoint>;  // sorted by indication, each indication once

// What calibrators' errors are supposed to have been where that is not what their certificates say: of one instrument
// by the day of the reading, of those it was the standard of by the certificate.
struct SupposedErrors {
  Row instrument = no_row;
  Day from = no_day;               // the first day; no_day: ever since
  Day until = no_day;              // the day on which they end, not one of theirs
  std::vector<ErrorCurve> by_day;  // one a day; or one that holds on all of them
  std::map<std::int32_t, ErrorCurve> by_certificate;

  // nullptr where the certificate's own errors hold.
  const ErrorCurve* curve(Row calibrator, std::int32_t certificate, Day on) const;
};

// Error on the way from the error as left to the error as found.
//
//   e = e_left + (e_found − e_left) · s
//
//   e   relative error, ratio, each by its own curve at the same indication      s  share of the way, 0 to 1
//   Source   linear interpolation; that an error grows evenly is an assumption, not an observation
//   Valid    s = (day − day left) / (day found − day left), in whole days
//   Example  left at −0.2 %, found at 6 %, half of the days gone  ->  2.9 %
ErrorCurve error_on_the_way(std::span<const ErrorPoint> left, std::span<const ErrorPoint> found, double share);

// A certificate as it would read had its standard's error been another one than it was corrected for.
//
//   q_ref' = q_ref · (1 + e_stated) / (1 + e_supposed)
//
//   q_ref, q_ref'  true flow at a point, as certified and as supposed, L/min
//   e_stated, e_supposed  the standard's relative error at its indication q_ref · (1 + e_stated), ratio
//   Source   the standard's indication q is q_ref (1 + e_stated), since its certificate was applied; with the supposed
//            error the same indication meant q / (1 + e_supposed)
//   Valid    1 + e_supposed above zero (else the point has no true flow). e_stated is taken at q_ref itself, which is
//            exact where it does not change between q_ref and the indication. Flows on different bases (a rotameter's
//            scale, standard conditions) shift by the same ratio, but the standard's errors are looked up at the
//            certificate's figures
//   Example  2.000 L/min against a standard stated to show 0.2 % too little that in truth showed 6 % too much
//            ->  2.000 · 0.998 / 1.06 = 1.8830 L/min
Certificate with_other_standard(const Certificate& certificate, std::span<const ErrorPoint> stated,
                                std::span<const ErrorPoint> supposed);

}  // namespace driftwarden
