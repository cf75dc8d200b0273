// SPDX-License-Identifier: MIT
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "command/opened_book.hpp"
#include "history/review.hpp"

namespace driftwarden {

// How the charts of a review come about: drawn; left out of a page that had them (no_drawing in their place); left out
// as where there is no program to draw them; or not asked for.
enum class ReviewCharts { drawn, left_out, none, unasked };

// What is asked of a review.
struct ReviewChoices {
  int days = days_of_a_review;
  std::string paper;  // "A4", "letter"; "" leaves it to the printer
  ReviewCharts charts = ReviewCharts::drawn;
};

// A review as it is worked out, before it is written in whichever form.
struct WorkedReview {
  std::vector<InstrumentHistory> histories;  // of all instruments; the review points into them
  Review review;
};
// Nothing (told) where the book's [history] can't be used.
std::optional<WorkedReview> worked_review(const OpenedBook& opened, int days, Surroundings& surroundings);
// A line for the terminal.
std::string summary_of(const Review& review);

// A review as one HTML page, and what came of it.
struct Reviewed {
  std::string html;
  std::string summary;        // a line for the terminal
  bool is_amiss = false;      // a sample of these days is void or undecided
  Diagnostics why_no_charts;  // plot/no-gnuplot
};

// Reviews an opened book. The text is the same for the same book, rules, day and choices. Without gnuplot there are no
// charts, and the page says so. Nothing (told) where the book's [history] or a theme can't be used, an input is no more
// as it was read, or charts fail for any other reason.
std::optional<Reviewed> reviewed(const OpenedBook& opened, const ReviewChoices& choices, Surroundings& surroundings);

}  // namespace driftwarden
