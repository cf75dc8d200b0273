// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>
#include <limits>
#include <span>
#include <vector>

#include "correction/certificate_in_force.hpp"

namespace driftwarden {

// How fast a calibrator's error has moved from certificate to certificate, relative to the flow.
//
//   r = √( Σ Δ_i² / Σ d_i² )        u = r · d
//
//   Δ_i      change of the relative error from as left by one certificate to as found by the next, ratio; its square is
//            the mean over the points found
//   d_i, d   days between the two; days since the certificate in force
//   r, u     change a day; standard uncertainty of the error by what it may have moved since the certificate
//   Source   JCGM 100 (GUM) F.2.4.5: a change that is known and not corrected for is part of the uncertainty, so the
//            squares are about zero and not about their mean; that the error grows evenly is this project's choice
//   Valid    intervals closed by the certificate in force or one before it: what is found later changes no earlier u.
//            It has as many degrees of freedom as there are intervals. A knock on the way is not in it
//   Example  found 0.2 % and then 0.4 % high after 100 and 200 d: r = √(0.2² + 0.4²) / √(100² + 200²) = 0.002 % a day,
//            50 d later u = 0.1 %
struct CalibratorDrift {
  double per_day = std::numeric_limits<double>::quiet_NaN();  // NaN: no interval was closed
  std::size_t intervals = 0;

  double after_days(double days) const { return per_day * days; }
};

// For each certificate what is known on the days it is in force.
std::vector<CalibratorDrift> calibrator_drifts(std::span<const Certificate> certificates,
                                               const CertificateHistory& history, std::size_t instruments);

}  // namespace driftwarden
