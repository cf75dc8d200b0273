// SPDX-License-Identifier: MIT
#include "book/planned_name.hpp"

#include "diagnostic/suggestion.hpp"

namespace driftwarden {
namespace {

std::string_view batch_of(const Book& book, Row sample) {
  return book.texts.text(field(book.samples.batch, sample, TextId{0}));
}

}  // namespace

bool is_name_taken(const Book& book, const PlannedSample& planned) {
  return planned.recorded != no_row && batch_of(book, planned.recorded) != planned.batch;
}

std::string name_taken_text(const Book& book, const PlannedSample& planned) {
  const std::string_view batch = batch_of(book, planned.recorded);
  return "stands in " + book.place_text(book.files.samples, book.samples.place[planned.recorded]) + " already, " +
         (batch.empty() ? "without a batch" : "in the batch " + in_quotes(batch));
}

}  // namespace driftwarden
