// SPDX-License-Identifier: MIT
#include "verdict/readings_ahead.hpp"

#include <gtest/gtest.h>

#include "support/book_text.hpp"

namespace driftwarden::readings_ahead_test {
namespace {

// input: sets of so many readings, each on a day of its own.

constexpr Row v1 = 2;
constexpr Row v2 = 3;

struct SetText {
  int day;
  const char* calibrator;
  int readings;
  const char* stage = "pre";
};

Book book_with(const std::vector<SetText>& sets) {
  BookText text;
  text.readings = "taken,stage,sample,pump,calibrator,reading [L/min],void\n";
  for (const auto& [day, calibrator, readings, stage] : sets) {
    const std::string date = "2026-09-" + std::to_string(day);
    for (int i = 0; i < readings; ++i)
      text.readings += date + "T07:3" + std::to_string(i) + "," + stage + ",,P1," + calibrator + ",2.000,\n";
    text.readings += date + "T07:39," + stage + ",,P1," + calibrator + ",3.000,yes\n";  // struck out
  }
  return book_of(text);
}

int usual(const std::vector<SetText>& sets, Row calibrator, const char* as_of = "2026-09-30") {
  const Book book = book_with(sets);
  Day day = no_day;
  StampReader(book.settings.zone, DateOrder::iso).read_date(as_of, day);
  return ReadingHabit(book, day).of(calibrator);
}

TEST(ReadingHabit, IsOfTheCalibratorThatIsReadWith) {
  const std::vector<SetText> sets = {{10, "V1", 3}, {11, "V1", 3}, {12, "V1", 4}, {13, "V2", 5},
                                     {14, "V2", 5}, {15, "V2", 5}, {16, "V2", 5}};
  EXPECT_EQ(usual(sets, v1), 3);
  EXPECT_EQ(usual(sets, v2), 5);
  EXPECT_EQ(usual(sets, no_row), 5) << "of all of them";
  EXPECT_EQ(usual({{10, "V1", 3}}, v2), 3) << "nothing was read with it yet";
  EXPECT_EQ(usual({}, v1), 0);
}

TEST(ReadingHabit, IsTheLargerNumberOfTwoAsFrequent) { EXPECT_EQ(usual({{10, "V1", 5}, {11, "V1", 3}}, v1), 5); }

TEST(ReadingHabit, IsOfTheNewestSetsUpToADay) {
  std::vector<SetText> sets;
  for (int day = 1; day < 10; ++day) sets.push_back({day + 10, "V1", 3});
  const std::vector<SetText> before = sets;
  for (int day = 20; day < 30; ++day) {
    for (const char* stage : {"pre", "post"}) sets.push_back({day, "V1", 5, stage});
  }
  for (const SetText& set : before) sets.push_back(set);  // wherever they stand
  EXPECT_EQ(usual(sets, v1), 5);
  EXPECT_EQ(usual(sets, v1, "2026-09-19"), 6) << "those of one day and stage are one set";
}

TEST(ReadingHabit, LeavesOutReadingsDuringSampling) {
  EXPECT_EQ(usual({{10, "V1", 3}, {11, "V1", 6, "field"}, {12, "V1", 6, "field"}}, v1), 3);
}

TEST(ReadingsAhead, AreAsManyAsAreAskedForOrUsual) {
  EXPECT_EQ(readings_ahead(3, 5), 5U);
  EXPECT_EQ(readings_ahead(5, 3), 5U);
  EXPECT_EQ(readings_ahead(0, 1), 1U);
  EXPECT_EQ(readings_ahead(2, 0), 2U);
  EXPECT_EQ(readings_ahead(0, 0), 3U) << "nobody says";
  EXPECT_EQ(readings_ahead(30, 40), 30U) << "a habit alone does not fill a sheet";
  EXPECT_EQ(readings_ahead(0, 40), 12U);
}

}  // namespace
}  // namespace driftwarden::readings_ahead_test
