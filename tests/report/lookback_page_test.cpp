// SPDX-License-Identifier: MIT
#include "report/lookback_page.hpp"

#include <gtest/gtest.h>

#include "report/looked_back.hpp"

namespace driftwarden::lookback_page_test {
namespace {

constexpr Day as_of = 20773;  // 2026-11-16

std::string page(const LookedBack& looked) {
  return lookback_page(looked.judged.screening(), looked.lookback, {as_of, "9.9", "A4"});
}

TEST(LookbackPage, SaysWhatHappenedInWords) {
  const std::string text = page(LookedBack());
  EXPECT_NE(text.find("On 2026-03-11 the calibrator was found to show up to 10.0 % too much, more than its tolerance"),
            std::string::npos);
  EXPECT_NE(text.find("As of 2026-11-16, driftwarden 9.9."), std::string::npos);
  EXPECT_NE(text.find("4 samples leaned on it"), std::string::npos);
  EXPECT_NE(text.find("the drift stands, the volume does not"), std::string::npos);
}

TEST(LookbackPage, HasARowASampleWithBothSuppositionsAndTheReasonsBelow) {
  const std::string text = page(LookedBack());
  EXPECT_EQ(
      times(
          text,
          "The flow rose 10.0 %, from 2.000 L/min before sampling to 2.200 L/min after; the limit is 5 % (own/drift)"),
      1U);
  EXPECT_EQ(times(text, "<td class=\"changes\""), 2U) << "of S3, suddenly and linearly";
  for (const char* name : {"S1", "S2", "S3", "S4"})
    EXPECT_EQ(times(text, "<th scope=\"row\"><bdi>" + std::string(name) + "</bdi>"), 1U) << name;
  EXPECT_NE(text.find("<p><b>sudden</b>: <bdi>The flow rose 10.0 %, from 2.000 L/min before sampling to 2.200 L/min "
                      "after; the limit is 5 % (own/drift)"
                      "</bdi></p><p><b>linear</b>: <bdi>The flow rose 6.0 %"),
            std::string::npos)
      << text;
}

TEST(LookbackPage, GroupsTheSamplesByWhatChanges) {
  const std::string text = page(LookedBack());
  const std::size_t verdict = text.find("<h2>The verdict changes: 1 sample</h2>");
  const std::size_t figures = text.find("<h2>The verdict stays, figures or findings change: 2 samples</h2>");
  const std::size_t nothing = text.find("<h2>Nothing changes: 1 sample</h2>");
  ASSERT_NE(nothing, std::string::npos) << text;
  EXPECT_LT(verdict, figures);
  EXPECT_LT(figures, nothing);
  EXPECT_LT(text.find("<bdi>S3</bdi>"), figures);
  EXPECT_GT(text.find("<bdi>S4</bdi>"), nothing);
  EXPECT_EQ(text.find("Undecided before"), std::string::npos);
}

// What was open before is no change, and no figure of it moves.
TEST(LookbackPage, SetsApartWhatWasUndecidedBefore) {
  const std::string text = page(LookedBack(incomplete_text()));
  const std::size_t open = text.find("<h2>Undecided before, for want of something else: 1 sample</h2>");
  ASSERT_NE(open, std::string::npos) << text;
  EXPECT_EQ(text.find("The verdict changes"), std::string::npos);
  EXPECT_NE(text.find("<b>before</b>: <bdi>The change of flow from before to after can&#39;t be worked out", open),
            std::string::npos)
      << text;
  EXPECT_NE(text.find("no drift was known, and none is now.<br><bdi>S3</bdi></li>", open), std::string::npos);
  EXPECT_NE(text.find("of 0 if it grew linearly; 1 was undecided before."), std::string::npos);
}

TEST(LookbackPage, LiesOnThePaperThatIsNamed) {
  EXPECT_NE(page(LookedBack()).find("@page{size:A4 landscape}"), std::string::npos);
}

TEST(LookbackPage, EscapesEveryTextOfTheBook) {
  const std::string text = page(LookedBack(hostile_text()));
  EXPECT_EQ(text.find("<i onload"), std::string::npos);
  EXPECT_EQ(text.find("<b>Quarry"), std::string::npos);
  EXPECT_EQ(text.find("\u202E"), std::string::npos);
  EXPECT_NE(text.find("<bdi>&lt;i onload=x&gt;S1[U+202E]</bdi>"), std::string::npos);
}

TEST(LookbackPage, NeedsNothingElse) {
  std::string text = page(LookedBack());
  text.erase(text.find("<link rel=\"icon\" href=\"data:,\">"), 31);  // asks for nothing
  for (const char* lead : {"http:", "https:", "src=", "href=", "<script", "@import", "url("}) {
    EXPECT_EQ(text.find(lead), std::string::npos) << lead;
  }
}

TEST(LookbackPage, ClosesWhatItOpens) {
  for (const BookText& book : {lookback_text(), open_window_text(), hostile_text()}) {
    const std::string text = page(LookedBack(book));
    for (const std::string tag : {"table", "thead", "tbody", "tr", "td", "th", "ul", "li", "dl", "dt", "dd", "p", "h2",
                                  "bdi", "body", "html"}) {
      EXPECT_EQ(times(text, "<" + tag + ">") + times(text, "<" + tag + " "), times(text, "</" + tag + ">")) << tag;
    }
  }
}

TEST(LookbackPage, BearsTheCautions) {
  EXPECT_NE(page(LookedBack()).find("a void sample is never evidence that exposure was low"), std::string::npos);
}

TEST(LookbackPage, OfAnOpenWindowHasNoLinearColumn) {
  EXPECT_EQ(page(LookedBack(open_window_text())).find("linear</th>"), std::string::npos);
}

TEST(LookbackPage, OfNothingSaysSo) {
  const LookedBack looked;
  EXPECT_NE(lookback_page_of_nothing(looked.judged.book(), 8, "").find("nothing to look back"), std::string::npos);
}

}  // namespace
}  // namespace driftwarden::lookback_page_test
