// SPDX-License-Identifier: MIT
#include "report/review_brief.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <sstream>

#include "report/page_of.hpp"
#include "verdict/cautions.hpp"

namespace driftwarden::review_brief_test {
namespace {

ReviewAction action_of(const std::string& name, bool is_recent = true, Day by = no_day) {
  return {
      ActionKind::adjust_soon, ActionSubject::instrument, name, "Adjust it.", {{"It moves.", ""}}, 0, is_recent, by};
}

TEST(ReviewBrief, SaysHowMuchThereIsToDoAndWhat) {
  const ReviewedBook book({}, {});
  Review review = book.review();
  review.actions = {action_of("P1"), action_of("P2", false)};
  const std::string text = review_brief(book.screening(), review);
  EXPECT_TRUE(holds(text, "1 thing to do: 1 without a date; 1 more is open from before. 1 sample: ")) << text;
  EXPECT_TRUE(holds(text, "1. Adjust soon: P1. Adjust it. (It moves.)\n")) << text;
  EXPECT_FALSE(holds(text, "P2"));
  EXPECT_TRUE(holds(text, std::string(cautions)));
}

TEST(ReviewBrief, HasTenLinesAtMost) {
  const ReviewedBook book({}, {});
  Review review = book.review();
  for (const std::size_t count : {7U, 8U, 100U}) {
    review.actions.assign(count, action_of("P1"));
    const std::string text = review_brief(book.screening(), review);
    EXPECT_EQ(times(text, "\n"), 10U) << text;
    EXPECT_EQ(holds(text, "And " + std::to_string(count - 6) + " more: the page"), count > 7);
  }
}

// RFC 5545, 3.1, 3.3.11 and 3.6.1.
TEST(ReviewCalendar, HoldsWhatFallsDue) {
  const ReviewedBook book({}, {});
  Review review = book.review();
  review.instruments.clear();
  review.actions = {action_of("P1; the \"old\", \\one\\", true, day("2026-12-03")), action_of("P2")};
  const std::string text = review_calendar(book.screening(), review, day("2026-11-16"));
  EXPECT_TRUE(text.starts_with("BEGIN:VCALENDAR\r\nVERSION:2.0\r\nPRODID:"));
  EXPECT_TRUE(text.ends_with("END:VEVENT\r\nEND:VCALENDAR\r\n"));
  EXPECT_EQ(times(text, "BEGIN:VEVENT"), 1U);
  EXPECT_TRUE(
      holds(text, "\r\nDTSTAMP:20261116T000000Z\r\nDTSTART;VALUE=DATE:20261203\r\nDTEND;VALUE=DATE:20261204\r\n"));
  EXPECT_TRUE(holds(text, "\r\nSUMMARY:Adjust soon: P1\\; the \"old\"\\, \\\\one\\\\\r\n")) << text;
  EXPECT_EQ(times(text, "\n"), times(text, "\r\n"));
}

TEST(ReviewCalendar, FoldsLongLinesBetweenCharacters) {
  const ReviewedBook book({}, {});
  Review review = book.review();
  review.instruments.clear();
  for (std::size_t shift = 0; shift < 4; ++shift) {
    std::string name(shift, 'x');
    for (int i = 0; i < 60; ++i) name += "ü";
    review.actions = {action_of(name, true, day("2026-12-03"))};
    std::string text = review_calendar(book.screening(), review, day("2026-11-16"));
    std::istringstream lines(text);
    for (std::string line; std::getline(lines, line);) {
      EXPECT_LE(line.size(), 76U) << line;  // with the CR
      EXPECT_NE(static_cast<unsigned char>(line[line.starts_with(' ') ? 1 : 0]) & 0xC0U, 0x80U) << line;
    }
    for (std::size_t at = text.find("\r\n "); at != std::string::npos; at = text.find("\r\n ")) text.erase(at, 3);
    EXPECT_TRUE(holds(text, "SUMMARY:Adjust soon: " + name + "\r\n")) << text;
  }
}

TEST(ReviewCalendar, KeepsAnEntrysUidWhenItsDayMoves) {
  const ReviewedBook book({}, {});
  Review review = book.review();
  review.instruments.clear();
  const auto uid = [&](const std::string& name, const char* by) {
    review.actions = {action_of(name, true, day(by))};
    const std::string text = review_calendar(book.screening(), review, day("2026-11-16"));
    return text.substr(text.find("UID:"), 36);
  };
  EXPECT_EQ(uid("P1", "2026-12-03"), uid("P1", "2027-01-05"));
  EXPECT_NE(uid("P1", "2026-12-03"), uid("P2", "2026-12-03"));
}

}  // namespace
}  // namespace driftwarden::review_brief_test
