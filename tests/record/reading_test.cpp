// SPDX-License-Identifier: MIT
#include "record/reading.hpp"

#include <gtest/gtest.h>

#include <initializer_list>
#include <span>
#include <vector>

namespace driftwarden::reading_test {
namespace {

TEST(Reading, StagesAreWrittenAsInTheTable) {
  EXPECT_EQ(to_text(Stage::pre), "pre");
  EXPECT_EQ(to_text(Stage::field), "field");
  EXPECT_EQ(to_text(Stage::post), "post");
}

TEST(Reading, FlagsAreBitsOfTheirOwn) { EXPECT_EQ(reading_is_void & reading_is_rejected, 0); }

TEST(Reading, ATableStartsEmpty) { EXPECT_EQ(ReadingTable{}.size(), 0U); }

template <class T>
void fill(Column<T>& column, std::initializer_list<T> values) {
  for (const T value : values) column.push_back(value);
}

// input: readings of which the second differs from the first in one thing, or in none.
TEST(Reading, CountsThoseThatCountAndHaveLikeConditions) {
  ReadingTable table;
  fill<std::uint8_t>(table.flags, {0, 0, reading_is_void, 0});
  const std::vector<Row> rows{0, 1, 2, 3};
  EXPECT_EQ(table.count_alike(rows), 2U);  // no conditions are written
  EXPECT_EQ(table.count_alike(std::span(rows).subspan(3)), 1U);
  for (DecimalColumn* column : {&table.temperature_k, &table.pressure_kpa, &table.humidity}) {
    column->reserve(4);
    column->set_size(4);
    column->put(0, 1.5, 1.5);
    column->put(1, 2.5, 2.5);
    EXPECT_EQ(table.count_alike(rows), 1U);
    column->put(1, 1.5, 1.5);
    EXPECT_EQ(table.count_alike(rows), 2U);
  }
}

TEST(Reading, AreScatteredWhereSamplesMostlyLieFarApart) {
  ReadingTable table;
  EXPECT_FALSE(table.are_scattered());
  for (Row row = 0; row < 100; ++row) table.sample.push_back(row / 10 + row % 3);  // as they come in time
  table.rows = 100;
  EXPECT_FALSE(table.are_scattered());
  for (Row row = 0; row < 100; ++row) table.sample[row] = row * 7919 % 100 * 5000;
  EXPECT_TRUE(table.are_scattered());
}

// input: a reading of each of two samples, two of the first, one of none, in no order.
TEST(Reading, ComeTogetherByTheirSamplesWithAllThatIsWrittenOfThem) {
  ReadingTable table;
  table.rows = 4;
  fill<Row>(table.sample, {1, 0, no_row, 0});
  fill<Stage>(table.stage, {Stage::post, Stage::pre, Stage::field, Stage::post});
  fill<std::uint8_t>(table.flags, {0, reading_is_void, 0, reading_is_rejected});
  fill<TextId>(table.note, {10, 11, 12, 13});
  table.taken.reserve(4);
  table.indicated_l_min.reserve(4);
  for (Row row = 0; row < 4; ++row) {
    table.taken.put(row, 100 + row);
    table.indicated_l_min.put(row, 0.5 * row, 0.5 * row);
  }
  table.taken.set_size(4);
  table.indicated_l_min.set_size(4);
  table.problem = {{3, 7}};
  table.place.start(0, {0, 2});
  table.sort_by_sample(2, 2);
  const Row written[] = {1, 3, 0, 2};
  for (Row row = 0; row < 4; ++row) {
    const Row as = written[row];
    EXPECT_EQ(table.place[row].line, 2 + as);
    EXPECT_EQ(table.taken[row], 100 + as);
    EXPECT_EQ(table.indicated_l_min[row], 0.5 * as);
    EXPECT_EQ(table.note[row], 10 + as);
  }
  EXPECT_EQ(table.sample[3], no_row);
  EXPECT_EQ(table.stage[2], Stage::post);
  EXPECT_TRUE(table.is_void(0));
  EXPECT_TRUE(table.is_rejected(1));
  EXPECT_EQ(table.problem, (std::map<Row, ProblemNumber>{{1, 7}}));
  EXPECT_TRUE(table.calibrator.empty());  // nobody wrote one
}

}  // namespace
}  // namespace driftwarden::reading_test
