// SPDX-License-Identifier: MIT
#include <gtest/gtest.h>

#include "report/page_of.hpp"
#include "report/review_parts.hpp"

namespace driftwarden::review_instruments_test {
namespace {

BookText two_calibrators() {
  BookText text;
  text.certificates =
      "certificate,instrument,calibrated,due,nominal [L/min],reference [L/min],as left [L/min]\n"
      "C1,V1,2026-01-05,2027-01-05,2,2,2\nC2,V2,2026-01-05,2026-09-20,2,2,2\n";
  return text;
}

std::string instruments_of(const ReviewPage& page) { return part_of(page, append_instruments); }

TEST(ReviewInstrumentsOnThePage, ListWhatIsDueFirst) {
  const ReviewedBook book(two_calibrators());
  const std::string html = instruments_of(page_of(book));
  EXPECT_TRUE(holds(html,
                    "<tr class=\"overdue\"><th scope=\"row\"><bdi>V2</bdi></th><td>volumetric</td><td>overdue"
                    "</td><td>2026-09-20</td><td class=\"figure\">-4</td>"))
      << html;
  EXPECT_LT(html.find("<bdi>V2</bdi>"), html.find("<bdi>V1</bdi>"));
  EXPECT_TRUE(holds(html, "<td>in order</td><td>2027-01-05</td><td class=\"figure\">103</td>"));
}

TEST(ReviewInstrumentsOnThePage, StandWithTheirChartsAndWhatTheySay) {
  const ReviewedBook book(two_calibrators(), drift_within("5 %"));
  ReviewPage page = page_of(book);
  page.charts.push_back({0, "drift", "<svg class=\"of-p1\"></svg>"});
  const std::string html = instruments_of(page);
  EXPECT_TRUE(holds(
      html, "<article id=\"i0\" class=\"quiet\"><h4><bdi>P1</bdi></h4><p class=\"facts\">pump, 1 sample in these days"))
      << html;
  EXPECT_TRUE(holds(html,
                    "<svg class=\"of-p1\"></svg><figcaption><strong>Drift per use</strong><span class=\"said\">: 1 "
                    "point; the last -2.5 % on "
                    "2026-09-21; tolerance -5 to 5 %; "
                    "too few points for a trend."))
      << html;
}

TEST(ReviewInstrumentsOnThePage, SayWhyThereAreNoCharts) {
  const ReviewedBook book(two_calibrators());
  ReviewPage page = page_of(book);
  page.why_no_charts = "there is no program gnuplot; install the package gnuplot-nox.";
  EXPECT_TRUE(holds(instruments_of(page),
                    "There are no charts on this page: there is no program gnuplot; install the "
                    "package gnuplot-nox."));
}

// On paper only they are large.
TEST(ReviewInstrumentsOnThePage, AreToldApartByWhetherTheyAskForSomething) {
  const ReviewedBook book(two_calibrators(), drift_within("5 %"));
  Review review = book.review();
  review.actions = {{ActionKind::watch, ActionSubject::instrument, "P1", "Look at it.", {{"A reason.", ""}}, 0, true}};
  const ReviewPage page{
      book.screening(), review, book.histories(), day("2026-09-24"), "0.1.0", {}, {}, {}, {}, {}, {}, {}};
  EXPECT_TRUE(holds(instruments_of(page), "<article id=\"i0\" class=\"asked\">"));
  review.actions.front().of = ActionSubject::sample;
  EXPECT_TRUE(holds(instruments_of(page), "<article id=\"i0\" class=\"quiet\">"));
}

}  // namespace
}  // namespace driftwarden::review_instruments_test
