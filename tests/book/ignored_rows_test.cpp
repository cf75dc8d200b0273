// SPDX-License-Identifier: MIT
#include "book/ignored_rows.hpp"

#include <gtest/gtest.h>

namespace driftwarden::ignored_rows_test {
namespace {

TEST(IgnoredRows, AreNamedByLine) {
  const IgnoredRows rows({"7", "10-12"});
  EXPECT_TRUE(rows.go_by_line());
  for (const std::uint32_t line : {7U, 10U, 11U, 12U}) EXPECT_TRUE(rows.hold(line, "x")) << line;
  for (const std::uint32_t line : {6U, 8U, 9U, 13U}) EXPECT_FALSE(rows.hold(line, "x")) << line;
}

TEST(IgnoredRows, AreNamedByWhatStandsFirst) {
  const IgnoredRows rows({"Total*", "2-x"});
  EXPECT_FALSE(rows.go_by_line());
  EXPECT_TRUE(rows.hold(1, "Total of the week"));
  EXPECT_TRUE(rows.hold(1, "2-x"));
  EXPECT_FALSE(rows.hold(1, "Sub-Total"));
  EXPECT_TRUE(IgnoredRows().empty());
}

}  // namespace
}  // namespace driftwarden::ignored_rows_test
