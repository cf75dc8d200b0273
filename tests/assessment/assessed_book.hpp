// SPDX-License-Identifier: MIT
#pragma once

#include <gtest/gtest.h>

#include "assessment/sample_assessment.hpp"
#include "support/book_text.hpp"

namespace driftwarden {

inline constexpr double exact_in_decimals = 1e-9;  // only binary fractions stand between

// A book, its basis and an assessor.
struct AssessedBook {
  explicit AssessedBook(const BookText& text, const AssessmentPractice& practice = {}, const std::string& sampler = "",
                        double nominal_l_min = missing, double cut_exponent = missing)
      : book(book_of(text)), basis(book, practice, facts(sampler, nominal_l_min, cut_exponent)), assessor(basis) {}
  const SampleAssessment& of(std::string_view sample) {
    const Row row = row_of(book, sample);
    const SampleAssessment& figures = assessor.assess(row);
    expect_same_flows(SampleAssessor(basis, Depth::flows).assess(row), figures);
    return figures;
  }
  // Which sets count and what flows they have hangs on nothing that is worked out after it.
  static void expect_same_flows(const SampleAssessment& flows, const SampleAssessment& figures) {
    EXPECT_EQ(flows.pre, figures.pre);
    EXPECT_EQ(flows.post, figures.post);
    EXPECT_EQ(flows.problem, figures.problem);
    for (const auto& [a, b] :
         {std::pair{flows.pre_l_min, figures.pre_l_min}, std::pair{flows.post_l_min, figures.post_l_min}}) {
      EXPECT_TRUE(a == b || (is_missing(a) && is_missing(b))) << a << " and " << b;
    }
  }
  SamplerFacts facts(const std::string& sampler, double nominal_l_min, double cut_exponent) const {
    SamplerFacts facts;
    SamplerFact fact;
    fact.nominal_l_min = fact.cut.nominal_l_min = nominal_l_min;
    fact.cut.exponent = cut_exponent;
    if (!sampler.empty()) facts.add(book.texts.find(sampler), fact);
    return facts;
  }

  Book book;
  AssessmentBasis basis;
  SampleAssessor assessor;
};

inline BookText with_readings(const std::string& rows) {
  BookText text;
  text.readings = "taken,stage,sample,pump,calibrator,reading [L/min],temperature [°C],pressure [kPa]\n" + rows;
  return text;
}

}  // namespace driftwarden
