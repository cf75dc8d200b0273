// SPDX-License-Identifier: MIT
#pragma once

#include <string>

#include "verdict/records_used.hpp"

namespace driftwarden {

// An index of the rows of a book that some results lean on: file, line, what the row is, and a name; readings under the
// name of their sample or pump.
std::string rows_used_csv(const Book& book, const RecordsUsed& used);

}  // namespace driftwarden
