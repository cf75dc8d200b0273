// SPDX-License-Identifier: MIT
#pragma once

namespace driftwarden {

// Mean free path of the molecules of air at 20 °C and 101 kPa, µm. From memory; 0.066 µm was read (University of
// Florida, Aerosol Transport, section 6).
inline constexpr double mean_free_path_of_air_um = 0.0664;

// Slip correction: by how much more easily a small particle moves through a gas than Stokes' law says.
//
//   C = 1 + Kn · (1.257 + 0.4 e^(−1.1/Kn)),   Kn = 2λ/d
//
//   d  diameter, µm      λ  mean free path of the gas, µm; 0 leaves the correction out
//   Source   C. N. Davies, Proc. Phys. Soc. 57 (1945) 259, from memory; form and constants read where they are quoted
//   Valid    d > 0, λ ≥ 0; NaN otherwise
//   Example  1 µm, 0.0664 µm: 1.1669
double slip_correction(double d_um, double mean_free_path_um);

// How the slip correction goes with the diameter.
//
//   d ln C / d ln d = −( Kn · (1.257 + 0.4 E) + 0.44 E ) / C,   E = e^(−1.1/Kn)
//
//   d, λ, Kn, C  as above
//   Source   the derivative of the C above
//   Valid    as C
//   Example  4 µm, 0.0664 µm: −0.0401
double slip_slope(double d_um, double mean_free_path_um);

// The diameter that a particle has of which slip makes another.
//
//   d · √C(d) = a, solved for d:  d² + 2λ k d = a²,   k = 1.257 + 0.4 e^(−1.1 d / 2λ)
//
//   a  diameter that would have the same inertia, or settle as fast, without slip, µm      λ  mean free path, µm
//   Source   the definition of C above; the quadratic is solved with the k of the d before, which brings d nearer by a
//            factor of nine at least
//   Valid    a > 0, λ ≥ 0, to the last digits; NaN otherwise
//   Example  4.0826 µm, 0.0664 µm: 4.0000 µm
double without_slip(double a_um, double mean_free_path_um);

}  // namespace driftwarden
