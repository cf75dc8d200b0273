// SPDX-License-Identifier: MIT
#include "workshop/book_lock.hpp"

#include <gtest/gtest.h>

#include <atomic>
#include <chrono>
#include <thread>

#include "support/book_text.hpp"

namespace driftwarden::book_lock_test {
namespace {

TEST(BookLock, IsHeldByOneAtATime) {
  const ScratchFolder folder;
  BookText().write(folder.path());
  std::atomic<bool> has_waited{false};
  std::atomic<bool> has_it{false};
  std::thread other;
  {
    const Result<BookLock> lock = BookLock::take(folder.path(), {});
    ASSERT_TRUE(lock);
    other = std::thread([&] {
      const Result<BookLock> second = BookLock::take(folder.path(), [&] { has_waited = true; });
      has_it = static_cast<bool>(second);
    });
    while (!has_waited) std::this_thread::yield();
    std::this_thread::sleep_for(std::chrono::milliseconds(20));
    EXPECT_FALSE(has_it);
  }
  other.join();
  EXPECT_TRUE(has_it);
}

TEST(BookLock, NeedsABook) {
  const ScratchFolder folder;
  const Result<BookLock> lock = BookLock::take(folder.path(), {});
  ASSERT_FALSE(lock);
  EXPECT_EQ(lock.faults().front().id, "book/unlocked");
}

}  // namespace
}  // namespace driftwarden::book_lock_test
