// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "book/table_files.hpp"

namespace driftwarden {

// What readings call their samples.
struct SampleNames {
  const SampleTable* table;
  std::string_view operator()(Row row) const { return table->name[row]; }
  [[gnu::always_inline]] void expect(Row row) const { __builtin_prefetch(&table->name[row]); }
};
using SampleIndex = NameIndex<SampleNames>;

// A name that stands twice is told as sample/twice, and is the problem of both rows.
SampleIndex index_of_samples(const BookInHand& hand);

// Names that are no sample's, and the problem by which each was told.
using UnknownSamples = std::vector<std::pair<std::string, ProblemNumber>>;

// Says in the hints of those problems which sample may have been meant. Only where few names are unknown, and among the
// first samples of the book: a search through a decade of them would take longer than all else.
void hint_at_samples(const UnknownSamples& unknown, const SampleTable& samples, ProblemList& problems);

}  // namespace driftwarden
