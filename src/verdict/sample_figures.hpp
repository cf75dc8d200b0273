// SPDX-License-Identifier: MIT
#pragma once

#include <string>

#include "verdict/figure_knowledge.hpp"
#include "verdict/record_look.hpp"

namespace driftwarden {

// How a measure of a sample is had; the rest of it stands in rule/measure_catalogue.
struct SampleFigure {
  using Value = MeasureValue (*)(const SampleContext& context, Base base);

  SampleMeasure measure;
  Value value;
  KnownTo (SampleKnowledge::*known)() const = nullptr;                     // where the catalogue says it is stated
  void (*look)(const SampleContext& context, RecordLook& look) = nullptr;  // of measures about records
  std::string (*own_words)(const SampleContext& context, const Texts& texts) = nullptr;  // in a finding, if any
  // Whether it comes from a set, where not from all of them.
  bool (*concerns)(const SampleContext& context, const ReadingSet& set) = nullptr;

  constexpr SampleFigure of_sets(bool (*that)(const SampleContext& context, const ReadingSet& set)) const {
    SampleFigure changed = *this;
    changed.concerns = that;
    return changed;
  }
};

const SampleFigure& figure_of(SampleMeasure measure);

// What measures of samples and of sets share.
MeasureValue count_of(const ReadingSet* set);
MeasureValue spread_of(const ReadingSet* set);
MeasureValue range_of(const BeyondRange& beyond);
// How far a flow is from the base a rule names, or from the measure's own.
MeasureValue difference(const SampleAssessment& figures, double flow_l_min, Base base, double own_base_l_min);

// Whether each figure stands at its enumerator's place, is had, and is known where the catalogue says so.
template <class Figure, std::size_t count>
constexpr bool are_complete(const Figure (&figures)[count], const Measure (&catalogue)[count]) {
  for (std::size_t i = 0; i < count; ++i) {
    if (static_cast<std::size_t>(figures[i].measure) != i || figures[i].value == nullptr) return false;
    if ((figures[i].known != nullptr) != (catalogue[i].knowledge == Knowledge::stated)) return false;
  }
  return true;
}

}  // namespace driftwarden
