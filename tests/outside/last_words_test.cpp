// SPDX-License-Identifier: MIT
#include "outside/last_words.hpp"

#include <fcntl.h>
#include <gtest/gtest.h>
#include <sys/wait.h>
#include <unistd.h>

#include <csignal>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <latch>
#include <new>
#include <thread>
#include <vector>

#include "book/scratch_folder.hpp"
#include "outside/output_stream.hpp"
#include "outside/unfinished.hpp"

namespace driftwarden::last_words_test {
namespace {

namespace fs = std::filesystem;

// What a child said that had last words, and how it ended.
struct End {
  std::string said;
  int status = 0;
};
template <class Does>
End end_of(const fs::path& folder, Does does) {
  const fs::path said = folder / "said";
  const pid_t child = fork();
  if (child == 0) {
    dup2(::open(said.c_str(), O_WRONLY | O_CREAT | O_TRUNC, 0600), STDERR_FILENO);
    end_tidily_on_signals();
    have_last_words(2);
    does();
    _exit(0);
  }
  End end;
  waitpid(child, &end.status, 0);
  std::ifstream file(said);
  end.said.assign(std::istreambuf_iterator<char>(file), {});
  return end;
}

// More than any machine has; kept, so that no compiler leaves the question out.
void ask_for_too_much() {
  static volatile std::size_t bytes = std::size_t{1} << 46U;
  static void* volatile kept = nullptr;
  kept = ::operator new(bytes);
}

// Of many threads at once.
void ask_for_too_much_together() {
  std::vector<std::thread> threads;
  std::latch together(8);
  const auto ask = [&] {
    together.arrive_and_wait();
    ask_for_too_much();
  };
  for (int i = 0; i < 8; ++i) threads.emplace_back(ask);
  for (std::thread& thread : threads) thread.join();
}

constexpr const char* no_memory =
    "driftwarden: there is not enough memory for this; use fewer --threads, or split the book\n";

TEST(LastWords, AreSaidWhereMemoryIsShortAndNothingUnfinishedIsLeft) {
  const ScratchFolder scratch;
  const End end = end_of(scratch.path(), [&] {
    const Unfinished file(scratch.path() / "file");
    write_new(file.path(), "text");
    ask_for_too_much();
  });
  EXPECT_EQ(end.said, no_memory);
  ASSERT_TRUE(WIFEXITED(end.status));
  EXPECT_EQ(WEXITSTATUS(end.status), 2);
  EXPECT_FALSE(fs::exists(scratch.path() / "file"));
}

TEST(LastWords, AreSaidInAnyThreadAndWhereNothingMayBeThrown) {
  const ScratchFolder scratch;
  const auto throws_nothing = []() noexcept { ask_for_too_much(); };
  const End end = end_of(scratch.path(), [&] { std::thread(throws_nothing).join(); });
  EXPECT_EQ(end.said, no_memory);
  ASSERT_TRUE(WIFEXITED(end.status));
  EXPECT_EQ(WEXITSTATUS(end.status), 2);
}

TEST(LastWords, AreSaidOnceWhereManyThreadsRunShortTogether) {
  for (int i = 0; i < 50; ++i) {
    const ScratchFolder scratch;
    ASSERT_EQ(end_of(scratch.path(), ask_for_too_much_together).said, no_memory);
  }
}

TEST(LastWords, NameTheSignalOfAFaultAndLeaveFilesAlone) {
  for (const int signal : {SIGSEGV, SIGBUS, SIGFPE, SIGILL, SIGABRT}) {
    const ScratchFolder scratch;
    const End end = end_of(scratch.path(), [&] {
      const Unfinished file(scratch.path() / "file");
      write_new(file.path(), "text");
      raise(signal);
    });
    EXPECT_TRUE(WIFSIGNALED(end.status) && WTERMSIG(end.status) == signal);
    EXPECT_EQ(end.said, "driftwarden: ended by SIG" + std::string(sigabbrev_np(signal)) +
                            ", a fault of the program; what it was writing may be left, named .unfinished- or "
                            ".driftwarden-\n");
    EXPECT_TRUE(fs::exists(scratch.path() / "file"));
  }
}

}  // namespace
}  // namespace driftwarden::last_words_test
