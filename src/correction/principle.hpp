// SPDX-License-Identifier: MIT
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

#include "correction/bubble.hpp"
#include "quantity/quantity.hpp"
#include "record/instrument.hpp"
#include "record/sample.hpp"

namespace driftwarden {

// When the reading of a rotameter is corrected for temperature and pressure.
enum class RotameterCorrection : std::uint8_t { always, beyond_5_percent, never };

inline constexpr std::string_view rotameter_correction_words[] = {"always", "beyond 5 %", "never"};
inline constexpr std::string_view bubble_humidity_words[] = {"none", "ambient", "dry"};

struct CorrectionPractice {
  BubbleHumidity bubble_humidity = BubbleHumidity::none;
  RotameterCorrection rotameter = RotameterCorrection::always;
};

// What a step from indicated to actual flow would have needed and was not given (or was not above zero).
// scale_conditions also stands for an instrument whose principle isn't known; pressure also for one that is not above
// the vapour pressure.
enum class FactorLack : std::uint8_t { nothing, temperature, pressure, scale_conditions, humidity };

// What a calibrator's factor is made of. Each figure of the air may be missing.
struct FactorInputs {
  double temperature_k = missing;
  double pressure_kpa = missing;
  double humidity = missing;
  std::optional<Temperature> scale_temperature;  // of the instrument's scale
  std::optional<Pressure> scale_pressure;
  std::optional<Temperature> calibrated_temperature;  // the scale's, else the one its certificate was made at
  CorrectionPractice practice;
};

struct PrincipleStep {
  double factor = missing;
  FactorLack lack = FactorLack::nothing;
  bool is_left_alone = false;        // the factor is 1 by principle or practice, and by no formula
  double humidity_effect = missing;  // see CorrectedReading
};

// How a corrected flow follows the conditions at the reading, relative change per K and per kPa.
struct Slopes {
  double per_k = 0;
  double per_kpa = 0;
};

// A correction that may be left out, by practice or for want of data.
enum class Correction : std::uint8_t { none, to_scale, of_humidity };

// Everything there is to say of a principle of measuring flow; its word stands beside the enumeration.
struct PrincipleKind {
  Principle principle;
  PrincipleStep (*step)(const FactorInputs& inputs);
  Slopes (*slopes)(const FactorInputs& inputs);
  std::string (*formula)(const FactorInputs& inputs);  // its factor, as an explanation writes it
  Correction (*left_out)(const FactorInputs& inputs);
  std::string_view scale = ", scale drawn for";  // what its scale's conditions are called
  std::string_view practice = {};                // the key of the practice that it is corrected by
};

const PrincipleKind& kind_of(Principle principle);

}  // namespace driftwarden
