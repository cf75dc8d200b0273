// SPDX-License-Identifier: MIT
#include "verdict/screening.hpp"

#include <algorithm>

#include "rule/english.hpp"

namespace driftwarden {
namespace {

bool asks_for_overlap(const RuleSet& rules) {
  return std::any_of(rules.rules.begin(), rules.rules.end(), [](const Rule& rule) {
    return rule.of == Subject::sample && rule.measure == static_cast<std::size_t>(SampleMeasure::overlap);
  });
}

}  // namespace

SamplerFacts sampler_facts(const Book& book, const RuleSet& rules) {
  SamplerFacts facts;
  for (const auto& [name, sampler] : rules.samplers) {
    const TextId text = book.texts.find(name);
    if (text == TextPool::unknown) continue;
    facts.add(text, {.nominal_l_min = sampler.nominal_l_min.value_or(missing),
                     .cut = cut_law_of(sampler),
                     .spread = sampler.cut_spread.value_or(missing),
                     .convention = convention_named(sampler.fraction)});
  }
  return facts;
}

Screening::Screening(const Book& book, const RuleSet& rules, SupposedErrors supposed, unsigned threads)
    : rules_(rules),
      basis_(book, practice_of(rules.practice), sampler_facts(book, rules), std::move(supposed), threads),
      guard_(book.settings.guard),
      texts_(&english),
      rulings_(book),
      words_(book, rules),
      results_(book) {
  if (asks_for_overlap(rules)) overlaps_ = overlaps_of(book.samples, book.instruments.size());
}

}  // namespace driftwarden
