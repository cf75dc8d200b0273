// SPDX-License-Identifier: MIT
#include "outside/unfinished.hpp"

#include <fcntl.h>
#include <gtest/gtest.h>
#include <sys/wait.h>
#include <unistd.h>

#include <cerrno>
#include <csignal>
#include <fstream>
#include <thread>

#include "book/scratch_folder.hpp"
#include "outside/output_stream.hpp"

namespace driftwarden::unfinished_test {
namespace {

namespace fs = std::filesystem;

void fill(const fs::path& folder) {
  for (int i = 0; i < 300; ++i) write_new(folder / std::to_string(i % 7) / ("file " + std::to_string(i)), "text");
}

// Runs something in a child as main would; the signal that ended it, or minus its exit status.
template <class Does>
int signal_that_ended(Does does) {
  const pid_t child = fork();
  if (child == 0) {
    end_tidily_on_signals();
    does();
    _exit(0);
  }
  int status = 0;
  waitpid(child, &status, 0);
  return WIFSIGNALED(status) ? WTERMSIG(status) : -WEXITSTATUS(status);
}

TEST(Unfinished, IsGoneAtTheEndOfItsLifeUnlessKept) {
  const ScratchFolder scratch;
  {
    const Unfinished folder(scratch.path() / "folder");
    fill(folder.path());
    Unfinished file(scratch.path() / "file");
    write_new(file.path(), "text");
    Unfinished kept(scratch.path() / "kept");
    write_new(kept.path(), "text");
    kept.keep();
    const Unfinished never_made(scratch.path() / "never made");
  }
  EXPECT_FALSE(fs::exists(scratch.path() / "folder"));
  EXPECT_FALSE(fs::exists(scratch.path() / "file"));
  EXPECT_TRUE(fs::exists(scratch.path() / "kept"));
}

TEST(Unfinished, FollowsNoLinks) {
  const ScratchFolder scratch;
  write_new(scratch.path() / "others" / "file", "text");
  {
    const Unfinished folder(scratch.path() / "folder");
    fs::create_directory(folder.path());
    fs::create_symlink(scratch.path() / "others", folder.path() / "link");
  }
  EXPECT_FALSE(fs::exists(scratch.path() / "folder"));
  EXPECT_TRUE(fs::exists(scratch.path() / "others" / "file"));
}

TEST(Unfinished, GoesWithASignalThatEndsTheRun) {
  for (const int signal : {SIGINT, SIGTERM, SIGHUP, SIGXCPU, SIGPIPE}) {
    const ScratchFolder scratch;
    EXPECT_EQ(signal_that_ended([&] {
                const Unfinished folder(scratch.path() / "folder");
                fill(folder.path());
                Unfinished kept(scratch.path() / "kept");
                write_new(kept.path(), "text");
                kept.keep();
                raise(signal);
              }),
              signal);
    EXPECT_FALSE(fs::exists(scratch.path() / "folder")) << signal;
    EXPECT_TRUE(fs::exists(scratch.path() / "kept")) << signal;
  }
}

TEST(Unfinished, GoesAlsoWhereAnotherThreadGetsTheSignal) {
  const ScratchFolder scratch;
  EXPECT_EQ(signal_that_ended([&] {
              const Unfinished folder(scratch.path() / "folder");
              std::thread([] { raise(SIGTERM); }).detach();
              for (;;) fill(folder.path() / "more");
            }),
            SIGTERM);
  EXPECT_FALSE(fs::exists(scratch.path() / "folder"));
}

TEST(Unfinished, SaysWhichSignalItWas) {
  const ScratchFolder scratch;
  signal_that_ended([&] {
    dup2(::open((scratch.path() / "said").c_str(), O_WRONLY | O_CREAT, 0600), STDERR_FILENO);
    raise(SIGTERM);
  });
  std::ifstream in(scratch.path() / "said");
  std::string line;
  std::getline(in, line);
  EXPECT_EQ(line, "driftwarden: ended by SIGTERM; nothing unfinished is left");
}

TEST(Unfinished, LeavesASignalAloneThatIsIgnored) {
  EXPECT_EQ(signal_that_ended([&] {
              ::signal(SIGHUP, SIG_IGN);
              end_tidily_on_signals();
              raise(SIGHUP);
            }),
            0);
}

TEST(Unfinished, MakesAFileThatGrowsTooLargeAReasonAndNoSignal) {
  EXPECT_EQ(signal_that_ended([&] { raise(SIGXFSZ); }), 0);
}

TEST(Unfinished, HasANameBesideItsPlace) {
  EXPECT_EQ(unfinished_beside("/a/b.csv"), "/a/b.csv.unfinished-" + std::to_string(getpid()));
}

TEST(StartedProcesses, EndWithTheSignalThatEndsTheRun) {
  int ends[2];
  ASSERT_EQ(pipe(ends), 0);
  EXPECT_EQ(signal_that_ended([&] {
              const pid_t sleeper = fork();
              if (sleeper == 0) {
                setpgid(0, 0);
                for (;;) pause();
              }
              setpgid(sleeper, sleeper);
              const StartedProcesses started(sleeper);
              raise(SIGTERM);
            }),
            SIGTERM);
  close(ends[1]);
  char byte = 0;
  EXPECT_EQ(read(ends[0], &byte, 1), 0);  // whoever still ran would hold the other end open
  close(ends[0]);
}

}  // namespace
}  // namespace driftwarden::unfinished_test
