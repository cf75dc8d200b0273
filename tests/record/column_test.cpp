// SPDX-License-Identifier: MIT
#include "record/column.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <thread>
#include <utility>
#include <vector>

#include "record/sample.hpp"

namespace driftwarden::column_test {
namespace {

// Rows of which half a million doubles are mapped and not taken from the heap.
constexpr std::size_t many = std::size_t{1} << 19;

TEST(Column, IsEmptyWhereNobodyReservedIt) {
  Column<double> column;
  EXPECT_TRUE(column.empty());
  EXPECT_EQ(column.capacity(), 0U);
  column.put(3, 1.5);  // a column nobody keeps takes nothing
  EXPECT_TRUE(column.empty());
}

TEST(Column, ReadsAsZeroWhereNobodyWrote) {
  for (const std::size_t rows : {std::size_t{10}, many}) {
    Column<double> column;
    column.reserve(rows);
    column.set_size(rows);
    EXPECT_EQ(std::count(column.begin(), column.end(), 0.0), static_cast<std::ptrdiff_t>(rows));
  }
}

TEST(Column, KeepsWhatIsPutInPlaceBeforeItsSizeIsSet) {
  Column<int> column;
  column.reserve(5);
  column.put(4, 44);
  column.put(1, 11);
  column.set_size(5);
  EXPECT_EQ(std::vector<int>(column.begin(), column.end()), (std::vector<int>{0, 11, 0, 0, 44}));
}

TEST(Column, KeepsItsRowsWhenItGrowsFromTheHeapIntoPages) {
  Column<std::uint64_t> column;
  for (std::uint64_t i = 0; i < many + 7; ++i) column.push_back(i * i);
  ASSERT_EQ(column.size(), many + 7);
  for (std::uint64_t i = 0; i < column.size(); ++i) ASSERT_EQ(column[i], i * i);
}

TEST(Column, DoesNotShrinkWhenLessIsReserved) {
  Column<int> column;
  column.reserve(100);
  column.reserve(10);
  EXPECT_EQ(column.capacity(), 100U);
  column.reserve(0);
  EXPECT_EQ(column.capacity(), 100U);
}

TEST(Column, KeepsUpToItsSizeWhenMoreIsReserved) {
  Column<int> column;
  column.reserve(4);
  for (std::size_t row = 0; row < 4; ++row) column.put(row, static_cast<int>(row) + 1);
  column.set_size(2);
  column.reserve(many);
  column.set_size(4);
  EXPECT_EQ(std::vector<int>(column.begin(), column.end()), (std::vector<int>{1, 2, 0, 0}));
}

TEST(Column, HandsItsRowsOverWhenMoved) {
  for (const std::size_t rows : {std::size_t{3}, many}) {
    Column<int> first;
    first.reserve(rows);
    first.set_size(rows);
    first[rows - 1] = 9;
    Column<int> second(std::move(first));
    EXPECT_EQ(second[rows - 1], 9);
    Column<int> third;
    third.push_back(1);
    third = std::move(second);
    EXPECT_EQ(third.size(), rows);
    EXPECT_EQ(third[rows - 1], 9);
  }
}

TEST(Column, RefusesMoreRowsThanThereCanBeBytes) {
  Column<double> column;
  EXPECT_THROW(column.reserve(SIZE_MAX / 4), std::bad_alloc);
  EXPECT_THROW(column.reserve(SIZE_MAX / 16 - 1), std::bad_alloc);
  EXPECT_TRUE(column.empty());
}

TEST(Column, TakesRowsFromSeveralThreadsAtOnce) {
  Column<std::uint8_t> column;
  column.reserve(4000);
  {
    std::vector<std::jthread> threads;
    for (std::size_t t = 0; t < 4; ++t) {
      threads.emplace_back([&column, t] {
        for (std::size_t row = t; row < 4000; row += 4) column.put(row, static_cast<std::uint8_t>(row % 251));
      });
    }
  }
  column.set_size(4000);
  for (std::size_t row = 0; row < 4000; ++row) ASSERT_EQ(column[row], row % 251);
}

TEST(Field, ReadsAColumnNobodyWroteAsMissing) {
  Column<double> figures;
  EXPECT_TRUE(is_missing(field(figures, 5)));
  Column<std::uint32_t> texts;
  EXPECT_EQ(field(texts, 5, 7U), 7U);
  figures.push_back(0.0);
  EXPECT_EQ(field(figures, 0), 0.0) << "a figure of 0 is one";
}

}  // namespace
}  // namespace driftwarden::column_test
