// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <vector>

#include "assessment/budget.hpp"
#include "assessment/overlap.hpp"
#include "assessment/sample_assessment.hpp"
#include "rule/judgement.hpp"
#include "rule/measure.hpp"
#include "rule/rule.hpp"
#include "verdict/unknown_words.hpp"

namespace driftwarden {

struct Texts;

// What rules may ask of one sample beside its own figures.
struct SampleContext {
  const AssessmentBasis& basis;
  const SampleAssessment& figures;
  Overlap overlap = {};
  const Budget* budget = nullptr;       // nullptr: measures of uncertainty are missing
  const UnknownWords* words = nullptr;  // nullptr: whether its words are known is missing
};

// The base that a rule names, which is not that of the practice.
DriftBase drift_base_of(Base named);

// What field readings are held against: the pre flow unless a rule names another base.
double field_base(const SampleAssessment& figures, Base base);
// The field set that lies farthest from a flow; nullptr: none, or the flow is missing.
const ReadingSet* farthest_field_set(const SampleAssessment& figures, double from_l_min);

// What stands in a finding of a measure that has words of its own; "" for all others.
std::string own_words(const SampleContext& context, SampleMeasure measure, const Texts& texts);
// Whether the figure comes from a set, so that a sentence about it names the set's calibrator.
bool concerns(const SampleContext& context, SampleMeasure measure, const ReadingSet& set);
// The lines that lack what a measure about records asks for; none of other measures.
std::vector<Place> lacking_lines(const SampleContext& context, SampleMeasure measure);

// The value of a measure as a rule asks for it (drift and deviations on the rule's base).
MeasureValue sample_measure(const SampleContext& context, SampleMeasure measure, Base base);
MeasureValue set_measure(const SampleContext& context, const ReadingSet& set, SetMeasure measure, Base base);
MeasureValue reading_measure(const SampleContext& context, const ReadingSet& set, Row reading, ReadingMeasure measure);

// How well the figure is known that a rule compares: standard and expanded uncertainty in its own inside unit (of the
// absolute difference where the limit is one), and the whole degrees of freedom that U was taken for. Missing where the
// measure states none (rule/measure_catalogue says which do), or where the records of this figure don't suffice.
struct KnownTo {
  double u = missing;
  double expanded = missing;
  double dof = missing;
  bool is_stated = false;
};

// What a rule about samples, sets and readings compares. `set` and `reading` are those of such rules.
KnownTo known_to(const Rule& rule, const SampleContext& context, const ReadingSet* set = nullptr, Row reading = no_row);

// A standard uncertainty of a normal quantity with so many degrees of freedom.
KnownTo known_by(double u, double dof);

}  // namespace driftwarden
