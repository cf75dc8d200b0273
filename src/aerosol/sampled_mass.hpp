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

}  // namespace driftwarden
