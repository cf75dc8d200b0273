// SPDX-License-Identifier: MIT
#include "doubt/last_digits.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "doubt/honest_book.hpp"

namespace driftwarden::last_digits_test {
namespace {

// input: flows, steps and spreads.

constexpr double step_l_min = 0.001;

// Of one pump.
std::vector<FirstReadings> readings_of(FirstReadings flows) { return {std::move(flows)}; }

// As a display of such a step shows them.
std::vector<double> random_flows(test::RandomNumbers& random, std::size_t n, double step = step_l_min) {
  std::vector<double> flows(n);
  for (double& flow : flows) flow = step * std::round((2 + 0.03 * random.normal()) / step);
  return flows;
}

TEST(LastDigits, AreThoseOfTheDisplay) {
  std::vector<double> flows;
  for (int i = 0; i < 60; ++i) flows.push_back(1.903 + 0.01 * i);
  flows.push_back(2.1);  // 2.100
  const auto digits = last_digits_of(readings_of(flows), step_l_min);
  ASSERT_TRUE(digits);
  EXPECT_EQ(digits->counts[3], 60U);
  EXPECT_EQ(digits->counts[0], 1U);
  EXPECT_EQ(digits->readings(), 61U);
  EXPECT_EQ(digits->most_frequent(), 3U);
  EXPECT_EQ(digits->step, 1U);
}

TEST(LastDigits, OfAStatedResolutionMayStepByMore) {
  test::RandomNumbers random(1);
  const auto flows = readings_of(random_flows(random, 60, 0.002));
  EXPECT_EQ(last_digits_of(flows, 0.002)->step, 2U);
  EXPECT_EQ(last_digits_of(flows, 0.0001)->step, 1U);  // written down with fewer decimals than shown
  EXPECT_FALSE(last_digits_of(flows, 0.01));           // finer than the display
  EXPECT_FALSE(last_digits_of(flows, 0.0283168));      // 0.001 ft3/min: no decimal place of L/min
}

TEST(LastDigits, WithoutAResolutionStepAsTheDigitsSeen) {
  test::RandomNumbers random(2);
  EXPECT_EQ(last_digits_of(readings_of(random_flows(random, 60)), {})->step, 1U);
  EXPECT_EQ(last_digits_of(readings_of(random_flows(random, 60, 0.002)), {})->step, 2U);
  EXPECT_EQ(last_digits_of(readings_of(random_flows(random, 60, 0.005)), {})->step, 5U);
}

// So many flows that end in `digit`, a cycle of ten steps apart.
std::vector<double> ending_in(int digit, int n, double step = step_l_min) {
  std::vector<double> flows;
  for (int i = 0; i < n; ++i) flows.push_back(step * (2000 + 10 * i + digit));
  return flows;
}

std::vector<double> joined(std::vector<double> flows, const std::vector<double>& more) {
  flows.insert(flows.end(), more.begin(), more.end());
  return flows;
}

TEST(LastDigits, AreOfWholeLitresToMillionthsOfThem) {
  EXPECT_EQ(last_digits_of(readings_of(ending_in(3, 60, 1)), {})->counts[3], 60U);
  EXPECT_EQ(last_digits_of(readings_of(ending_in(3, 60, 1e-6)), {})->counts[3], 60U);
  std::vector<double> finer = ending_in(3, 60, 1e-7);
  for (double& flow : finer) flow += 0.05;
  EXPECT_FALSE(last_digits_of(readings_of(finer), {}));
}

// What is closer to a display's figure than a thousandth of its step differs from it by rounding.
TEST(LastDigits, AreOfFiguresThatRoundingMayHaveMoved) {
  for (const auto& [off, is_rounding] : {std::pair{0.98e-6, true}, std::pair{1.02e-6, false}}) {
    std::vector<double> flows = ending_in(3, 60);
    for (double& flow : flows) flow += off;
    EXPECT_EQ(last_digits_of(readings_of(flows), step_l_min).has_value(), is_rounding) << off;
  }
}

TEST(LastDigits, OfADisplayThatStepsByPartsOfTheLastTellNothing) {
  EXPECT_FALSE(last_digits_of(readings_of(ending_in(3, 60)), 0.0015));
  EXPECT_EQ(last_digits_of(readings_of(ending_in(3, 60)), 0.003)->step, 3U);
}

// A single reading that ends in 1 shows that the display can show it.
TEST(LastDigits, WithoutAResolutionStepAsFinelyAsTheFinestSeen) {
  EXPECT_EQ(last_digits_of(readings_of(joined(ending_in(0, 60), {2.001})), {})->step, 1U);
  EXPECT_EQ(last_digits_of(readings_of(joined(ending_in(4, 60), {2.002})), {})->step, 2U);
}

TEST(LastDigits, OfFewerThanFiftyReadingsTellNothing) {
  test::RandomNumbers random(3);
  EXPECT_FALSE(last_digits_of(readings_of(random_flows(random, 49)), step_l_min));
  EXPECT_TRUE(last_digits_of(readings_of(random_flows(random, 50)), step_l_min));
  EXPECT_FALSE(last_digits_of({}, step_l_min));
}

TEST(LastDigits, OfPumpsThatReturnToTheirFlowTellNothing) {
  FirstReadings returns;
  FirstReadings differs;
  for (int i = 0; i < 60; ++i) {
    returns.push_back(2 + step_l_min * (i % 2 == 0 ? 3 : 7));  // within half a cycle of ten
    differs.push_back(2 + step_l_min * (i % 2 == 0 ? 3 : 9));
  }
  EXPECT_FALSE(last_digits_of(readings_of(returns), step_l_min));
  EXPECT_TRUE(last_digits_of(readings_of(differs), step_l_min));
  const std::vector<FirstReadings> both{returns, differs};
  EXPECT_EQ(last_digits_of(both, step_l_min)->readings(), 60U);
}

// The rate told in docs/uncertainty.md: one book in 100. 10 000 calibrators with 50 to 400 readings each: about
// a hundred are expected; four standard deviations of a Poisson count are allowed above, and one alarm at least.
TEST(LastDigits, OfAFairDisplayAreToldAsSeldomAsStated) {
  constexpr int calibrators = 10000;
  test::RandomNumbers random(5);
  int tested = 0;
  int alarms = 0;
  for (int c = 0; c < calibrators; ++c) {
    const auto n = static_cast<std::size_t>(50 + 350 * random.uniform() * random.uniform());
    const auto digits = last_digits_of(readings_of(random_flows(random, n)), step_l_min);
    if (!digits) continue;
    ++tested;
    if (check_last_digits(digits->counts, digits->step)->upper_p < false_doubts_a_book) ++alarms;
  }
  const double expected = false_doubts_a_book * tested;
  EXPECT_GT(tested, calibrators * 9 / 10);
  EXPECT_GE(alarms, 1);
  EXPECT_LE(alarms, expected + 4 * std::sqrt(expected));
}

// A sample a day from September on, read once before and three times after. The pump's level differs from day to day by
// 0.03 L/min.
BookText book_of_days(std::uint64_t seed, double share_rounded, const std::string& resolution = "0.001") {
  test::RandomNumbers random(seed);
  BookText text;
  text.certificates.clear();
  text.instruments =
      "instrument,kind,principle,resolution [L/min]\nP1,pump,,\nV1,calibrator,volumetric," + resolution + "\n";
  text.samples = "sample,pump,started,stopped,nominal [L/min]\n";
  text.readings = "taken,stage,sample,calibrator,reading [L/min]\n";
  for (int day = 0; day < 2 * days; ++day) {
    const std::string date = "2026-" + two_digits(9 + day / days) + "-" + two_digits(1 + day % days);
    const std::string name = "D" + std::to_string(day);
    text.samples += name + ",P1," + date + "T08:00," + date + "T16:00,2.2\n";
    text.readings += date + "T07:30,pre," + name + ",V1,2.200\n";
    double flow = 2 + 0.03 * random.normal();
    if (random.uniform() < share_rounded) flow = std::round(100 * flow) / 100;
    for (int i = 0; i < 3; ++i) {
      text.readings += date + "T16:1" + std::to_string(i) + ",post," + name + ",V1," +
                       shown(i == 0 ? flow : flow + 0.004 * random.normal()) + "\n";
    }
  }
  return text;
}

TEST(LastDigits, ThatAreUnevenAreToldWithTheirFigures) {
  const Diagnostics doubts = doubts_of(book_of(book_of_days(6, 0.5)));
  ASSERT_EQ(doubts.size(), 1U);
  EXPECT_EQ(doubts[0].id, "doubt/last-digits");
  EXPECT_EQ(doubts[0].place.line, 3U);
  EXPECT_EQ(doubts[0].message,
            "of 56 sets read with V1 after sampling, here the first, 28 begin with a reading that ends in 0; chance "
            "makes about "
            "6, and digits so uneven once in a million or more honest books");
}

TEST(LastDigits, OfAnHonestBookAreNotTold) {
  for (std::uint64_t seed = 10; seed < 20; ++seed) EXPECT_EQ(ids(book_of_days(seed, 0)), std::vector<std::string>());
}

// What is told of a book of 60 samples whose pre and post flows these are, in thousandths of a litre per minute from 2
// on, both read twice with V1.
Diagnostics told_of(const std::vector<int>& pre, const std::vector<int>& post, const std::string& resolution,
                    int least = 2000) {
  BookText text;
  text.instruments =
      "instrument,kind,principle,resolution [L/min]\nP1,pump,,\nV1,calibrator,volumetric," + resolution + "\n";
  text.samples = "sample,pump,started,stopped,nominal [L/min]\n";
  text.readings = "taken,stage,sample,calibrator,reading [L/min]\n";
  for (int s = 0; s < 60; ++s) {
    const std::string date = "2026-0" + std::to_string(3 + s / 28) + "-" + two_digits(1 + s % 28);
    const std::string name = "D" + std::to_string(s);
    text.samples += name + ",P1," + date + "T08:00," + date + "T16:00,2\n";
    const auto at = static_cast<std::size_t>(s);
    text.readings += date + "T07:30,pre," + name + ",V1," + shown((least + pre[at % pre.size()]) / 1000.0) + "\n";
    text.readings += date + "T16:10,post," + name + ",V1," + shown((least + post[at % post.size()]) / 1000.0) + "\n";
  }
  const Book book = book_of(text);
  Diagnostics doubts;
  note_last_digits(book, replicates_of(book, {book, std::nullopt}), {}, doubts);
  return doubts;
}

std::vector<int> in_tens(int n, int digit) {
  std::vector<int> flows;
  for (int i = 0; i < n; ++i) flows.push_back(10 * (i + 1) + digit);
  return flows;
}

// Pumps are set to 2.000 before; after, a flow near it is as good as any.
TEST(LastDigits, LeaveOutOnlyWhatIsReadBeforeASample) {
  std::vector<int> post = in_tens(50, 3);
  post.insert(post.end(), {3, 3, 3, 3, 3, 3, 3, 3, 3, 3});
  const Diagnostics doubts = told_of({2}, post, "0.001");
  ASSERT_EQ(doubts.size(), 1U);
  EXPECT_TRUE(doubts[0].message.starts_with(
      "of 60 sets read with V1 after sampling, here the first, 60 begin with a reading that ends "
      "in 3; chance makes about 6, "))
      << doubts[0].message;
}

TEST(LastDigits, ThatTheDisplayCannotShowDoNotCount) {
  std::vector<int> post = in_tens(60, 4);
  EXPECT_EQ(told_of({2}, post, "0.002").size(), 1U);
  for (std::size_t i = 0; i < 11; ++i) post[i] += 1;  // odd
  EXPECT_EQ(told_of({2}, post, "0.002").size(), 0U) << "49 even ones";
  post[0] -= 1;
  EXPECT_EQ(told_of({2}, post, "0.002").size(), 1U) << "50 even ones";
}

// Of a display that shows tens of litres alone, no digit could be another.
TEST(LastDigits, OfADisplayThatShowsOneOnlyAreEven) {
  std::vector<int> tens;
  for (int i = 1; i <= 60; ++i) tens.push_back(10000 * i);
  EXPECT_EQ(told_of(tens, tens, "", 0).size(), 0U);
}

TEST(LastDigits, AskForAResolutionThatIsNotStated) {
  const Diagnostics doubts = doubts_of(book_of(book_of_days(6, 0.5, "")));
  ASSERT_EQ(doubts.size(), 1U);
  EXPECT_NE(doubts[0].hint.find("state its resolution"), std::string::npos);
}

}  // namespace
}  // namespace driftwarden::last_digits_test
