// SPDX-License-Identifier: MIT
#include "command/given_text.hpp"

#include <gtest/gtest.h>

#include "book/table_files.hpp"
#include "command/called.hpp"

namespace driftwarden::given_text_test {
namespace {

// The text, or why it is refused.
std::string given(const std::string& text) {
  std::string told;
  const auto kept = text_given({"--by", text, "name who"}, [&](const std::string& message, const std::string& hint) {
    told = message + "; " + hint;
  });
  return kept ? *kept : told;
}

TEST(GivenText, IsKeptWithoutTheBlanksAroundIt) { EXPECT_EQ(given(" site hygienist\n"), "site hygienist"); }

TEST(GivenText, IsRefusedWhereItSaysNothingOrDoesNotShowItself) {
  EXPECT_EQ(given(" "), "--by is empty; name who");
  EXPECT_EQ(given("a\x1b[2Jb"),
            "--by holds characters that don't show themselves: 'a\\x1b[2Jb'; write plain text, in UTF-8");
}

TEST(GivenText, IsRefusedWhereTheBookReadsItAsAnEmptyCell) {
  const Book book = book_of({});
  std::string told;
  const Refuse refuse = [&](const std::string& message, const std::string&) { told = message; };
  EXPECT_FALSE(is_mark_for_nothing({"--who", "workshop", ""}, book, refuse));
  EXPECT_TRUE(is_mark_for_nothing({"--who", "none", ""}, book, refuse));
  EXPECT_EQ(told, "--who is 'none', which this book reads as an empty cell");
}

TEST(GivenText, SaysOfWhichTableItWaits) {
  std::ostringstream err;
  Surroundings surroundings{err, err, false, false, 0, project_folder(), "0.1.0"};
  tells_of_waiting(actions_spec, surroundings)();
  EXPECT_EQ(err.str(),
            "actions.csv: remark: another run is writing to it; this one waits until that is done [table/waiting]\n");
}

}  // namespace
}  // namespace driftwarden::given_text_test
