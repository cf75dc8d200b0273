// SPDX-License-Identifier: MIT
#pragma once

#include <map>
#include <vector>

#include "book/book.hpp"
#include "history/review_action.hpp"

namespace driftwarden {

// What has to be done about a book's records: an action for each record that can't be understood, with the samples
// that are not judged for it, up to a number beyond which only their count is told; and one for all that look doubtful.
// `touched` holds the samples by the number of the problem they are not judged for.
std::vector<ReviewAction> actions_about_records(const Book& book,
                                                const std::map<ProblemNumber, std::vector<Row>>& touched);

}  // namespace driftwarden
