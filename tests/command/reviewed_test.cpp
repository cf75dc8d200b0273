// SPDX-License-Identifier: MIT
#include "command/reviewed.hpp"

#include <gtest/gtest.h>

#include "command/called.hpp"
#include "support/project_folder.hpp"

namespace driftwarden::reviewed_test {
namespace {

std::optional<Reviewed> review(const CalledBook& folder, std::string& err, const ReviewChoices& choices = {}) {
  std::ostringstream out;
  std::ostringstream told;
  Surroundings surroundings{out, told, false, false, 0, project_folder(), "0.1.0"};
  BookOptions options;
  options.book = folder.path();
  options.as_of = "2026-09-24";
  const auto opened = open_book(options, surroundings);
  std::optional<Reviewed> made;
  if (opened != nullptr) made = reviewed(*opened, choices, surroundings);
  err = told.str();
  return made;
}

TEST(Reviewed, IsThePageWithChartsAndDigests) {
  const CalledBook folder(charted_text());
  std::string err;
  const auto made = review(folder, err);
  ASSERT_TRUE(made);
  EXPECT_EQ(err, "");
  EXPECT_TRUE(made->is_amiss);
  EXPECT_EQ(made->summary,
            "2026-09-17 to 2026-09-24: 1 action, 0 open from before; 1 sample: 0 valid, 0 qualified, 0 "
            "undecided, 1 void");
  EXPECT_NE(made->html.find("<svg role=\"img\" aria-label=\"Chart of V1: "), std::string::npos);
  EXPECT_NE(made->html.find("<bdi>readings.csv</bdi>"), std::string::npos);
}

TEST(Reviewed, GivesTheSameBytesAgain) {
  const CalledBook folder(charted_text());
  std::string err;
  EXPECT_EQ(review(folder, err)->html, review(folder, err)->html);
}

TEST(Reviewed, LooksBackAsManyDaysAsAsked) {
  const CalledBook folder(charted_text());
  std::string err;
  EXPECT_TRUE(review(folder, err, {3, ""})->is_amiss);
  EXPECT_FALSE(review(folder, err, {2, ""})->is_amiss);
}

TEST(Reviewed, SaysWhatLacksWhereThereIsNoGnuplot) {
  const CalledBook folder(charted_text());
  const EnvironmentVariable no_programs("PATH", "/nonexistent");
  std::string err;
  const auto made = review(folder, err);
  ASSERT_TRUE(made);
  ASSERT_FALSE(made->why_no_charts.empty());
  EXPECT_EQ(made->why_no_charts.front().id, "plot/no-gnuplot");
  EXPECT_NE(made->html.find("There are no charts on this page: "), std::string::npos);
  EXPECT_NE(made->html.find("gnuplot-nox"), std::string::npos);
}

// A full disk, a gnuplot that fails: a page without its charts would look like one that has none to show.
TEST(Reviewed, IsNoneWhereItsChartsFailForAnotherReason) {
  const CalledBook folder(charted_text());
  const ScratchFolder programs;
  std::ofstream(programs.path() / "gnuplot") << "#!/bin/sh\nexit 3\n";
  std::filesystem::permissions(programs.path() / "gnuplot", std::filesystem::perms::owner_all);
  const EnvironmentVariable failing_gnuplot("PATH", programs.path().string());
  std::string err;
  EXPECT_FALSE(review(folder, err));
  EXPECT_NE(err.find("gnuplot could not draw: it ended with status 3 [plot/failed]"), std::string::npos) << err;
}

TEST(Reviewed, IsNoneWhereTheChoicesOfChartsCanNotBeUsed) {
  BookText text = charted_text();
  text.settings += "[history]\nrun_rules = [\"run-of-x\"]\n";
  const CalledBook folder(text);
  std::string err;
  EXPECT_FALSE(review(folder, err));
  EXPECT_NE(err.find("history/unknown-run-rule"), std::string::npos);
}

}  // namespace
}  // namespace driftwarden::reviewed_test
