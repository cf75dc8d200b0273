// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <vector>

#include "correction/expected_indication.hpp"
#include "rule/flow_band.hpp"
#include "verdict/air_ahead.hpp"
#include "verdict/screening.hpp"

namespace driftwarden {

// What a calibrator's display should show, in whole steps of it, L/min. An end that there is not, or that nobody can
// work out, is NaN.
struct DisplayBand {
  double nominal = missing;  // the step nearest to the nominal flow
  double low = missing;      // the lowest and the highest step that the rules hold good
  double high = missing;
  FactorLack lack = FactorLack::nothing;
  bool is_outside_certificate = false;  // at the nominal flow
  bool has_no_step = false;             // there is a band, and no step of the display lies in it
};

// A calibrator's display on a day. The book behind the screening has to outlive it.
class CalibratorDisplay {
 public:
  CalibratorDisplay(const Screening& screening, Row calibrator, Day on);

  // What it should show, by the inverse of the corrections; each figure, sent back through them, is the nominal flow
  // within half a step of the display, or keeps the band, and one step further does not.
  DisplayBand should_show(double nominal_l_min, const FlowBand& band, const AirAhead& air) const;
  // The flow that an indication is corrected to; missing where something lacks.
  double actual_l_min(double indicated_l_min, const AirAhead& air) const;

  double step_l_min() const { return step_l_min_; }
  int decimals() const;                                // of its step
  bool has_own_step() const { return has_own_step_; }  // else a step of 0.001 L/min is supposed

 private:
  ReadingFactor factor_at(const AirAhead& air) const;
  double step_kept(double flow_l_min, const FlowBand& band, const ReadingFactor& factor, int towards) const;

  ToCorrect to_;
  double step_l_min_;
  bool has_own_step_;
};

}  // namespace driftwarden
