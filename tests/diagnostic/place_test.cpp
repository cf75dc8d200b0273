// SPDX-License-Identifier: MIT
#include "driftwarden/diagnostic/place.hpp"

#include <gtest/gtest.h>

namespace driftwarden::place_test {
namespace {

TEST(Place, IsWrittenAsFileLineAndColumn) { EXPECT_EQ(to_text(Place{"readings.csv", 17, 4}), "readings.csv:17:4"); }

TEST(Place, LeavesOutAColumnOfZero) { EXPECT_EQ(to_text(Place{"readings.csv", 17, 0}), "readings.csv:17"); }

TEST(Place, IsTheWholeFileAtLineZero) { EXPECT_EQ(to_text(Place{"readings.csv", 0, 4}), "readings.csv"); }

TEST(Place, SortsByFileThenLineThenColumn) {
  EXPECT_LT((Place{"a.csv", 9, 9}), (Place{"b.csv", 1, 1}));
  EXPECT_LT((Place{"a.csv", 2, 9}), (Place{"a.csv", 10, 1}));
  EXPECT_LT((Place{"a.csv", 2, 1}), (Place{"a.csv", 2, 2}));
}

}  // namespace
}  // namespace driftwarden::place_test
