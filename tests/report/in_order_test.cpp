// SPDX-License-Identifier: MIT
#include "report/in_order.hpp"

#include <gtest/gtest.h>

#include <atomic>
#include <chrono>
#include <stdexcept>
#include <thread>

namespace driftwarden::in_order_test {
namespace {

// "0 1 2 ", written in blocks; early blocks take longest, so that later ones are ready before their turn.
std::string counted(std::size_t items, std::size_t items_a_block, unsigned threads) {
  std::string all;
  std::size_t expected_first = 0;
  write_in_order(
      items, items_a_block, threads,
      [&] {
        return [&](std::size_t first, std::size_t last, std::string& text) {
          if (first < 3 * items_a_block) std::this_thread::sleep_for(std::chrono::milliseconds(3));
          for (std::size_t i = first; i < last; ++i) text += std::to_string(i) + " ";
        };
      },
      [&](const std::string& text, std::size_t first, std::size_t last) {
        EXPECT_EQ(first, expected_first);
        EXPECT_GT(last, first);
        expected_first = last;
        all += text;
      });
  EXPECT_EQ(expected_first, items);
  return all;
}

TEST(InOrder, HandsBlocksOnInOrderWithAnyNumberOfThreads) {
  std::string expected;
  for (int i = 0; i < 100; ++i) expected += std::to_string(i) + " ";
  for (unsigned threads = 1; threads <= 5; ++threads) EXPECT_EQ(counted(100, 7, threads), expected) << threads;
}

TEST(InOrder, LastBlockIsAsShortAsItMustBe) {
  EXPECT_EQ(counted(8, 7, 2), "0 1 2 3 4 5 6 7 ");
  EXPECT_EQ(counted(7, 7, 2), "0 1 2 3 4 5 6 ");
  EXPECT_EQ(counted(1, 7, 5), "0 ");
}

TEST(InOrder, WritesNothingWhereThereIsNothing) { EXPECT_EQ(counted(0, 7, 3), ""); }

TEST(InOrder, GivesEachThreadAWriterOfItsOwn) {
  std::atomic<int> writers{0};
  write_in_order(
      100, 1, 4, [&] { return [id = writers++](std::size_t, std::size_t, std::string&) { (void)id; }; },
      [](const std::string&, std::size_t, std::size_t) {});
  EXPECT_GE(writers, 1);
  EXPECT_LE(writers, 4);
}

void throw_at(std::size_t item, unsigned threads, bool in_take) {
  write_in_order(
      50, 1, threads,
      [&] {
        return [&](std::size_t first, std::size_t, std::string&) {
          if (first == item && !in_take) throw std::runtime_error("writer");
        };
      },
      [&](const std::string&, std::size_t first, std::size_t) {
        if (first == item && in_take) throw std::runtime_error("take");
      });
}

TEST(InOrder, EndsAndThrowsOnWhatAWriterThrows) {
  for (unsigned threads = 1; threads <= 4; ++threads) {
    EXPECT_THROW(throw_at(0, threads, false), std::runtime_error);
    EXPECT_THROW(throw_at(25, threads, false), std::runtime_error);
  }
}

TEST(InOrder, EndsAndThrowsOnWhatTheTakerThrows) {
  for (unsigned threads = 1; threads <= 4; ++threads) EXPECT_THROW(throw_at(25, threads, true), std::runtime_error);
}

}  // namespace
}  // namespace driftwarden::in_order_test
