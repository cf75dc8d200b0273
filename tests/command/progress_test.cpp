// SPDX-License-Identifier: MIT
#include "command/progress.hpp"

#include <gtest/gtest.h>

#include <sstream>

namespace driftwarden::progress_test {
namespace {

// A terminal and a clock that the test moves.
struct Watched {
  std::ostringstream out;
  std::ostringstream err;
  double now_s = 100;
  Surroundings surroundings{out, err, true, true, 0, ".", "test", [this] { return now_s; }};
};

TEST(Progress, IsSilentForTheFirstSecond) {
  Watched watched;
  {
    Progress progress(watched.surroundings);
    watched.now_s += 0.99;
    progress("reading readings", 1, 2);
  }
  EXPECT_EQ(watched.err.str(), "");
}

TEST(Progress, DrawsHowFarTheWorkHasComeAndWipesItInTheEnd) {
  Watched watched;
  {
    Progress progress(watched.surroundings);
    watched.now_s += 1;
    progress("reading readings", 1, 2);
    EXPECT_EQ(watched.err.str(), "\rreading readings ===============...............  50 %\x1B[K");
    watched.err.str("");
  }
  EXPECT_EQ(watched.err.str(), "\r\x1B[K");
  EXPECT_EQ(watched.out.str(), "");
}

TEST(Progress, DrawsTenTimesASecondAtMost) {
  Watched watched;
  Progress progress(watched.surroundings);
  watched.now_s += 1;
  progress("judging", 1, 10);
  watched.err.str("");
  watched.now_s += 0.09;
  progress("judging", 2, 10);
  EXPECT_EQ(watched.err.str(), "");
  watched.now_s += 0.02;
  progress("judging", 10, 10);
  EXPECT_EQ(watched.err.str(), "\rjudging ============================== 100 %\x1B[K");
}

TEST(Progress, ShowsNothingWhereErrorsGoToAFile) {
  Watched watched;
  watched.surroundings.err_is_terminal = false;
  Progress progress(watched.surroundings);
  watched.now_s += 5;
  progress("judging", 1, 10);
  EXPECT_EQ(watched.err.str(), "");
}

}  // namespace
}  // namespace driftwarden::progress_test
