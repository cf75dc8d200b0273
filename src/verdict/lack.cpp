// SPDX-License-Identifier: MIT
#include "verdict/lack.hpp"

namespace driftwarden {
namespace {

std::string_view lack_of(const LackTexts& texts, const ReadingSet& set) {
  if (set.flow.n == 0) return texts.all_struck_out;
  switch (set.lack) {
    case CorrectedReading::Lack::nothing:
      break;
    case CorrectedReading::Lack::temperature:
      return texts.temperature;
    case CorrectedReading::Lack::pressure:
      return texts.pressure;
    case CorrectedReading::Lack::scale_conditions:
      return texts.scale_conditions;
    case CorrectedReading::Lack::humidity:
      return texts.humidity;
  }
  return "";
}

// Why a figure that leans on so much of the sampler's cut is missing; empty where it isn't for the cut.
std::string_view lack_of_cut(const LackTexts& texts, const SampleContext& context, CutPart part) {
  const SampleAssessment& figures = context.figures;
  if (part == CutPart::nothing || is_missing(figures.nominal_l_min) || is_missing(figures.mean_flow_l_min)) return "";
  const TextId name = field(context.basis.book.samples.sampler, figures.sample, TextId{0});
  const SamplerFact& sampler = context.basis.samplers.of(name);
  if (part >= CutPart::curve && is_missing(sampler.cut.nominal_um)) return texts.no_curve;
  if (is_missing(sampler.cut.exponent)) return texts.no_exponent;
  if (!holds_at(sampler.cut, figures.nominal_l_min)) return texts.nominal_beyond_law;
  if (!holds_at(sampler.cut, figures.mean_flow_l_min)) return texts.beyond_law;
  if (part >= CutPart::convention && !sampler.convention) return texts.no_convention;
  return part >= CutPart::curve ? texts.nothing_through : "";
}

}  // namespace

Lack why_missing(const LackTexts& texts, const SampleContext& context, const Rule& rule) {
  const SampleAssessment& figures = context.figures;
  const LeansOn& leans_on = measure_of(rule).leans_on;
  const bool leans_on_sets = rule.of != Subject::sample || leans_on.pre || leans_on.post;
  const bool leans_on_the_field = leans_on.field && !leans_on.post;
  if (leans_on_the_field && (figures.pre >= 0 || !leans_on.pre) && figures.field_count() == 0)
    return {texts.none_during};
  if (!leans_on_sets) return {texts.not_said};
  if (figures.pre < 0 && figures.post < 0) return {texts.no_readings};
  if (figures.pre < 0) return {texts.none_before};
  if (figures.post < 0) return {texts.none_after};
  for (const ReadingSet& set : figures.sets) {
    if (const std::string_view lack = lack_of(texts, set); !lack.empty()) return {lack, &set};
  }
  const std::string_view lack = lack_of_cut(texts, context, measure_of(rule).of_the_cut);
  return {lack.empty() ? texts.not_said : lack};
}

}  // namespace driftwarden
