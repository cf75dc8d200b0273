// SPDX-License-Identifier: MIT
#pragma once

// The functions of school that a machine has no instruction for, with the same bits on every machine: only additions,
// subtractions, multiplications, divisions, square roots and bits go into them, each of which IEEE 754 rounds in one
// way. What a system's own library gives for them differs between systems, and between processors of one system.
//
// Rounded correctly: the double nearest to the true value, a tie to the even one. Proven for none, tested for hundreds
// of thousands; the working has about 98 bits, so an argument for which it does not do would be met once in 10^13.
// Special values are those of C (ISO/IEC 9899, Annex F). Round-to-nearest is taken for granted.
namespace driftwarden::elementary {

double exp(double x);
// exp(x) - 1.
double expm1(double x);

double log(double x);
// log(1 + x).
double log1p(double x);
double log10(double x);

double pow(double base, double exponent);

// √(a² + b²).
double hypot(double a, double b);

// Angles in radians, up to 10^5 either way; NaN beyond.
double sin(double x);
double cos(double x);
double asin(double x);
double acos(double x);

}  // namespace driftwarden::elementary
