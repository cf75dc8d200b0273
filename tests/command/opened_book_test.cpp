// SPDX-License-Identifier: MIT
#include "command/opened_book.hpp"

#include <gtest/gtest.h>

#include "book/stamp_text.hpp"
#include "command/called.hpp"
#include "support/project_folder.hpp"

namespace driftwarden::book_as_of_test {
namespace {

struct Opened {
  explicit Opened(const BookText& text, const std::string& as_of = "") {
    const CalledBook book(text);
    BookOptions options;
    options.book = book.path();
    options.as_of = as_of;
    options.threads = 1;
    Surroundings surroundings{out, err, false, false, 20773 * Moment{86400}, project_folder(), "0.1.0"};
    opened = open_book(options, surroundings);
  }
  std::ostringstream out;
  std::ostringstream err;
  std::unique_ptr<OpenedBook> opened;
};

TEST(OpenedBook, HasBookRulesAndBothTogether) {
  const Opened sound(judged_text());
  ASSERT_NE(sound.opened, nullptr) << sound.err.str();
  EXPECT_EQ(sound.opened->rules.rules.size(), 1U);
  EXPECT_EQ(&sound.opened->screening->book(), &sound.opened->book);
  EXPECT_EQ(&sound.opened->screening->rules(), &sound.opened->rules);
  EXPECT_FALSE(sound.opened->has_faults());
  EXPECT_EQ(sound.out.str() + sound.err.str(), "");
}

TEST(OpenedBook, OpensWithFaultsAndTellsThem) {
  BookText text = judged_text();
  text.readings += "2026-09-21T16:11,post,S1,V1,1.9S\n";
  const Opened faulty(text);
  ASSERT_NE(faulty.opened, nullptr);
  EXPECT_TRUE(faulty.opened->has_faults());
  EXPECT_NE(faulty.err.str().find("readings.csv:4:29"), std::string::npos) << faulty.err.str();
}

TEST(OpenedBook, DoesNotTakeARemarkForAFault) {
  BookText text = judged_text();
  text.samples = "sample,pump,started,stopped,weather\nS1,P1,2026-09-21T08:00,2026-09-21T16:00,rain\n";
  const Opened remarked(text);
  ASSERT_NE(remarked.opened, nullptr);
  EXPECT_FALSE(remarked.opened->has_faults());
  EXPECT_NE(remarked.err.str(), "");
}

// A book whose calibrator is read for two pumps in turn, on so many days.
BookText read_in_turn(int days) {
  BookText text = judged_text();
  text.samples = "sample,pump,started,stopped\n";
  text.readings = "taken,stage,sample,calibrator,reading [L/min]\n";
  for (int day = 10; day < 10 + days; ++day) {
    const std::string date = "2026-09-" + std::to_string(day);
    for (const char* pump : {"P1", "P2"}) {
      text.samples += pump + date + "," + pump + "," + date + "T08:00," + date + "T16:00\n";
    }
    for (const char* reading : {"50,pre,P1", "51,pre,P2", "52,pre,P1"}) {
      text.readings += date + "T07:" + reading + date + ",V1,2\n";
    }
  }
  return text;
}

TEST(OpenedBook, TellsTwentyDoubtsOfAKindAndCountsTheRest) {
  const auto count = [](const std::string& text, const std::string& part) {
    int found = 0;
    for (std::size_t at = 0; (at = text.find(part, at)) != std::string::npos; ++at) ++found;
    return found;
  };
  for (const int days : {20, 21}) {
    Opened opened(read_in_turn(days));
    ASSERT_NE(opened.opened, nullptr) << opened.err.str();
    ASSERT_EQ(opened.err.str(), "");
    Surroundings surroundings{opened.out, opened.err, false, false, 20773 * Moment{86400}, project_folder(), "0.1.0"};
    tell_doubts(*opened.opened, surroundings);
    EXPECT_EQ(opened.opened->book.problems.size(), static_cast<std::size_t>(days));
    const std::string told = opened.err.str();
    EXPECT_EQ(count(told, "[doubt/two-places]"), days) << told;  // with the line that counts, where there is one
    EXPECT_EQ(count(told, "and 1 more of this kind; 'driftwarden check --all' tells all of them"), days == 21 ? 1 : 0);
  }
}

TEST(OpenedBook, OpensNothingWithoutSettingsOrRules) {
  BookText settings = judged_text();
  settings.settings = "title = \"no zone\"\n";
  EXPECT_EQ(Opened(settings).opened, nullptr);
  BookText rules = judged_text();
  rules.rules = "pack = 1\n";
  EXPECT_EQ(Opened(rules).opened, nullptr);
}

TEST(OpenedBook, TodayIsWhatIsSaidElseTheDayInTheBooksZone) {
  EXPECT_EQ(date_text(Opened(judged_text(), "2026-10-05").opened->as_of), "2026-10-05");
  EXPECT_EQ(date_text(Opened(judged_text()).opened->as_of), "2026-11-16");
  BookText denver = judged_text();
  denver.settings.replace(denver.settings.find("UTC"), 3, "America/Denver");
  EXPECT_EQ(date_text(Opened(denver).opened->as_of), "2026-11-15");  // midnight UTC is evening there
}

TEST(OpenedBook, RefusesADayThatIsNone) {
  const Opened refused(judged_text(), "2026-02-30");
  EXPECT_EQ(refused.opened, nullptr);
  EXPECT_NE(refused.err.str().find("command line: error: "), std::string::npos) << refused.err.str();
}

TEST(OpenedBook, UsesAsManyThreadsAsAreAskedForAndAtLeastOne) {
  BookOptions options;
  EXPECT_GE(threads_of(options), 1U);
  options.threads = 3;
  EXPECT_EQ(threads_of(options), 3U);
}

}  // namespace
}  // namespace driftwarden::book_as_of_test
