// SPDX-License-Identifier: MIT
#include <gtest/gtest.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#include <atomic>

#include "system/in_parallel.hpp"

namespace driftwarden::fewer_threads_test {
namespace {

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

TEST(InParallel, DoesItAllWithFewerThreadsWhereTheSystemGivesNoMore) { EXPECT_EQ(done_without_more_threads(7), 7); }

}  // namespace
}  // namespace driftwarden::fewer_threads_test
