// SPDX-License-Identifier: MIT
#pragma once

#include "aerosol/cut_law.hpp"
#include "aerosol/size_distribution.hpp"
#include "statistics/bounds.hpp"

namespace driftwarden {

// A preselector: a lognormal penetration curve whose cut goes with the flow, and whose spread does not.
struct Preselector {
  CutLaw cut;
  double spread = no_figure;
};

// What a flow that isn't the nominal one does to a concentration, as ratios: 0.05 is 5 % too much. A `Figure` is a
// number, for one aerosol, or its bounds, for a family of them.
template <class Figure>
struct MassErrors {
  // Against the same preselector at its nominal flow.
  Figure by_actual_volume{no_figure};
  Figure by_nominal_volume{no_figure};
  // Against a convention: at the nominal flow, and at the actual one by either volume.
  Figure bias_at_nominal{no_figure};
  Figure bias_by_actual_volume{no_figure};
  Figure bias_by_nominal_volume{no_figure};
  // Of the aerosol's mass, what the preselector lets through at the nominal flow and at the actual one, and what the
  // convention takes.
  Figure share_at_nominal{no_figure};
  Figure share_at_flow{no_figure};
  Figure share_of_convention{no_figure};
};
using MassError = MassErrors<double>;

// Error of a concentration behind a preselector that ran at another flow than its nominal one.
//
//   e_actual = F/F₀ − 1      e_nominal = F Q / (F₀ Q₀) − 1
//   b_0 = F₀/S − 1           b_actual = F/S − 1           b_nominal = F Q / (S Q₀) − 1
//
//   F, F₀  share of the aerosol that the preselector lets through at the flow and at the nominal one
//   Q, Q₀  actual volume flow and the nominal one, L/min      S  share that the convention takes
//   actual, nominal: the flow from which the air volume was worked out
//   Source   mass = concentration · Q · F · time, divided by the volume
//   Valid    as cut_at_flow and sampled_share, NaN outside; the biases are NaN without S. A model of what the flow does
//            to the cut, never a correction of a result: nothing of the inlet, of losses, of other distributions
//   Example  4 µm at 2.0 L/min, spread 1.25, n 0.75, at 1.9 L/min, an aerosol of 5 µm, 2: +5.34 % by the actual volume,
//            +0.07 % by the nominal one
MassError mass_error(const Preselector& preselector, double flow_l_min, const LognormalAerosol& of,
                     double convention_share = no_figure);

// The error by the actual volume where the cut stands at so many µm.
double error_of_cut(const Preselector& preselector, double cut_um, const LognormalAerosol& of);

// The mass median diameter, µm, at which that error is so much for aerosols of a spread: what is finer is less off.
// Missing where none between the ends has it.
double mmad_of_error(const Preselector& preselector, double cut_um, double error, double gsd, const Bounds& mmad_um);

// An error by the actual volume, as it is by a volume that was formed with another flow.
//
//   e' = (1 + e) · Q/Q' − 1
//
//   e  of the concentration by the actual volume, against anything that no volume takes part in: the nominal cut, a
//      convention      Q, Q'  actual flow, and the one that the volume is formed with, L/min
//   Source   a concentration is the mass divided by the volume, and that goes as its flow
//   Valid    flows above 0; NaN where a figure is missing
//   Example  +5.34 % at 1.9 L/min is +0.07 % by a volume formed with 2.0 L/min
double error_by_volume(double by_actual_volume, double flow_l_min, double formed_with_l_min);
Bounds error_by_volume(const Bounds& by_actual_volume, double flow_l_min, double formed_with_l_min);

}  // namespace driftwarden
