// SPDX-License-Identifier: MIT
#include "history/comparison_series.hpp"

#include <gtest/gtest.h>

#include "support/book_text.hpp"

namespace driftwarden::comparison_series_test {
namespace {

constexpr Day in_october = 20742;
constexpr Row v1 = 2;
constexpr Row v2 = 3;

// V1 reads P1 before S1 at 06:30, V2 at the time given.
BookText read_again_at(const std::string& time) {
  BookText text;
  text.readings =
      "taken,stage,sample,calibrator,reading [L/min]\n"
      "2026-09-21T06:30,pre,S1,V1,2.000\n"
      "2026-09-21T" +
      time + ",pre,S1,V2,2.040\n";
  return text;
}

// Two samples of P1, one after the other, and readings of it.
BookText two_samples(const std::string& readings) {
  BookText text;
  text.samples =
      "sample,pump,nominal [L/min],started,stopped\n"
      "A,P1,2.0,2026-09-21T08:00,2026-09-21T12:00\n"
      "B,P1,2.0,2026-09-21T12:40,2026-09-21T16:00\n";
  text.readings = "taken,stage,sample,pump,calibrator,reading [L/min]\n" + readings;
  return text;
}

std::vector<Comparison> comparisons_of(const UseLog& log) { return comparisons_from(log); }

TEST(Comparisons, AreMadeUpToAnHourAfterTheOther) {
  const JudgedBook on(read_again_at("07:30"));
  const UseLog log = use_log_of(on.screening(), in_october);
  EXPECT_EQ(comparisons_of(log).size(), 1U);
  const JudgedBook beyond(read_again_at("07:31"));
  const UseLog later = use_log_of(beyond.screening(), in_october);
  EXPECT_TRUE(comparisons_of(later).empty());
}

TEST(Comparisons, AreTellingForBothCalibrators) {
  const JudgedBook book(read_again_at("07:15"));
  const UseLog log = use_log_of(book.screening(), in_october);
  const auto comparisons = comparisons_from(log);
  const auto of_v2 = comparison_series(book.screening(), comparisons, v2);
  ASSERT_EQ(of_v2.size(), 1U);
  EXPECT_EQ(of_v2[0].name, "compared-with V1");
  EXPECT_NEAR(of_v2[0].points.at(0).value, 2.0, 1e-9);
  const auto of_v1 = comparison_series(book.screening(), comparisons, v1);
  ASSERT_EQ(of_v1.size(), 1U);
  EXPECT_EQ(of_v1[0].name, "compared-with V2");
  EXPECT_NEAR(of_v1[0].points.at(0).value, 100 * (2.0 - 2.04) / 2.04, 1e-9);
}

// Between the check after one sample and the one before the next the pump is set anew.
TEST(Comparisons, AreNotMadeAcrossSamplesOrStages) {
  for (const std::string sample : {"A,", ",P1"}) {
    const std::string next = sample == "A," ? "B," : sample;
    const JudgedBook set_again(two_samples("2026-09-21T07:30,pre," + sample + ",V1,2.000\n2026-09-21T12:05,post," +
                                           sample + ",V1,1.900\n2026-09-21T12:20,pre," + next +
                                           ",V2,2.000\n2026-09-21T16:10,post," + next + ",V2,1.950\n"));
    EXPECT_TRUE(comparisons_of(use_log_of(set_again.screening(), in_october)).empty()) << sample;
  }
  const JudgedBook in_the_field(two_samples("2026-09-21T07:30,pre,A,,V1,2.000\n2026-09-21T08:10,field,A,,V2,1.950\n"));
  EXPECT_TRUE(comparisons_of(use_log_of(in_the_field.screening(), in_october)).empty());
}

TEST(Comparisons, AreMadeOfReadingsThatNameOnlyThePump) {
  const JudgedBook book(two_samples("2026-09-21T09:00,field,,P1,V1,2.000\n2026-09-21T09:10,field,,P1,V2,2.010\n"));
  EXPECT_EQ(comparisons_of(use_log_of(book.screening(), in_october)).size(), 1U);
}

TEST(Comparisons, AreNotMadeOfOneCalibratorWithItself) {
  const JudgedBook book({});
  const UseLog log = use_log_of(book.screening(), in_october);
  EXPECT_TRUE(comparisons_from(log).empty());
}

}  // namespace
}  // namespace driftwarden::comparison_series_test
