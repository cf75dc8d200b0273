// SPDX-License-Identifier: MIT
#include "assessment/sampler_facts.hpp"

#include <gtest/gtest.h>

namespace driftwarden::sampler_facts_test {
namespace {

// echo: what is said of a sampler.

SamplerFact meant_for(double nominal_l_min) {
  SamplerFact fact;
  fact.nominal_l_min = nominal_l_min;
  return fact;
}

TEST(SamplerFacts, AreFoundByTheNameOfTheSampler) {
  SamplerFacts facts;
  facts.add(7, meant_for(2.0));
  facts.add(3, meant_for(1.7));
  EXPECT_EQ(facts.of(7).nominal_l_min, 2.0);
  EXPECT_EQ(facts.of(3).nominal_l_min, 1.7);
}

TEST(SamplerFacts, OfOneThatNobodyDescribesAreMissing) {
  SamplerFacts facts;
  EXPECT_TRUE(is_missing(facts.of(0).nominal_l_min));
  facts.add(3, meant_for(1.7));
  for (const TextId name : {0U, 2U, 4U, 1000U}) EXPECT_TRUE(is_missing(facts.of(name).nominal_l_min)) << name;
}

TEST(NominalFlow, IsTheSamplesOwnElseThatOfItsSampler) {
  SampleTable samples;
  for (const double own : {1.9, missing, missing}) samples.nominal_l_min.push_back(own);
  for (const TextId name : {3U, 3U, 4U}) samples.sampler.push_back(name);
  SamplerFacts facts;
  facts.add(3, meant_for(1.7));
  EXPECT_EQ(nominal_flow(samples, facts, 0), 1.9);
  EXPECT_EQ(nominal_flow(samples, facts, 1), 1.7);
  EXPECT_TRUE(is_missing(nominal_flow(samples, facts, 2)));
}

}  // namespace
}  // namespace driftwarden::sampler_facts_test
