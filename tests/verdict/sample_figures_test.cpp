// SPDX-License-Identifier: MIT
#include "verdict/sample_figures.hpp"

#include <gtest/gtest.h>

#include "support/book_text.hpp"

namespace driftwarden::sample_figures_test {
namespace {

// input: two tables with a figure at the wrong place, and one that nobody says to be known.
struct TestFigure {
  SampleMeasure measure;
  int* value;
  int* known;
};

constexpr Measure stated(bool is_so) {
  Measure measure;
  measure.knowledge = is_so ? Knowledge::stated : Knowledge::exact;
  return measure;
}

TEST(SampleFigures, AreRefusedWhereOneIsIncomplete) {
  int figure = 0;
  const Measure catalogue[] = {stated(true), stated(false)};
  const TestFigure whole[] = {{SampleMeasure::drift, &figure, &figure}, {SampleMeasure::flow, &figure, nullptr}};
  const TestFigure turned[] = {{SampleMeasure::flow, &figure, &figure}, {SampleMeasure::drift, &figure, nullptr}};
  const TestFigure not_had[] = {{SampleMeasure::drift, &figure, &figure}, {SampleMeasure::flow, nullptr, nullptr}};
  const TestFigure not_known[] = {{SampleMeasure::drift, &figure, nullptr}, {SampleMeasure::flow, &figure, nullptr}};
  EXPECT_TRUE(are_complete(whole, catalogue));
  EXPECT_FALSE(are_complete(turned, catalogue));
  EXPECT_FALSE(are_complete(not_had, catalogue));
  EXPECT_FALSE(are_complete(not_known, catalogue));
}

TEST(SampleFigures, HaveWordsOfTheirOwnWhereAWordIsAskedToBeKnown) {
  EXPECT_NE(figure_of(SampleMeasure::sampler_known).own_words, nullptr);
  EXPECT_EQ(figure_of(SampleMeasure::fault).own_words, nullptr);
  EXPECT_NE(figure_of(SampleMeasure::record_by).look, nullptr);
  EXPECT_EQ(figure_of(SampleMeasure::drift).look, nullptr);
}

}  // namespace
}  // namespace driftwarden::sample_figures_test
