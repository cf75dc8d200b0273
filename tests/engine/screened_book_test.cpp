// SPDX-License-Identifier: MIT
#include "driftwarden/engine/screened_book.hpp"

#include <gtest/gtest.h>

#include "command/called.hpp"

namespace driftwarden::screened_book_test {
namespace {

bool has(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }

ScreeningOptions as_of(std::string day) {
  ScreeningOptions options;
  options.as_of = std::move(day);
  return options;
}

TEST(ScreenedBook, GivesTheFiguresAndFindingsOfASample) {
  const CalledBook written(judged_text("2 %"));
  const ScreenedBook book(written.path(), as_of("2026-10-01"));
  EXPECT_EQ(book.samples(), (std::vector<std::string>{"S1"}));
  const ScreenedSample sample = book.judge("S1");
  EXPECT_EQ(sample.verdict, "void");
  EXPECT_EQ(sample.standing, "void");
  EXPECT_DOUBLE_EQ(sample.pre_l_min, 2.0);
  EXPECT_DOUBLE_EQ(sample.post_l_min, 1.95);
  EXPECT_DOUBLE_EQ(sample.minutes, 480);
  EXPECT_DOUBLE_EQ(sample.volume_l, 948);
  EXPECT_NEAR(sample.drift, -0.025, 1e-15);  // derived: (1.95 - 2) / 2, by hand
  ASSERT_EQ(sample.findings.size(), 1U);
  EXPECT_EQ(sample.findings[0].verdict, "void");
  EXPECT_TRUE(has(sample.findings[0].message, "The flow fell 2.5 %")) << sample.findings[0].message;
  EXPECT_EQ(sample.findings[0].places, (std::vector<std::string>{"readings.csv:2", "readings.csv:3"}));
}

TEST(ScreenedBook, ExplainsInTheProgramsWords) {
  const CalledBook written(judged_text());
  const ScreenedBook book(written.path(), as_of("2026-10-01"));
  EXPECT_EQ(book.explain("S1"), call({"explain", written.path(), "S1", "--as-of", "2026-10-01"}).out);
}

TEST(ScreenedBook, TellsTheFaultsOfItsFiles) {
  BookText text = judged_text();
  text.samples += "S2,P9,2026-09-21T08:00,2026-09-21T16:00\n";
  const CalledBook written(text);
  const ScreenedBook book(written.path(), as_of("2026-10-01"));
  EXPECT_TRUE(book.has_faults());
  ASSERT_FALSE(book.problems().empty());
  EXPECT_TRUE(has(book.problems().front(), "samples.csv:3:4: error")) << book.problems().front();
}

TEST(ScreenedBook, KnowsTheShippedPacksByItself) {
  BookText text;
  text.settings += "[rules]\npacks = [\"common-practice\"]\n";
  const CalledBook written(text);
  const ScreenedBook book(written.path(), as_of("2026-10-01"));
  EXPECT_FALSE(book.judge("S1").findings.empty());  // nominal flow and more are lacking
}

TEST(ScreenedBook, ThrowsWhatASampleIsNotAndABookCannotBe) {
  const CalledBook written(judged_text());
  const ScreenedBook book(written.path(), as_of("2026-10-01"));
  EXPECT_THROW(book.judge("S9"), std::out_of_range);
  EXPECT_THROW(book.explain("S9"), std::out_of_range);
  EXPECT_THROW(ScreenedBook(written.path() + "/nowhere"), UnusableBook);
  EXPECT_THROW(ScreenedBook(written.path(), as_of("10/11/2026")), UnusableBook);
  ScreeningOptions elsewhere = as_of("2026-10-01");
  elsewhere.packs_folder = written.path();
  BookText packed;
  packed.settings += "[rules]\npacks = [\"common-practice\"]\n";
  const CalledBook asks_for_a_pack(packed);
  EXPECT_THROW(ScreenedBook(asks_for_a_pack.path(), elsewhere), UnusableBook);
}

TEST(ScreenedBook, CanBeMoved) {
  const CalledBook written(judged_text());
  ScreenedBook book(written.path(), as_of("2026-10-01"));
  const ScreenedBook moved(std::move(book));
  EXPECT_EQ(moved.judge("S1").name, "S1");
}

TEST(ScreenedBook, HasTheCautionsToShow) {
  EXPECT_TRUE(has(std::string(cautions_text()), "never evidence that exposure was low"));
}

}  // namespace
}  // namespace driftwarden::screened_book_test
