// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <vector>

#include "verdict/sample_judge.hpp"

namespace driftwarden {

// What a reader should know of a sample's figures beside its findings: pressures from altitude, conditions taken from
// the sets, readings outside a certificate's points, sets that were not used.
std::vector<std::string> remarks_of(const Screening& screening, const SampleResult& result);

// Those of them that belong beside the volume wherever it is printed: that it is formed by convention, and what was
// measured; what the field sets say of it, where they don't count; of a sample that is void for its flow alone, that
// the mass is hardly off by the model of its sampler, where it is.
std::vector<std::string> volume_remarks(const Screening& screening, const SampleResult& result);

}  // namespace driftwarden
