// SPDX-License-Identifier: MIT
#include "record/moment_column.hpp"

#include <gtest/gtest.h>

namespace driftwarden::moment_column_test {
namespace {

TEST(MomentColumn, GivesBackEveryMomentToTheSecond) {
  MomentColumn column;
  column.reserve(10);
  // 2026-05-01T08:00:01Z; the ends of what four bytes hold and the seconds beyond; the years 1 and 9999; none.
  const Moment moments[] = {1777622401,
                            946684800 + 2147483647LL,
                            946684800 + 2147483648LL,
                            946684800 - 2147483646LL,
                            946684800 - 2147483647LL,
                            946684800 - 2147483648LL,
                            -62135596800,
                            253402300799,
                            no_moment};
  Row row = 0;
  for (const Moment moment : moments) column.put(row++, moment);
  column.set_size(row);
  row = 0;
  for (const Moment moment : moments) EXPECT_EQ(column[row++], moment);
}

TEST(MomentColumn, KeepsTheLastMomentPutIntoARow) {
  MomentColumn column;
  column.reserve(1);
  column.put(0, 253402300799);
  column.put(0, 5);
  EXPECT_EQ(column[0], 5);
  column.put(0, no_moment);
  EXPECT_EQ(column[0], no_moment);
}

TEST(MomentColumn, BringsAlsoFarMomentsIntoAnotherOrder) {
  MomentColumn column;
  column.reserve(3);
  Row row = 0;
  for (const Moment moment : {Moment{253402300799}, Moment{5}, no_moment}) column.put(row++, moment);
  column.set_size(row);
  RowOrder order;
  for (const Row place : {1U, 2U, 0U}) order.rows.push_back(place);
  column.reorder(order);
  EXPECT_EQ(column[0], 5);
  EXPECT_EQ(column[1], no_moment);
  EXPECT_EQ(column[2], 253402300799);
}

}  // namespace
}  // namespace driftwarden::moment_column_test
