// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>

namespace driftwarden {

// What was found, less what field blanks carry that saw no air: both in mg, or in fibres.
//
//   m = m_found - b̄          of a medium that is weighed: m_found = W_after - W_before
//
//   b̄        mean of the blanks of its batch
//   Source   NMAM 0501, Issue 1 (8 May 2015), page 3, its formula of the concentration: the weight gained less that
//            gained by the blanks on average; 29 CFR 1926.1101 Appendix A ¶11: blanks are averaged and subtracted
//   Valid    blanks handled like the samples; negative where they carry more than the sample
//   Example  15.310 to 15.842 mg, blanks 14.998 to 15.004 mg on average  ->  0.532 - 0.006 = 0.526 mg
constexpr double net_amount(double found, double mean_of_blanks) { return found - mean_of_blanks; }

// Mean concentration over the sampling time.
//
//   c = 1000 · m / V          of fibres: c = N / (1000 · V)
//
//   c   mg/m3; of fibres per cm3     m  mg     N  fibres on the whole medium     V  volume of air, L
//   Source   NMAM 0501, Issue 1 (8 May 2015), page 3: mass in mg over the volume in L, in mg/m3, hence the 1000;
//            1 L = 1000 cm3
//   Valid    V > 0, and all of the air through the medium
//   Example  0.526 mg in 1.95 L/min x 455 min = 887.25 L  ->  0.5928 mg/m3
constexpr double concentration(double amount, double volume_l, bool is_of_fibres) {
  return is_of_fibres ? amount / (1000 * volume_l) : 1000 * amount / volume_l;
}

// Standard uncertainty of the blank that is taken off a sample: it is the mean of others, and what the sample's own
// medium carried scatters about that as they do.
//
//   u = s · √(1 + 1/n)
//
//   s   standard deviation of the n blanks (divisor n - 1), with n - 1 degrees of freedom
//   Source   NIST/SEMATECH e-Handbook 7.2.1: a further value of a normal population against the mean of n
//   Valid    n ≥ 2 blanks of one population, normally distributed; NaN below two
//   Example  s = 0.002 mg of 3 blanks  ->  0.0023094 mg
double uncertainty_of_blank(double s, std::size_t n);

// The same of blanks in which less than the limit was found: they are counted as nothing, and may be anything up to it.
//
//   u = (k / n) · L / √3
//
//   L   the largest of their limits     k of the n blanks are less than theirs
//   Source   JCGM 100 (GUM) 4.3.7: the root mean square of the distance from 0 of a value anywhere between 0 and L
//   Valid    taken as one and the same for all of them, which is the most it can be
//   Example  2 of 4 blanks below 0.03 mg  ->  0.0086603 mg
double uncertainty_of_unseen(double limit, std::size_t unseen, std::size_t blanks);

}  // namespace driftwarden
