// SPDX-License-Identifier: MIT
#pragma once

#include <cstdint>
#include <string_view>

#include "correction/corrected_reading.hpp"

namespace driftwarden {

// Which flow the volume is reckoned with.
enum class FlowForVolume : std::uint8_t { mean, lower, pre, nominal };
inline constexpr std::string_view flow_for_volume_words[] = {"mean", "lower", "pre", "nominal"};

// What field sets do to that flow: nothing, or it is the mean along the line through all sets.
enum class FieldSets : std::uint8_t { ends, line };
inline constexpr std::string_view field_sets_words[] = {"ends", "line"};

// What a drift is a percentage of.
enum class DriftBase : std::uint8_t { pre, post, mean, nominal };
inline constexpr std::string_view drift_base_words[] = {"pre", "post", "mean", "nominal"};

// What is taken off an amount that the laboratory found: nothing, or the mean of the field blanks of its batch.
enum class BlankCorrection : std::uint8_t { none, mean };
inline constexpr std::string_view blank_correction_words[] = {"none", "mean"};

// What is taken off a mass that is the difference of two weights, where no blank is: nothing, or the mean change of the
// control filters of its batch.
enum class ControlCorrection : std::uint8_t { none, mean };
inline constexpr std::string_view control_correction_words[] = {"none", "mean"};

// At which conditions the air counts in which it was found.
enum class ConcentrationVolume : std::uint8_t { actual, reference };
inline constexpr std::string_view concentration_volume_words[] = {"actual", "reference"};

// The choices that sources make differently, as they are in force for a book.
struct AssessmentPractice {
  FlowForVolume flow_for_volume = FlowForVolume::mean;
  FieldSets field_sets = FieldSets::ends;
  DriftBase drift_base = DriftBase::pre;
  BlankCorrection blank_correction = BlankCorrection::none;
  ControlCorrection control_correction = ControlCorrection::none;
  ConcentrationVolume concentration_volume = ConcentrationVolume::actual;
  CorrectionPractice correction;
};

std::string_view to_text(FlowForVolume flow);
std::string_view to_text(DriftBase base);
std::string_view to_text(ConcentrationVolume volume);

}  // namespace driftwarden
