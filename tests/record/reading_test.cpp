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

}  // namespace
}  // namespace driftwarden::reading_test
