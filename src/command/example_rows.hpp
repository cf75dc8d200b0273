// SPDX-License-Identifier: MIT
#pragma once

#include <string>

#include "book/table_layout.hpp"

namespace driftwarden {

// The rows that a new book has of a table, as CSV below its heading line: together one sample that was measured, worked
// through. Each names something that begins with EXAMPLE, and says that it is to be deleted where it can have a note.
std::string example_rows(const TableSpec& spec);

}  // namespace driftwarden
