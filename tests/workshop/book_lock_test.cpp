// SPDX-License-Identifier: MIT
#include "workshop/book_lock.hpp"

#include <gtest/gtest.h>

#include <atomic>
#include <chrono>
#include <filesystem>
#include <optional>
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

// An editor writes a file anew and puts it in the place of the old one: the lock is on that which is there.
TEST(BookLock, IsOnTheFileThatIsThere) {
  const ScratchFolder folder;
  BookText().write(folder.path());
  std::atomic<bool> has_waited{false};
  std::optional<Result<BookLock>> second;
  std::thread other;
  {
    const Result<BookLock> lock = BookLock::take(folder.path(), {});
    ASSERT_TRUE(lock);
    other = std::thread([&] { second.emplace(BookLock::take(folder.path(), [&] { has_waited = true; })); });
    while (!has_waited) std::this_thread::yield();
    std::filesystem::copy_file(folder.path() / "book.toml", folder.path() / "new");
    std::filesystem::rename(folder.path() / "new", folder.path() / "book.toml");
  }
  other.join();
  ASSERT_TRUE(second && *second);
  bool has_third_waited = false;
  std::thread third([&] { BookLock::take(folder.path(), [&] { has_third_waited = true, second.reset(); }); });
  third.join();
  EXPECT_TRUE(has_third_waited);
}

TEST(BookLock, NeedsABook) {
  const ScratchFolder folder;
  const Result<BookLock> lock = BookLock::take(folder.path(), {});
  ASSERT_FALSE(lock);
  EXPECT_EQ(lock.faults().front().id, "book/unlocked");
}

}  // namespace
}  // namespace driftwarden::book_lock_test
