// SPDX-License-Identifier: MIT
#pragma once

#include "book/book.hpp"

namespace driftwarden {

// Names of instruments, certificates, samples and batches that a spreadsheet would take for a formula when it opens a
// CSV of results: name/formula, the first of each kind, with how many more there are.
Diagnostics formula_names(const Book& book);

}  // namespace driftwarden
