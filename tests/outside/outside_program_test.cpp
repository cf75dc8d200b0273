// SPDX-License-Identifier: MIT
#include "outside/outside_program.hpp"

#include <gtest/gtest.h>
#include <sys/stat.h>

#include <chrono>
#include <cstdlib>
#include <fstream>
#include <iterator>
#include <thread>

#include "book/scratch_folder.hpp"

namespace driftwarden::outside_program_test {
namespace {

namespace fs = std::filesystem;

// A program that does what its text says, in the language of sh, in a folder of its own.
class Stand {
 public:
  explicit Stand(const std::string& does) {
    std::ofstream(folder_.path() / "program") << "#!/bin/sh\n" << does << "\n";
    chmod((folder_.path() / "program").c_str(), 0700);
  }
  ProgramEnd run(const std::vector<std::string>& arguments = {}, int most_seconds = 60) const {
    return run_apart({(folder_.path() / "program").string(), arguments, folder_.path(), most_seconds});
  }
  std::string text(const char* file) const {
    std::ifstream in(folder_.path() / file);
    return {std::istreambuf_iterator<char>(in), {}};
  }
  const fs::path& path() const { return folder_.path(); }

 private:
  ScratchFolder folder_;
};

TEST(OutsideProgram, WorksInItsFolderWithItsArgumentsAsTheyAre) {
  const Stand stand("printf '%s|' \"$@\" >said");
  EXPECT_TRUE(stand.run({"a b", "$HOME", "; rm -r /", "*"}).is_well());
  EXPECT_EQ(stand.text("said"), "a b|$HOME|; rm -r /|*|");
}

TEST(OutsideProgram, SeesNothingOfTheUserButWhereProgramsAre) {
  const EnvironmentVariable secret("SECRET_OF_THE_USER", "x");
  const EnvironmentVariable zone("TZ", "Asia/Kathmandu");
  const Stand stand("env | cut -d= -f1 | sort >said; ls -A \"$HOME\" | wc -l >inside; echo $TZ $LC_ALL >clock");
  EXPECT_TRUE(stand.run().is_well());
  EXPECT_EQ(stand.text("said").find("SECRET"), std::string::npos);
  EXPECT_EQ(stand.text("inside"), "0\n");
  EXPECT_EQ(stand.text("clock"), "UTC C.UTF-8\n");
}

TEST(OutsideProgram, HasNoInputAndItsOutputGoesNowhere) {
  const Stand stand("cat >said; echo loud; readlink /proc/self/fd/1 >where");
  EXPECT_TRUE(stand.run().is_well());
  EXPECT_EQ(stand.text("said"), "");
}

// Whether this system lets a process leave its network; in some containers it lets nobody.
TEST(OutsideProgram, HasNoNetworkWhereTheSystemLetsAProcessLeaveIt) {
  const bool may_leave = std::system("unshare -n true 2>/dev/null || unshare -Un true 2>/dev/null") == 0;
  const Stand stand("grep -c : /proc/net/dev >devices");
  EXPECT_TRUE(stand.run().is_well());
  if (may_leave) {
    EXPECT_EQ(stand.text("devices"), "1\n") << "the loopback device alone";
  }
}

TEST(OutsideProgram, SaysHowItEnded) {
  EXPECT_EQ(Stand("exit 3").run().said(), "it ended with status 3");
  EXPECT_EQ(Stand("kill -9 $$").run().said(), "it was ended by signal 9");
  EXPECT_EQ(Stand("echo first >&2; echo 'the last' >&2; exit 1").run().complaint, "the last");
  const ProgramEnd none = run_apart({"no-such-program-anywhere", {}, "/tmp"});
  EXPECT_FALSE(none.is_found);
  EXPECT_EQ(none.said(), "there is no such program");
}

TEST(OutsideProgram, ThatCannotBeStartedSaysWhy) {
  const ScratchFolder folder;
  std::ofstream(folder.path() / "program") << "neither a program nor a script\n";
  chmod((folder.path() / "program").c_str(), 0700);
  EXPECT_EQ(run_apart({(folder.path() / "program").string(), {}, folder.path()}).said(),
            "it could not be started: Exec format error");
}

// What is left of a process of this number: nothing, or what its starter has yet to take note of.
bool has_ended(const std::string& process) {
  for (int i = 0; i < 100; ++i) {
    std::ifstream in("/proc/" + process + "/stat");
    const std::string text{std::istreambuf_iterator<char>(in), {}};
    if (text.empty() || text.find(") Z ") != std::string::npos) return true;
    std::this_thread::sleep_for(std::chrono::milliseconds(20));
  }
  return false;
}

TEST(OutsideProgram, EndsWithAllThatItStarted) {
  const Stand by_itself("sleep 100 & printf $! >helper");
  by_itself.run();
  EXPECT_TRUE(has_ended(by_itself.text("helper")));
  const Stand too_late("sleep 100 & printf $! >helper; sleep 100");
  EXPECT_TRUE(too_late.run({}, 1).is_too_late);
  EXPECT_TRUE(has_ended(too_late.text("helper")));
}

TEST(OutsideProgram, IsEndedWhenItsTimeIsUp) {
  const auto begin = std::chrono::steady_clock::now();
  const ProgramEnd end = Stand("exec sleep 30").run({}, 1);
  EXPECT_TRUE(end.is_too_late);
  EXPECT_EQ(end.said(), "it had not ended in the time it was given");
  EXPECT_LT(std::chrono::steady_clock::now() - begin, std::chrono::seconds(20));
}

}  // namespace
}  // namespace driftwarden::outside_program_test
