// SPDX-License-Identifier: MIT
#pragma once

#include "aerosol/slip.hpp"
#include "statistics/bounds.hpp"

namespace driftwarden {

// The jets of an impactor's stage, all alike.
struct Jets {
  int count = 1;
  double width_mm = no_figure;   // diameter of round ones
  double length_mm = 0;          // of slots; 0: they are round
  double stokes_50 = no_figure;  // Stokes number at 50 %, where it is known; else that of the shape
};

// Air at 20 °C and 101 kPa; from memory.
struct AirInJets {
  double viscosity_pa_s = 1.81e-5;
  double density_kg_m3 = 1.2;
  double mean_free_path_um = mean_free_path_of_air_um;
};

// The 50 % cut of an impactor from its shape.
//
//   d · √C(d) = √( 9 μ W Stk50 / (ρ₀ U) ),   U = Q / (n A)
//
//   d  µm      C  slip correction      μ  viscosity, Pa s      W  width of a jet, m      ρ₀  1000 kg/m³
//   U  mean velocity in the jets, m/s     Q  actual volume flow, m³/s     n, A  number of jets and area of one, m²
//   Stk50    Stokes number at 50 %: 0.24 for round jets and 0.59 for slots, unless the jets have their own
//   Source   definition of the Stokes number, from memory; 0.24 and 0.59 were read (University of Florida, Aerosol
//            Transport, section 9)
//   Valid    jets of the usual proportions with a Reynolds number of some 500 to 3000 (from memory); NaN for figures
//            that are missing or not above 0
//   Example  one round jet of 2.63 mm, 2.0 L/min: 4.011 µm
double jet_cut_um(const Jets& jets, double flow_l_min, const AirInJets& air = {});

// Reynolds number of the flow in a jet.
//
//   Re = ρ U D / μ
//
//   ρ  density of the air, kg/m³      D  hydraulic diameter: W of a round jet, 2 W of a long slot
//   Source   textbook definition
//   Valid    NaN for figures that are missing or not above 0
//   Example  one round jet of 2.63 mm, 2.0 L/min: 1070
double jet_reynolds(const Jets& jets, double flow_l_min, const AirInJets& air = {});

}  // namespace driftwarden
