// SPDX-License-Identifier: MIT
#include "verdict/copied_blocks.hpp"

#include <gtest/gtest.h>

#include "verdict/honest_book.hpp"

namespace driftwarden::copied_blocks_test {
namespace {

TEST(CopiedBlocks, TellACopiedDayAndWhereItIsFrom) {
  BookText text = honest_book(1);
  const auto original = lines_of(text.readings, "D3");
  const auto copy = lines_of(text.readings, "D20");
  for (std::size_t i = 0; i < original.size(); ++i) set_flow(text.readings, copy[i], flow_in(original[i]));
  const Diagnostics doubts = doubts_of(book_of(text));
  ASSERT_EQ(doubts.size(), 1U);
  EXPECT_EQ(doubts[0].id, "doubt/copied");
  EXPECT_EQ(doubts[0].place.line, 192U);
  EXPECT_NE(doubts[0].message.find("10 readings of D20 are those of D3 from readings.csv:22 on"), std::string::npos)
      << doubts[0].message;
}

TEST(CopiedBlocks, TellNoCopyOfAFewReadings) {
  BookText text = honest_book(1);
  const auto original = lines_of(text.readings, "D3");
  const auto copy = lines_of(text.readings, "D20");
  for (std::size_t i = 0; i < 3; ++i) set_flow(text.readings, copy[i], flow_in(original[i]));
  EXPECT_EQ(ids(text), Ids());
}

}  // namespace
}  // namespace driftwarden::copied_blocks_test
