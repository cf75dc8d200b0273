// SPDX-License-Identifier: MIT
#include "outside/file_lock.hpp"

#include <fcntl.h>
#include <gtest/gtest.h>
#include <unistd.h>

#include <atomic>
#include <cerrno>
#include <fstream>
#include <thread>

#include "book/scratch_folder.hpp"

namespace driftwarden::file_lock_test {
namespace {

namespace fs = std::filesystem;

TEST(FileLock, IsWaitedForAndGivenBackWithItsOwner) {
  const ScratchFolder folder;
  const fs::path path = folder.path() / "a";
  std::ofstream(path) << "text";
  std::atomic<bool> waits{false};
  std::atomic<bool> has_it{false};
  std::optional<Descriptor> first = locked_file(path, O_RDONLY, [] { FAIL() << "nobody has it"; });
  ASSERT_TRUE(first);
  std::thread other([&] { has_it = locked_file(path, O_RDONLY, [&] { waits = true; }).has_value(); });
  while (!waits) std::this_thread::yield();
  EXPECT_FALSE(has_it);
  first.reset();
  other.join();
  EXPECT_TRUE(has_it);
}

// An editor writes a file anew and puts it in the place of the old one.
TEST(FileLock, IsOnTheFileThatIsThereByThen) {
  const ScratchFolder folder;
  const fs::path path = folder.path() / "a";
  std::ofstream(path) << "old";
  std::optional<Descriptor> first = locked_file(path, O_RDONLY, {});
  std::atomic<bool> waits{false};
  std::string text(3, ' ');
  std::thread other([&] {
    const std::optional<Descriptor> second = locked_file(path, O_RDONLY, [&] { waits = true; });
    EXPECT_EQ(::read(second->number(), text.data(), text.size()), 3);
  });
  while (!waits) std::this_thread::yield();
  std::ofstream(folder.path() / "b") << "new";
  fs::rename(folder.path() / "b", path);
  first.reset();
  other.join();
  EXPECT_EQ(text, "new");
}

TEST(FileLock, SaysByErrnoWhyItCannotBeHad) {
  const ScratchFolder folder;
  EXPECT_FALSE(locked_file(folder.path() / "none", O_RDONLY, {}));
  EXPECT_EQ(errno, ENOENT);
}

}  // namespace
}  // namespace driftwarden::file_lock_test
