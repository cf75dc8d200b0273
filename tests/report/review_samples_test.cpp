// SPDX-License-Identifier: MIT
#include <gtest/gtest.h>

#include "report/page_of.hpp"
#include "report/review_parts.hpp"

namespace driftwarden::review_samples_test {
namespace {

std::string samples_of(const BookText& text, const RulesText& rules = {}, const std::string& as_of = "2026-09-24") {
  const ReviewedBook book(text, rules, as_of);
  return part_of(page_of(book, as_of), append_samples);
}

TEST(ReviewSamplesOnThePage, HaveALineWithTheFiguresOfTheTable) {
  const std::string html = samples_of({}, drift_within("2 %"));
  EXPECT_TRUE(holds(html,
                    "<tbody id=\"s0\"><tr><th scope=\"row\"><bdi>S1</bdi></th><td><span class=\"verdict "
                    "void\">void</span></td><td><bdi></bdi></td><td><bdi>P1</bdi></td><td>2026-09-21</td>"
                    "<td>480</td><td>2.000</td><td>1.950</td><td>-2.5</td><td>948.0</td>"))
      << html;
}

TEST(ReviewSamplesOnThePage, OpenToTheirFindingsAndTheirWorking) {
  const std::string html = samples_of({}, drift_within("2 %"));
  EXPECT_TRUE(holds(html,
                    "<li><span class=\"outcome\">void</span> <bdi>The flow fell 2.5 %, from 2.000 L/min before "
                    "sampling to 1.950 L/min after; the limit "
                    "is 2 %</bdi> <span "
                    "class=\"rule\"><bdi>own/drift</bdi></span></li>"))
      << html;
  EXPECT_TRUE(holds(html, "<summary>Working of <bdi>S1</bdi></summary><pre>Sample S1: void"));
  EXPECT_TRUE(holds(html, "(1.95000 - 2.00000) / 2.00000 = -2.500 %"));
}

TEST(ReviewSamplesOnThePage, ShowWhatWasRuledOnAFinding) {
  BookText text;
  text.decisions = "decided,by,subject,rule,ruling,reason\n2026-09-22T09:00,keeper,S1,own/drift,overrule,Read again.\n";
  EXPECT_TRUE(holds(samples_of(text, drift_within("2 %")), " Overruled by <bdi>keeper</bdi>: <bdi>Read again.</bdi>"));
}

TEST(ReviewSamplesOnThePage, LeaveTheWorkingOfEarlierValidOnesToExplainAndSaySo) {
  const std::string html = samples_of({}, drift_within("5 %"), "2026-10-24");
  EXPECT_FALSE(holds(html, "<pre>"));
  EXPECT_TRUE(holds(html, "The workings of valid samples of earlier days are not on this page."));
  EXPECT_TRUE(holds(html, "<details class=\"earlier\" id=\"earlier\"><summary>Earlier, 1 sample or blank: 0 void"));
}

TEST(ReviewSamplesOnThePage, KeepTheWorkingOfEarlierOnesThatAreAmiss) {
  EXPECT_EQ(times(samples_of({}, drift_within("2 %"), "2026-10-24"), "<pre>"), 1U);
}

TEST(ReviewSamplesOnThePage, LeaveOutAWholeKindOfWorkingsWhereThereAreTooMany) {
  BookText text;
  text.samples = "sample,pump,started,stopped\n";
  text.readings = "taken,stage,sample,calibrator,reading [L/min]\n";
  for (int i = 0; i < 601; ++i) text.samples += "S" + std::to_string(i) + ",P1,2026-09-21T08:00,2026-09-21T16:00\n";
  const std::string html = samples_of(text, drift_within("2 %"));  // all undecided
  EXPECT_EQ(times(html, "<tbody id="), 601U);
  EXPECT_EQ(times(html, "<pre>"), 0U);
  EXPECT_TRUE(holds(html, "There are too many samples for all workings to stand here. driftwarden explain"));
}

TEST(ReviewSamplesOnThePage, CountThoseOfLaterDays) {
  EXPECT_TRUE(holds(samples_of({}, {}, "2026-09-20"), "1 sample of later days are left out."));
}

}  // namespace
}  // namespace driftwarden::review_samples_test
