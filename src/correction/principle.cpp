// SPDX-License-Identifier: MIT
#include "correction/principle.hpp"

#include <iterator>

#include "correction/mass_meter.hpp"
#include "correction/orifice.hpp"
#include "correction/rotameter.hpp"
#include "correction/vapour_pressure.hpp"
#include "quantity/rounding.hpp"
#include "quantity/written.hpp"

namespace driftwarden {

namespace {

using Lack = FactorLack;

constexpr PrincipleStep left_alone{1, Lack::nothing, true};

PrincipleStep lacking(Lack lack) { return {missing, lack}; }

// Comparisons are written so that a missing figure fails them.
bool is_usable(double absolute) { return absolute > 0; }

Conditions air_of(const FactorInputs& in) { return {Temperature(in.temperature_k), Pressure(in.pressure_kpa)}; }

Lack lack_of_air(const FactorInputs& in) {
  if (!is_usable(in.temperature_k)) return Lack::temperature;
  if (!is_usable(in.pressure_kpa)) return Lack::pressure;
  return Lack::nothing;
}

std::optional<Conditions> scale_of(const FactorInputs& in) {
  if (!in.scale_temperature || !is_usable(in.scale_temperature->kelvin)) return std::nullopt;
  if (!in.scale_pressure || !is_usable(in.scale_pressure->value)) return std::nullopt;
  return Conditions{*in.scale_temperature, *in.scale_pressure};
}

Written kelvin_text(double kelvin) { return {kelvin, with_decimals(kelvin, 2)}; }
Written kpa_text(double kpa) { return {kpa, with_decimals(kpa, 3)}; }

ConditionsIn<Written> written_air(const FactorInputs& in) {
  return {kelvin_text(in.temperature_k), kpa_text(in.pressure_kpa)};
}
ConditionsIn<Written> written_scale(const FactorInputs& in) {
  return {kelvin_text(in.scale_temperature->kelvin), kpa_text(in.scale_pressure->value)};
}

Slopes no_slopes(const FactorInputs&) { return {}; }
std::string no_formula(const FactorInputs&) { return "1"; }
Correction nothing_left_out(const FactorInputs&) { return Correction::none; }

// Whether a rotameter's reading stands for the flow, by a practice that leaves it uncorrected.
bool is_read_off(const FactorInputs& in) {
  const RotameterCorrection practice = in.practice.rotameter;
  if (practice != RotameterCorrection::beyond_5_percent) return practice == RotameterCorrection::never;
  const std::optional<Conditions> scale = scale_of(in);
  return scale && !differs_by_more_than(*scale, air_of(in), 0.05);
}

PrincipleStep rotameter_step(const FactorInputs& in) {
  if (in.practice.rotameter == RotameterCorrection::never) return left_alone;
  if (const Lack lack = lack_of_air(in); lack != Lack::nothing) return lacking(lack);
  const std::optional<Conditions> scale = scale_of(in);
  if (!scale) return lacking(Lack::scale_conditions);
  return is_read_off(in) ? left_alone : PrincipleStep{rotameter_factor(*scale, air_of(in))};
}
// ∂f/∂T = f / 2T, ∂f/∂P = −f / 2P
Slopes rotameter_slopes(const FactorInputs& in) {
  return is_read_off(in) ? Slopes{} : Slopes{1 / in.temperature_k / 2, -1 / in.pressure_kpa / 2};
}
std::string rotameter_formula(const FactorInputs& in) {
  return rotameter_factor(written_scale(in), written_air(in)).text();
}
Correction rotameter_left_out(const FactorInputs& in) {
  return is_read_off(in) ? Correction::to_scale : Correction::none;
}

PrincipleStep mass_step(const FactorInputs& in) {
  if (const Lack lack = lack_of_air(in); lack != Lack::nothing) return lacking(lack);
  const std::optional<Conditions> standard = scale_of(in);
  return standard ? PrincipleStep{mass_factor(*standard, air_of(in))} : lacking(Lack::scale_conditions);
}
// ∂f/∂T = f / T, ∂f/∂P = −f / P
Slopes mass_slopes(const FactorInputs& in) { return {1 / in.temperature_k, -1 / in.pressure_kpa}; }
std::string mass_formula(const FactorInputs& in) { return mass_factor(written_scale(in), written_air(in)).text(); }

PrincipleStep orifice_step(const FactorInputs& in) {
  if (!is_usable(in.temperature_k)) return lacking(Lack::temperature);
  const std::optional<Temperature>& scale = in.calibrated_temperature;
  if (!scale || !is_usable(scale->kelvin)) return lacking(Lack::scale_conditions);
  return {orifice_factor(*scale, Temperature(in.temperature_k))};
}
// ∂f/∂T = f / 2T
Slopes orifice_slopes(const FactorInputs& in) { return {1 / in.temperature_k / 2, 0}; }
std::string orifice_formula(const FactorInputs& in) {
  return orifice_factor(kelvin_text(in.calibrated_temperature->kelvin), kelvin_text(in.temperature_k)).text();
}

PrincipleStep volumetric_step(const FactorInputs&) { return left_alone; }

// The factor of a practised humidity correction, given the factor that is known anyway for the effect.
PrincipleStep practised_humidity(const FactorInputs& in, BubbleHumidity known, double known_factor) {
  const BubbleHumidity practice = in.practice.bubble_humidity;
  if (practice == BubbleHumidity::none) return left_alone;
  if (practice == BubbleHumidity::ambient && known != BubbleHumidity::ambient) return lacking(Lack::humidity);
  const double factor = practice == known ? known_factor : bubble_factor(practice, air_of(in), RelativeHumidity(0));
  return is_missing(factor) ? lacking(Lack::pressure) : PrincipleStep{factor};
}
PrincipleStep bubble_step(const FactorInputs& in) {
  const Lack lack = lack_of_air(in);
  if (lack != Lack::nothing) return in.practice.bubble_humidity == BubbleHumidity::none ? left_alone : lacking(lack);
  const bool has_humidity = in.humidity >= 0;
  const BubbleHumidity known = has_humidity ? BubbleHumidity::ambient : BubbleHumidity::dry;
  const double known_factor = bubble_factor(known, air_of(in), RelativeHumidity(has_humidity ? in.humidity : 0));
  PrincipleStep step = practised_humidity(in, known, known_factor);
  step.humidity_effect = known_factor - 1;
  return step;
}
std::string bubble_formula(const FactorInputs& in) {
  const Written kpa = kpa_text(in.pressure_kpa);
  const double vapour_kpa = saturation_vapour_pressure(Temperature(in.temperature_k)).value;
  const Written vapour(vapour_kpa, with_decimals(vapour_kpa, 4));
  if (in.practice.bubble_humidity == BubbleHumidity::dry) return dry_factor(kpa, vapour).text();
  return ambient_factor(kpa, vapour, Written(in.humidity, with_decimals(in.humidity, 3))).text();
}
Correction bubble_left_out(const FactorInputs&) { return Correction::of_humidity; }

PrincipleStep unknown_step(const FactorInputs&) { return lacking(Lack::scale_conditions); }

constexpr PrincipleKind kinds[] = {
    {Principle::none, unknown_step, no_slopes, no_formula, nothing_left_out},
    {Principle::volumetric, volumetric_step, no_slopes, no_formula, nothing_left_out},
    {.principle = Principle::bubble,
     .step = bubble_step,
     .slopes = no_slopes,
     .formula = bubble_formula,
     .left_out = bubble_left_out,
     .practice = "bubble_humidity"},
    {.principle = Principle::rotameter,
     .step = rotameter_step,
     .slopes = rotameter_slopes,
     .formula = rotameter_formula,
     .left_out = rotameter_left_out,
     .practice = "rotameter_correction"},
    {Principle::mass, mass_step, mass_slopes, mass_formula, nothing_left_out, ", standard conditions"},
    {Principle::orifice, orifice_step, orifice_slopes, orifice_formula, nothing_left_out},
};

constexpr bool are_complete() {
  for (std::size_t i = 0; i < std::size(kinds); ++i) {
    const PrincipleKind& kind = kinds[i];
    if (static_cast<std::size_t>(kind.principle) != i || kind.step == nullptr || kind.slopes == nullptr) return false;
    if (kind.formula == nullptr || kind.left_out == nullptr) return false;
  }
  return std::size(kinds) == std::size(principle_words) + 1;
}
#ifndef __SANITIZE_ADDRESS__  // with undefined behaviour watched, g++ 12 takes no function's address for a constant
static_assert(are_complete());
#endif

}  // namespace

const PrincipleKind& kind_of(Principle principle) { return kinds[static_cast<std::size_t>(principle)]; }

}  // namespace driftwarden
