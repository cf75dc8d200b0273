// SPDX-License-Identifier: MIT
#include "record/row_order.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <numeric>
#include <random>
#include <vector>

namespace driftwarden::row_order_test {
namespace {

Column<Row> column_of(const std::vector<Row>& rows) {
  Column<Row> column;
  for (const Row row : rows) column.push_back(row);
  return column;
}

std::vector<Row> rows_of(const Column<Row>& column) { return {column.begin(), column.end()}; }

TEST(RowOrder, KeepsTheRowsOfOneInTheOrderInWhichTheyStood) {
  const RowOrder order = order_by(column_of({2, 0, no_row, 2, 1, 0}), 3, 1);
  EXPECT_EQ(rows_of(order.rows), (std::vector<Row>{1, 5, 4, 0, 3, 2}));
  EXPECT_EQ(order.place_of(0), 3U);
  EXPECT_EQ(order.place_of(2), 5U);
}

TEST(RowOrder, IsEmptyForNoRows) { EXPECT_EQ(order_by({}, 3, 2).size(), 0U); }

TEST(RowOrder, BringsAColumnIntoIt) {
  const Column<Row> of = column_of({1, 0, 1, 0});
  EXPECT_EQ(rows_of(order_by(of, 2, 1).of(column_of({10, 11, 12, 13}))), (std::vector<Row>{11, 13, 10, 12}));
  EXPECT_TRUE(order_by(of, 2, 1).of(Column<Row>()).empty());  // one that nobody wrote
}

// A stable sort of the standard library is the other way.
TEST(RowOrder, IsThatOfAStableSortWithAnyNumberOfThreads) {
  std::mt19937 random(20261130);
  for (const std::size_t count : {1U, 2U, 7U, 1000U}) {
    std::vector<Row> of(70000);
    for (Row& thing : of) thing = random() % 50 == 0 ? no_row : static_cast<Row>(random() % count);
    std::vector<Row> sorted(of.size());
    std::iota(sorted.begin(), sorted.end(), 0U);
    std::stable_sort(sorted.begin(), sorted.end(), [&of](Row a, Row b) { return of[a] < of[b]; });
    for (const std::size_t threads : {0U, 1U, 2U, 7U}) {
      const RowOrder order = order_by(column_of(of), count, threads);
      EXPECT_EQ(rows_of(order.rows), sorted) << count << ' ' << threads;
      const std::vector<Row> brought = rows_of(order.of(column_of(of)));
      EXPECT_TRUE(std::is_sorted(brought.begin(), brought.end()));
    }
  }
}

}  // namespace
}  // namespace driftwarden::row_order_test
