// SPDX-License-Identifier: MIT
#include <ostream>

#include "command/reviewed.hpp"
#include "driftwarden/outside/scratch_place.hpp"
#include "driftwarden/outside/whole_file.hpp"
#include "driftwarden/outside/write_fault.hpp"
#include "driftwarden/report/review_brief.hpp"
#include "driftwarden/report/terminal_text.hpp"
#include "driftwarden/workshop/pdf_print.hpp"

namespace driftwarden {
namespace {

Diagnostics write_page(const std::string& html, const ReviewOptions& options, Day as_of) {
  if (options.format != "pdf") return write_whole(options.out, html);
  const ScratchPlace place;
  if (place.path().empty()) return {place.fault()};
  const int reason = write_new(place.path() / "page.html", html);
  if (reason != 0) return {unwritable(place.path(), reason)};
  return print_to_pdf(place.path() / "page.html", options.out, place.path(), as_of);
}

// Paper only matters where the program prints.
ReviewChoices choices_of(const ReviewOptions& options) {
  ReviewChoices choices;
  choices.days = options.days;
  if (options.format == "pdf") choices.paper = options.paper == "letter" ? "letter" : "A4";
  return choices;
}

// The forms without charts. Without a place to write it to, the brief goes to the output.
int write_short_form(const OpenedBook& opened, const ReviewOptions& options, Surroundings& surroundings) {
  const std::optional<WorkedReview> worked = worked_review(opened, options.days, surroundings);
  if (!worked) return cannot_be_used;
  const std::string text = options.format == "ics" ? review_calendar(*opened.screening, worked->review, opened.as_of)
                                                   : safe_text(review_brief(*opened.screening, worked->review), false);
  if (options.out.empty()) {
    surroundings.out << text;
  } else {
    const Diagnostics failures = write_whole(options.out, text);
    if (!failures.empty()) return refuse(failures, surroundings);
    surroundings.out << summary_of(worked->review) << '\n' << options.out << '\n';
  }
  if (opened.has_faults()) return cannot_be_used;
  return worked->review.recent.open > 0 ? something_is_amiss : all_is_well;
}

}  // namespace

int run_review(const ReviewOptions& options, Surroundings& surroundings) {
  const std::unique_ptr<OpenedBook> opened = open_book(options.book, surroundings);
  if (opened == nullptr) return cannot_be_used;
  if (!options.out.empty() && tell_over_the_book(opened->book, options.out, surroundings)) return cannot_be_used;
  tell_doubts(*opened, surroundings);
  if (options.format == "text" || options.format == "ics") return write_short_form(*opened, options, surroundings);
  const std::optional<Reviewed> review = reviewed(*opened, choices_of(options), surroundings);
  if (!review) return cannot_be_used;
  tell(surroundings.err, review->why_no_charts);
  const Diagnostics failures = write_page(review->html, options, opened->as_of);
  tell(surroundings.err, failures);
  if (!failures.empty()) return cannot_be_used;
  surroundings.out << review->summary << '\n' << options.out << '\n';
  if (opened->has_faults()) return cannot_be_used;
  return review->is_amiss ? something_is_amiss : all_is_well;
}

}  // namespace driftwarden
