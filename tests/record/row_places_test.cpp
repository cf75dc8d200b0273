// SPDX-License-Identifier: MIT
#include "record/row_places.hpp"

#include <gtest/gtest.h>

namespace driftwarden::row_places_test {
namespace {

void expect_place(const RowPlaces& places, Row row, std::uint32_t file, std::uint32_t line) {
  EXPECT_EQ(places[row].file, file) << row;
  EXPECT_EQ(places[row].line, line) << row;
}

TEST(RowPlaces, CountLinesOnFromAStart) {
  RowPlaces places;
  places.start(0, {0, 2});
  expect_place(places, 0, 0, 2);
  expect_place(places, 41, 0, 43);
}

TEST(RowPlaces, JumpWhereAnotherStretchBegins) {
  RowPlaces places;
  places.start(0, {0, 2});
  places.start(3, {0, 9});
  places.start(5, {1, 2});
  expect_place(places, 2, 0, 4);
  expect_place(places, 3, 0, 9);
  expect_place(places, 4, 0, 10);
  expect_place(places, 5, 1, 2);
  expect_place(places, 7, 1, 4);
}

TEST(RowPlaces, AreTheSameWhenEveryRowIsAStart) {
  RowPlaces places;
  for (Row row = 0; row < 10; ++row) places.start(row, {0, row < 5 ? 2 + row : 12 + row});
  for (Row row = 0; row < 10; ++row) expect_place(places, row, 0, row < 5 ? 2 + row : 12 + row);
}

TEST(RowPlaces, PassOverAFileWithoutRows) {
  RowPlaces places;
  places.start(0, {0, 2});
  places.start(4, {1, 2});
  places.start(4, {2, 3});
  expect_place(places, 3, 0, 5);
  expect_place(places, 4, 2, 3);
}

TEST(RowPlaces, KnowNothingOfRowsBeforeTheFirstStart) {
  RowPlaces places;
  expect_place(places, 0, 0, 0);
  places.start(2, {0, 2});
  expect_place(places, 1, 0, 0);
}

TEST(RowPlaces, FollowRowsIntoAnotherOrder) {
  RowPlaces places;
  places.start(0, {0, 2});
  places.start(2, {1, 2});
  EXPECT_EQ(places.as_written(2), 2U);
  Column<Row> as_written;
  for (const Row row : {2U, 0U, 1U}) as_written.push_back(row);
  places.reorder(std::move(as_written));
  expect_place(places, 0, 1, 2);
  expect_place(places, 1, 0, 2);
  expect_place(places, 2, 0, 3);
  EXPECT_EQ(places.as_written(0), 2U);
}

}  // namespace
}  // namespace driftwarden::row_places_test
