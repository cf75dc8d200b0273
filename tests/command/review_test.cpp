// SPDX-License-Identifier: MIT
#include <gtest/gtest.h>

#include "command/called.hpp"

namespace driftwarden::review_test {
namespace {

TEST(Review, WritesThePageAndAnswersWithItsDays) {
  const CalledBook folder(judged_text());
  const std::string page = folder.file("review.html");
  const Called called = call({"review", folder.path(), "--as-of", "2026-09-24", "--out", page});
  EXPECT_EQ(called.status, 1);
  EXPECT_EQ(called.out.find("2026-09-17 to 2026-09-24: 1 action"), 0U) << called.out;
  EXPECT_TRUE(text_of_file(page).starts_with("<!DOCTYPE html>"));
  EXPECT_EQ(call({"review", folder.path(), "--as-of", "2026-09-24", "--days", "1", "--out", page}).status, 0);
}

// As `screen` answers: what a responsible person overruled is not open any more.
TEST(Review, AnswersNoughtWhereEverySampleOfTheseDaysStandsByDecision) {
  BookText text = judged_text();
  text.decisions = "decided,by,subject,rule,ruling,reason\n2026-09-22T09:00,keeper,S1,own/drift,overrule,Read again.\n";
  const CalledBook folder(text);
  const std::string page = folder.file("review.html");
  EXPECT_EQ(call({"review", folder.path(), "--as-of", "2026-09-24", "--out", page}).status, 0);
  EXPECT_EQ(call({"screen", folder.path(), "--as-of", "2026-09-24"}).status, 0);
}

// The days that a page asks for something before.
std::vector<std::string> deadlines(const std::string& page) {
  std::vector<std::string> days;
  const std::string before = " before 2026-";
  for (std::size_t at = page.find(before); at != std::string::npos; at = page.find(before, at + 1))
    days.push_back(page.substr(at + before.size() - 5, 10));
  return days;
}

// Monthly calibrations of V1, the last on 2026-07-06; by 2026-07-29 its error may be beyond its tolerance.
BookText with_growing_error() {
  BookText text = judged_text();
  text.certificates =
      "certificate,instrument,calibrated,due,tolerance [%],nominal [L/min],reference [L/min],as found [L/min]\n";
  const std::vector<std::string> found{"2.0060", "2.0079", "2.0101", "2.0119", "2.0141", "2.0159", "2.0180"};
  for (std::size_t month = 1; month <= found.size(); ++month) {
    const std::string day = "2026-0" + std::to_string(month) + "-06";
    text.certificates += "C" + day + ",V1," + day + ",2027-01-06,1,2,2," + found[month - 1] + "\n";
  }
  return text;
}

TEST(Review, AsksForNothingBeforeADayThatIsPast) {
  const CalledBook folder(with_growing_error());
  const std::string page = folder.file("review.html");
  const auto written = [&](const std::string& as_of) {
    call({"review", folder.path(), "--as-of", as_of, "--out", page});
    return text_of_file(page);
  };
  EXPECT_EQ(deadlines(written("2026-07-28")), std::vector<std::string>{"2026-07-29"});
  for (const std::string as_of : {"2026-07-29", "2026-11-16"}) {
    EXPECT_EQ(deadlines(written(as_of)), std::vector<std::string>{}) << as_of;
    EXPECT_NE(text_of_file(page).find("It may be beyond it already"), std::string::npos) << as_of;
  }
}

TEST(Review, NeverWritesOverTheBook) {
  const CalledBook folder(judged_text());
  const Called called = call({"review", folder.path(), "--out", folder.file("readings.csv")});
  EXPECT_EQ(called.status, 2);
  EXPECT_NE(called.err.find("[output/over-the-book]"), std::string::npos);
  EXPECT_EQ(text_of_file(folder.file("readings.csv")), BookText{}.readings);
}

TEST(Review, TellsWhereItCanNotWrite) {
  const CalledBook folder(judged_text());
  const Called called = call({"review", folder.path(), "--out", folder.file("no/review.html")});
  EXPECT_EQ(called.status, 2);
  EXPECT_NE(called.err.find("[output/unwritable]"), std::string::npos);
}

TEST(Review, AnswersTwoWhereRecordsCanNotBeUnderstood) {
  BookText text = judged_text("5 %");
  text.readings += "2026-09-21T16:12,post,S1,V1,1.9x\n";
  const CalledBook folder(text);
  const std::string page = folder.file("review.html");
  EXPECT_EQ(call({"review", folder.path(), "--as-of", "2026-09-24", "--out", page}).status, 2);
  EXPECT_NE(text_of_file(page).find("Mend the record"), std::string::npos);
}

TEST(Review, IsWrittenWhereATableCanNotBeRead) {
  const CalledBook folder(judged_text("5 %"));
  std::filesystem::create_directories(folder.file("certificates/week.csv"));
  const std::string page = folder.file("review.html");
  const Called called = call({"review", folder.path(), "--as-of", "2026-09-24", "--out", page});
  EXPECT_EQ(called.status, 2);
  EXPECT_NE(called.err.find("certificates/week.csv: error: can't be read: Is a directory"), std::string::npos);
  EXPECT_NE(text_of_file(page).find("could not be read"), std::string::npos);
  const Called again = call({"review", folder.path(), "--as-of", "2026-09-24", "--out", page});
  EXPECT_EQ(again.err, called.err) << "the page is no file that nobody read";
}

TEST(Review, NamesThePackageThatPrintsWhereItIsMissing) {
  const CalledBook folder(judged_text());
  const EnvironmentVariable no_programs("PATH", "/nonexistent");
  const Called called = call({"review", folder.path(), "--format", "pdf", "--out", folder.file("review.pdf")});
  EXPECT_EQ(called.status, 2);
  EXPECT_NE(called.err.find("install the package chromium"), std::string::npos) << called.err;
}

TEST(Review, IsTenLinesOrACalendarWhereThatIsWanted) {
  const CalledBook folder(judged_text());
  const std::string calendar = folder.file("review.ics");
  const std::vector<std::string> words{"review", folder.path(), "--as-of", "2026-09-24", "--format"};
  const auto called = [&](std::vector<std::string> more) {
    more.insert(more.begin(), words.begin(), words.end());
    return call(more);
  };
  const Called brief = called({"text"});
  EXPECT_EQ(brief.status, 1) << brief.err;
  EXPECT_TRUE(brief.out.starts_with("Review of Quarry, 2026-09-17 to 2026-09-24\n")) << brief.out;
  EXPECT_EQ(called({"text", "--out", calendar + ".txt"}).status, 1);
  EXPECT_EQ(text_of_file(calendar + ".txt"), brief.out);
  EXPECT_EQ(called({"ics"}).status, 2) << "a calendar is for a file";
  EXPECT_EQ(called({"ics", "--out", calendar}).status, 1);
  EXPECT_TRUE(text_of_file(calendar).starts_with("BEGIN:VCALENDAR\r\n"));
  EXPECT_EQ(called({"ics", "--out", folder.file("samples.csv")}).status, 2);
}

TEST(Review, WantsAFileAndASensibleNumberOfDays) {
  const CalledBook folder;
  EXPECT_EQ(call({"review", folder.path()}).status, 2);
  EXPECT_EQ(call({"review", folder.path(), "--out", "x", "--days", "0"}).status, 2);
  EXPECT_EQ(call({"review", folder.path(), "--out", "x", "--format", "png"}).status, 2);
}

}  // namespace
}  // namespace driftwarden::review_test
