// SPDX-License-Identifier: MIT
#pragma once

#include "driftwarden/assessment/budget.hpp"
#include "driftwarden/assessment/sample_assessment.hpp"
#include "driftwarden/rule/judgement.hpp"
#include "driftwarden/rule/measure.hpp"
#include "driftwarden/rule/rule.hpp"

namespace driftwarden {

// What rules may ask of one sample beside its own figures.
struct SampleContext {
  const AssessmentBasis& basis;
  const SampleAssessment& figures;
  double overlap_min = missing;
  const Budget* budget = nullptr;  // nullptr: measures of uncertainty are missing
};

// The base that a rule names, which is not that of the practice.
DriftBase drift_base_of(Base named);

// The value of a measure as a rule asks for it (drift and deviations on the rule's base).
MeasureValue sample_measure(const SampleContext& context, SampleMeasure measure, Base base);
MeasureValue set_measure(const SampleContext& context, const ReadingSet& set, SetMeasure measure, Base base);
MeasureValue reading_measure(const SampleContext& context, const ReadingSet& set, Row reading, ReadingMeasure measure);

}  // namespace driftwarden
