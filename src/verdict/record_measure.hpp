// SPDX-License-Identifier: MIT
#pragma once

#include "driftwarden/verdict/measured.hpp"

namespace driftwarden {

// What rules may ask of a sample's records: whether something was written down. Of other measures nothing.
MeasureValue record_measure(const SampleContext& context, SampleMeasure measure);

}  // namespace driftwarden
