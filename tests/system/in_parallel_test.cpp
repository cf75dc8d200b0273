// SPDX-License-Identifier: MIT
#include "driftwarden/system/in_parallel.hpp"

#include <gtest/gtest.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#include <atomic>
#include <mutex>
#include <new>
#include <set>
#include <stdexcept>

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

// The number of things done in a process that gets no room for the stack of another thread.
int done_without_more_threads(int things) {
  const pid_t child = fork();
  if (child == 0) {
    const rlimit no_more{1, 1};
    setrlimit(RLIMIT_AS, &no_more);
    std::atomic<int> next{0};
    std::atomic<int> done{0};
    constexpr std::size_t more_than_stacks_left_by_others = 30;
    in_parallel(more_than_stacks_left_by_others, [&](std::size_t) {
      while (next++ < things) ++done;
    });
    _exit(done);
  }
  int status = 0;
  waitpid(child, &status, 0);
  return WIFEXITED(status) ? WEXITSTATUS(status) : -1;
}

TEST(InParallel, DoesItAllWithFewerThreadsWhereTheSystemGivesNoMore) {
#if defined(__SANITIZE_ADDRESS__)
  GTEST_SKIP() << "sanitizers need more room than is left here";
#endif
  EXPECT_EQ(done_without_more_threads(7), 7);
}

}  // namespace
}  // namespace driftwarden::in_parallel_test
