// SPDX-License-Identifier: MIT
#pragma once

#include <string>

#include "book/book.hpp"

namespace driftwarden {

// Whether the name of a planned sample has gone to a recorded one of another batch: nothing can be taken under it.
bool is_name_taken(const Book& book, const PlannedSample& planned);

// "stands in samples.csv:12 already, in the batch 'B2'"
std::string name_taken_text(const Book& book, const PlannedSample& planned);

}  // namespace driftwarden
