// SPDX-License-Identifier: MIT
#include "report/printed_figures.hpp"

#include <gtest/gtest.h>

#include "support/book_text.hpp"

namespace driftwarden::printed_figures_test {
namespace {

// input: conditions to be written.

TEST(SampleFigures, AreRoundedAsAPersonWouldWriteThem) {
  JudgedBook book({});
  const SampleFigures figures = figures_of(book.screening(), book.result("S1"));
  EXPECT_EQ(figures.minutes, "480");
  EXPECT_EQ(figures.pre, "2.000");
  EXPECT_EQ(figures.post, "1.950");
  EXPECT_EQ(figures.drift, "-2.5");
  EXPECT_EQ(figures.volume, "948.0");
}

TEST(SampleFigures, NeverRoundADriftToTheOtherSideOfItsLimit) {
  BookText text;
  text.readings =
      "taken,stage,sample,calibrator,reading [L/min]\n"
      "2026-09-21T07:30,pre,S1,V1,2.000\n2026-09-21T16:10,post,S1,V1,1.8992\n";
  JudgedBook book(text, {{{Subject::sample, "drift", "within", {"5 %"}}}});
  EXPECT_EQ(figures_of(book.screening(), book.result("S1")).drift, "-5.04");
}

TEST(SampleFigures, AreEmptyWhereMissing) {
  BookText text;
  text.readings = "taken,stage,sample,calibrator,reading [L/min]\n2026-09-21T07:30,pre,S1,V1,2.000\n";
  JudgedBook book(text);
  const SampleFigures figures = figures_of(book.screening(), book.result("S1"));
  EXPECT_EQ(figures.post + figures.drift + figures.volume + figures.uncertainty, "");
}

TEST(SampleFigures, StateNoUncertaintyOfAConventionalVolume) {
  JudgedBook by_mean(nominal_book());
  EXPECT_NE(figures_of(by_mean.screening(), by_mean.result("S1")).uncertainty, "");
  JudgedBook by_convention(nominal_book(), {{}, {}, {practice("flow_for_volume", "nominal")}});
  const SampleFigures figures = figures_of(by_convention.screening(), by_convention.result("S1"));
  EXPECT_EQ(figures.volume, "816.0");
  EXPECT_EQ(figures.uncertainty, "");
}

TEST(ConditionsText, HasAtMostTwoDecimalsOfADegree) {
  EXPECT_EQ(conditions_text({celsius(25), Pressure(101.325)}), "25 °C, 101.325 kPa");
  EXPECT_EQ(conditions_text({celsius(21.111), Pressure(101.3)}), "21.11 °C, 101.300 kPa");
}

}  // namespace
}  // namespace driftwarden::printed_figures_test
