// SPDX-License-Identifier: MIT
#include "history/lookback_window.hpp"

#include <gtest/gtest.h>

#include "history/lookback_book.hpp"

namespace driftwarden::lookback_window_test {
namespace {

constexpr Day first_of_march_2026 = 20513;
constexpr Day no_end = std::numeric_limits<Day>::max();

// Certificates of V1: name, day in March, as found and as left at 2.0 L/min.
BookText with_certificates(const std::string& lines, const std::string& tolerance = "2") {
  BookText text = lookback_text();
  text.certificates =
      "certificate,instrument,calibrated,nominal [L/min],reference [L/min],as found [L/min],as left [L/min],tolerance "
      "[%]\n";
  for (std::size_t at = 0; at < lines.size();) {
    const std::size_t end = lines.find('\n', at);
    text.certificates += lines.substr(at, end - at) + "," + tolerance + "\n";
    at = end + 1;
  }
  return text;
}

TEST(LookbackWindow, GoesFromTheLastGoodCertificateToTheOneThatFoundIt) {
  JudgedBook judged(lookback_text());
  const auto window = newest_window(judged.screening(), instrument_of(judged.book(), "V1"), no_end);
  ASSERT_TRUE(window);
  EXPECT_EQ(judged.book().certificates[static_cast<std::size_t>(window->found)].name, "V1/found");
  EXPECT_EQ(judged.book().certificates[static_cast<std::size_t>(window->last_good)].name, "V1/good");
  EXPECT_EQ(window->from, first_of_march_2026);
  EXPECT_EQ(window->until, first_of_march_2026 + 10);
  EXPECT_NEAR(window->as_found_percent, 10, 1e-12);
  EXPECT_TRUE(window->is_beyond_tolerance());
}

TEST(LookbackWindow, IsNoneWhereEveryErrorIsTolerated) {
  JudgedBook judged(with_certificates("A,V1,2026-03-01,2,2.0,2.0,2.0\nB,V1,2026-03-11,2,2.0,2.04,2.0\n"));
  const Row v1 = instrument_of(judged.book(), "V1");
  EXPECT_FALSE(newest_window(judged.screening(), v1, no_end)) << "2 % is on the tolerance, and within it";
  EXPECT_TRUE(window_of(judged.screening(), 1)) << "but one may look back from it all the same";
}

TEST(LookbackWindow, OfADayKnowsNothingLater) {
  JudgedBook judged(lookback_text());
  EXPECT_FALSE(newest_window(judged.screening(), instrument_of(judged.book(), "V1"), first_of_march_2026 + 9));
}

TEST(LookbackWindow, PassesOverACertificateThatLeftItBeyondTolerance) {
  JudgedBook judged(with_certificates(
      "A,V1,2026-03-01,2,2.0,2.0,2.0\nB,V1,2026-03-05,2,2.0,2.1,2.1\nC,V1,2026-03-11,2,2.0,2.2,2.0\n"));
  const auto window = window_of(judged.screening(), 2);
  ASSERT_TRUE(window);
  EXPECT_EQ(window->last_good, 0);
}

TEST(LookbackWindow, OfAnInstrumentNeverKnownToBeGoodIsOpen) {
  JudgedBook judged(with_certificates("C,V1,2026-03-11,2,2.0,2.2,2.0\n"));
  const auto window = window_of(judged.screening(), 0);
  ASSERT_TRUE(window);
  EXPECT_EQ(window->last_good, -1);
  EXPECT_EQ(window->from, no_day);
}

TEST(LookbackWindow, NeedsToKnowHowItWasFound) {
  JudgedBook judged(with_certificates("C,V1,2026-03-11,2,2.0,,2.0\n"));
  EXPECT_FALSE(window_of(judged.screening(), 0));
}

TEST(LookbackWindow, WithoutAToleranceTakesTheCertificateBeforeForGood) {
  JudgedBook judged(with_certificates("A,V1,2026-03-01,2,2.0,2.6,2.6\nB,V1,2026-03-11,2,2.0,2.2,2.0\n", ""));
  const auto window = window_of(judged.screening(), 1);
  ASSERT_TRUE(window);
  EXPECT_EQ(window->last_good, 0);
  EXPECT_FALSE(window->is_beyond_tolerance());
}

TEST(LookbackWindow, TakesTheToleranceOfARuleWhereNoCertificateStatesOne) {
  JudgedBook judged(with_certificates("A,V1,2026-03-01,2,2.0,2.0,2.0\nB,V1,2026-03-11,2,2.0,2.2,2.0\n", ""),
                    {{{Subject::calibrator, "as-found.error", "within", {"3 %"}, Otherwise::qualify}}});
  const auto window = newest_window(judged.screening(), instrument_of(judged.book(), "V1"), no_end);
  ASSERT_TRUE(window);
  EXPECT_EQ(window->tolerance.source, "own/as-found.error");
}

}  // namespace
}  // namespace driftwarden::lookback_window_test
