// SPDX-License-Identifier: MIT
#pragma once

#include <map>
#include <string>
#include <string_view>

#include "rule/condition.hpp"
#include "rule/rule.hpp"
#include "rule/sampler.hpp"
#include "verdict/measured.hpp"
#include "verdict/result_figures.hpp"

namespace driftwarden {

// Whether a rule applies to a sample, result, set or reading, by what was written of it. Rules about samples are about
// samples proper unless their `where` speaks of the kind.
Applies applies_to_sample(const Rule& rule, const SampleContext& context,
                          const std::map<std::string, Sampler>& samplers);
// Whether one condition holds for a sample.
Applies condition_applies(const Condition& condition, const SampleContext& context,
                          const std::map<std::string, Sampler>& samplers);
Applies applies_to_result(const Rule& rule, const SampleContext& context, const ResultContext& result,
                          const std::map<std::string, Sampler>& samplers);
Applies applies_to_set(const Rule& rule, const SampleContext& context, const ReadingSet& set);
Applies applies_to_reading(const Rule& rule, const SampleContext& context, const ReadingSet& set, Row reading);

}  // namespace driftwarden
