// SPDX-License-Identifier: MIT
#include "record/reading.hpp"

#include <gtest/gtest.h>

namespace driftwarden::reading_test {
namespace {

TEST(Reading, StagesAreWrittenAsInTheTable) {
  EXPECT_EQ(to_text(Stage::pre), "pre");
  EXPECT_EQ(to_text(Stage::field), "field");
  EXPECT_EQ(to_text(Stage::post), "post");
}

TEST(Reading, FlagsAreBitsOfTheirOwn) { EXPECT_EQ(reading_is_void & reading_is_rejected, 0); }

TEST(Reading, ATableStartsEmpty) { EXPECT_EQ(ReadingTable{}.size(), 0U); }

// input: three readings of which each of the others differs from the first in one thing.
TEST(Reading, HaveLikeConditionsWhereAllThatIsWrittenIsAlike) {
  ReadingTable table;
  EXPECT_TRUE(table.have_like_conditions(0, 1));  // nothing is written
  for (DecimalColumn* column : {&table.temperature_k, &table.pressure_kpa, &table.humidity}) {
    column->reserve(2);
    column->set_size(2);
    column->put(0, 1.5, 1.5);
    column->put(1, 2.5, 2.5);
    EXPECT_FALSE(table.have_like_conditions(0, 1));
    column->put(1, 1.5, 1.5);
    EXPECT_TRUE(table.have_like_conditions(0, 1));
  }
}

}  // namespace
}  // namespace driftwarden::reading_test
