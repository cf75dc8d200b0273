// SPDX-License-Identifier: MIT
#include <ostream>

#include "command/output.hpp"
#include "command/reviewed.hpp"
#include "outside/whole_file.hpp"
#include "report/review_brief.hpp"
#include "report/review_json.hpp"
#include "report/terminal_text.hpp"

namespace driftwarden {
namespace {

ReviewChoices choices_of(const ReviewOptions& options) {
  ReviewChoices choices;
  choices.days = options.days;
  choices.paper = paper_of(options.format, options.paper);
  return choices;
}

// The forms without charts. Without a place to write it to, the brief goes to the output.
int write_short_form(const OpenedBook& opened, const ReviewOptions& options, Surroundings& surroundings) {
  const std::optional<WorkedReview> worked = worked_review(opened, options.days, surroundings);
  if (!worked) return cannot_be_used;
  const Screening& screening = *opened.screening;
  const std::string text = options.format == "json"
                               ? review_json(screening, worked->review, opened.as_of, surroundings.version)
                           : options.format == "ics" ? review_calendar(screening, worked->review, opened.as_of)
                                                     : safe_text(review_brief(screening, worked->review), false);
  if (options.out.empty()) {
    exactly(surroundings.out) << text;
  } else {
    const Diagnostics failures = write_whole(options.out, text);
    if (!failures.empty()) return refuse(failures, surroundings);
    surroundings.out << summary_of(worked->review) << '\n' << options.out << '\n';
  }
  if (opened.has_faults()) return cannot_be_used;
  return worked->review.recent.open > 0 ? something_is_amiss : all_is_well;
}

}  // namespace

int run_review(const ReviewOptions& said, Surroundings& surroundings) {
  const std::unique_ptr<OpenedBook> opened = open_book(said.book, surroundings);
  if (opened == nullptr) return cannot_be_used;
  if (!said.out.empty() && tell_over_the_book(opened->book, said.out, surroundings)) return cannot_be_used;
  const std::optional<std::string> format =
      format_meant(said.format, said.out, {"html", "pdf", "json", "ics", "text"}, surroundings);
  if (!format) return cannot_be_used;
  ReviewOptions options = said;
  options.format = *format;
  tell_doubts(*opened, surroundings);
  if (options.format != "html" && options.format != "pdf") return write_short_form(*opened, options, surroundings);
  const std::optional<Reviewed> review = reviewed(*opened, choices_of(options), surroundings);
  if (!review) return cannot_be_used;
  tell(surroundings.err, review->why_no_charts);
  const Diagnostics failures = write_page(review->html, options.format, options.out, opened->as_of);
  tell(surroundings.err, failures);
  if (!failures.empty()) return cannot_be_used;
  surroundings.out << review->summary << '\n' << options.out << '\n';
  if (opened->has_faults()) return cannot_be_used;
  return review->is_amiss ? something_is_amiss : all_is_well;
}

}  // namespace driftwarden
