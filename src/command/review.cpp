// SPDX-License-Identifier: MIT
#include <ostream>

#include "command/reviewed.hpp"
#include "driftwarden/outside/scratch_place.hpp"
#include "driftwarden/outside/whole_file.hpp"
#include "driftwarden/outside/write_fault.hpp"
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

}  // namespace

int run_review(const ReviewOptions& options, Surroundings& surroundings) {
  const std::unique_ptr<OpenedBook> opened = open_book(options.book, surroundings);
  if (opened == nullptr) return cannot_be_used;
  if (tell_over_the_book(opened->book, options.out, surroundings)) return cannot_be_used;
  tell_doubts(*opened, surroundings);
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
