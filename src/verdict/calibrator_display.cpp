// SPDX-License-Identifier: MIT
#include "verdict/calibrator_display.hpp"

#include <cmath>

namespace driftwarden {
namespace {

constexpr double supposed_step_l_min = 0.001;

// The whole number of steps that is nearest.
double in_steps(double figure_l_min, double step_l_min) { return std::round(figure_l_min / step_l_min); }

}  // namespace

CalibratorDisplay::CalibratorDisplay(const Screening& screening, Row calibrator, Day on)
    : to_(screening.basis().calibrators.in_common(calibrator, screening.basis().calibrators.certificate(calibrator, on),
                                                  screening.basis().practice.correction)),
      step_l_min_(screening.book().instruments[calibrator].resolution_l_min.value_or(supposed_step_l_min)),
      has_own_step_(screening.book().instruments[calibrator].resolution_l_min.has_value()) {
  if (!(step_l_min_ > 0)) step_l_min_ = supposed_step_l_min;
}

int CalibratorDisplay::decimals() const {
  constexpr int most = 6;
  int decimals = 0;
  double scaled = step_l_min_;
  while (decimals < most && std::abs(scaled - std::round(scaled)) > 1e-6 * scaled) {
    scaled *= 10;
    ++decimals;
  }
  return decimals;
}

ReadingFactor CalibratorDisplay::factor_at(const AirAhead& air) const {
  FactorInputs inputs = to_.inputs;
  inputs.temperature_k = air.temperature_k;
  inputs.pressure_kpa = air.pressure_kpa;
  inputs.humidity = air.humidity;
  return reading_factor(to_.principle, inputs);
}

double CalibratorDisplay::actual_l_min(double indicated_l_min, const AirAhead& air) const {
  return correct_reading(indicated_l_min, to_.curve, factor_at(air)).actual_l_min;
}

// The step nearest to an end of the band that keeps it; towards the inside of the band it is sought.
double CalibratorDisplay::step_kept(double flow_l_min, const FlowBand& band, const ReadingFactor& factor,
                                    int towards) const {
  if (!std::isfinite(flow_l_min)) return missing;
  const double at_end = expected_indication(flow_l_min, to_.curve, factor).indicated_l_min;
  if (is_missing(at_end)) return missing;
  const auto keeps = [&](double steps) {
    const double actual = correct_reading(steps * step_l_min_, to_.curve, factor).actual_l_min;
    return !is_missing(actual) && band.holds(actual);
  };
  constexpr int farthest = 3;  // rounding moves the end by half a step, an end that is excluded by one more
  double steps = in_steps(at_end, step_l_min_) - towards;
  for (int i = 0; i <= farthest; ++i, steps += towards) {
    if (keeps(steps)) return steps * step_l_min_;
  }
  return missing;  // no step of the display lies in the band
}

DisplayBand CalibratorDisplay::should_show(double nominal_l_min, const FlowBand& band, const AirAhead& air) const {
  const ReadingFactor factor = factor_at(air);
  const ExpectedIndication nominal = expected_indication(nominal_l_min, to_.curve, factor);
  DisplayBand shown;
  shown.lack = nominal.lack;
  shown.is_outside_certificate = nominal.is_outside_certificate;
  if (!is_missing(nominal.indicated_l_min))
    shown.nominal = in_steps(nominal.indicated_l_min, step_l_min_) * step_l_min_;
  shown.low = step_kept(band.low_l_min, band, factor, 1);
  shown.high = step_kept(band.high_l_min, band, factor, -1);
  const bool has_band = std::isfinite(band.low_l_min) || std::isfinite(band.high_l_min);
  shown.has_no_step = has_band && !is_missing(shown.nominal) && is_missing(shown.low) && is_missing(shown.high);
  return shown;
}

}  // namespace driftwarden
