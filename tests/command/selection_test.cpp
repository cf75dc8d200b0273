// SPDX-License-Identifier: MIT
#include "command/selection.hpp"

#include <gtest/gtest.h>

#include "command/called.hpp"
#include "support/project_folder.hpp"

namespace driftwarden::selection_test {
namespace {

// Six samples in two batches; B1 is a blank, X has a start that can't be understood, D starts at 23:30 of the 22nd in
// Denver, which is the 23rd in UTC.
BookText several() {
  BookText text = judged_text();
  text.settings.replace(text.settings.find("UTC"), 3, "America/Denver");
  text.samples =
      "sample,batch,kind,pump,started,stopped\n"
      "A,B-7,sample,P1,2026-09-21T08:00,2026-09-21T16:00\n"
      "B1,B-7,blank,,,\n"
      "B,B-8,sample,P1,2026-09-22T08:00,2026-09-22T16:00\n"
      "X,B-8,sample,P2,25 o'clock,2026-09-22T16:00\n"
      "D,,sample,P1,2026-09-22T23:30,2026-09-23T05:00\n"
      "C,B-8,sample,P1,2026-09-23T08:00,2026-09-23T16:00\n";
  text.readings = "taken,stage,sample,calibrator,reading [L/min]\n";
  return text;
}

struct Selected {
  std::string names;  // "A B"; "nothing" where the command is refused
  std::string err;
  Day last;
};

Selected selected(const ScreenOptions& options) {
  const CalledBook book(several());
  std::ostringstream out;
  std::ostringstream err;
  Surroundings surroundings{out, err, false, false, 0, project_folder(), "0.1.0"};
  BookOptions where;
  where.book = book.path();
  where.as_of = "2026-11-16";
  const std::unique_ptr<OpenedBook> opened = open_book(where, surroundings);
  err.str("");
  const std::optional<Selection> chosen = selected_samples(*opened, options, surroundings);
  if (!chosen) return {"nothing", err.str(), no_day};
  std::string names;
  for (const Row row : chosen->samples)
    names += (names.empty() ? "" : " ") + std::string(opened->book.samples.name[row]);
  return {names, err.str(), chosen->last};
}

ScreenOptions asking(std::vector<std::string> batches, std::vector<std::string> samples, std::string since = "",
                     std::string until = "") {
  ScreenOptions options;
  options.batches = std::move(batches);
  options.samples = std::move(samples);
  options.since = std::move(since);
  options.until = std::move(until);
  return options;
}

TEST(Selection, IsEverySampleInTheBooksOrderUnlessSomethingIsAskedFor) {
  EXPECT_EQ(selected(asking({}, {})).names, "A B1 B X D C");
}

TEST(Selection, IsOfAnyOfTheBatchesAskedFor) {
  EXPECT_EQ(selected(asking({"B-7"}, {})).names, "A B1");
  EXPECT_EQ(selected(asking({"B-8", "B-7"}, {})).names, "A B1 B X C");
}

TEST(Selection, IsOfTheSamplesAskedForInTheBooksOrder) { EXPECT_EQ(selected(asking({}, {"C", "A"})).names, "A C"); }

TEST(Selection, IsWhatBatchesAndSamplesHaveInCommon) { EXPECT_EQ(selected(asking({"B-7"}, {"C", "A"})).names, "A"); }

TEST(Selection, HasBothEndsOfThePeriodByTheBooksDaysAndKeepsAStartThatIsNotUnderstood) {
  EXPECT_EQ(selected(asking({}, {}, "2026-09-22", "")).names, "B X D C");
  EXPECT_EQ(selected(asking({}, {}, "", "2026-09-22")).names, "A B X D");
  EXPECT_EQ(selected(asking({}, {}, "2026-09-22", "2026-09-22")).names, "B X D");
  EXPECT_EQ(selected(asking({}, {}, "2026-09-24", "")).names, "X");
}

// 20773 is 2026-11-16, the day that stands for today; 20718 is 2026-09-22.
TEST(Selection, LetsTheWholeBookCountUpToTheEarlierOfTodayAndUntil) {
  EXPECT_EQ(selected(asking({"B-7"}, {"A"}, "2026-09-22")).last, 20773);
  EXPECT_EQ(selected(asking({}, {}, "", "2026-09-22")).last, 20718);
  EXPECT_EQ(selected(asking({}, {}, "", "2027-01-01")).last, 20773);
}

TEST(Selection, RefusesAPeriodThatEndsBeforeItBegins) {
  const Selected refused = selected(asking({}, {}, "2026-09-23", "2026-09-22"));
  EXPECT_EQ(refused.names, "nothing");
  EXPECT_EQ(refused.err,
            "command line: error: --since 2026-09-23 is later than --until 2026-09-22; exchange the two days "
            "[command/refused]\n");
}

TEST(Selection, SaysHowADayWithSlashesIsWritten) {
  EXPECT_NE(selected(asking({}, {}, "23/11/2026")).err.find("is the month; write 2026-11-23 ["), std::string::npos);
  EXPECT_NE(selected(asking({}, {}, "11/23/2026")).err.find("; write 2026-11-23 ["), std::string::npos);
  EXPECT_NE(selected(asking({}, {}, "3/4/2026")).err.find("; write 2026-04-03 or 2026-03-04 ["), std::string::npos);
  EXPECT_NE(selected(asking({}, {}, "31/31/2026")).err.find("; write year-month-day, as 2026-09-21 ["),
            std::string::npos);
}

TEST(Selection, RefusesUnknownNamesAllAtOnceWithTheNearest) {
  const Selected refused = selected(asking({"B-9", "7"}, {"Z"}));
  EXPECT_EQ(refused.names, "nothing");
  for (const char* part : {"the book has no batch 'B-9'", "the book has no batch '7'", "the book has no sample 'Z'"}) {
    EXPECT_NE(refused.err.find(part), std::string::npos) << refused.err;
  }
}

TEST(Selection, NamesNoEmptyBatchAmongThoseKnown) {
  const std::string err = selected(asking({"summer"}, {})).err;
  EXPECT_NE(err.find("known are B-7, B-8"), std::string::npos) << err;
}

TEST(Selection, RefusesDaysThatAreNone) {
  const Selected refused = selected(asking({}, {}, "yesterday", "2026-13-01"));
  EXPECT_EQ(refused.names, "nothing");
  EXPECT_NE(refused.err.find("'yesterday'"), std::string::npos) << refused.err;
  EXPECT_NE(refused.err.find("'2026-13-01'"), std::string::npos) << refused.err;
}

}  // namespace
}  // namespace driftwarden::selection_test
