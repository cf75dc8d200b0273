// SPDX-License-Identifier: MIT
#include "system/in_parallel.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <atomic>
#include <mutex>
#include <new>
#include <set>
#include <stdexcept>
#include <vector>

namespace driftwarden::in_parallel_test {
namespace {

TEST(InParallel, GivesEachThreadItsNumber) {
  std::mutex mutex;
  std::multiset<std::size_t> numbers;
  in_parallel(4, [&](std::size_t number) {
    const std::scoped_lock lock(mutex);
    numbers.insert(number);
  });
  EXPECT_EQ(numbers, (std::multiset<std::size_t>{0, 1, 2, 3}));
}

TEST(InParallel, DoesTheWorkHereWhereOneThreadIsEnough) {
  std::size_t calls = 0;
  for (const std::size_t threads : {0U, 1U}) in_parallel(threads, [&](std::size_t number) { calls += number + 1; });
  EXPECT_EQ(calls, 2U);
}

TEST(InParallel, ThrowsOnWhatAnyThreadThrewWhenAllHaveEnded) {
  for (std::size_t thrower = 0; thrower < 4; ++thrower) {
    std::atomic<int> ended{0};
    const auto work = [&](std::size_t number) {
      ++ended;
      if (number == thrower) throw std::bad_alloc();
    };
    EXPECT_THROW(in_parallel(4, work), std::bad_alloc) << thrower;
    EXPECT_EQ(ended, 4);
  }
}

TEST(ShareOut, HasEachWorkDoneOnceByWorkersOfTheirOwn) {
  for (const std::size_t threads : {1U, 3U, 50U}) {
    std::vector<std::atomic<int>> done(20);
    std::atomic<std::size_t> workers{0};
    share_out(done.size(), threads, [&] {
      ++workers;
      return [&](std::size_t number) { ++done[number]; };
    });
    for (const std::atomic<int>& times : done) EXPECT_EQ(times, 1);
    EXPECT_LE(workers, std::min<std::size_t>(threads, done.size()));
  }
}

TEST(ShareOut, DoesNothingWhereThereIsNothing) {
  share_out(0, 2, [] { return [](std::size_t number) { ADD_FAILURE() << number; }; });
}

}  // namespace
}  // namespace driftwarden::in_parallel_test
