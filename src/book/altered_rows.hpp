// SPDX-License-Identifier: MIT
#pragma once

#include "book/book.hpp"

namespace driftwarden {

// receive/altered: a remark on each file that rows were received into and that holds others by now, or of whose rows
// not all are read. That readings were struck out there, with void and a note, is as it should be.
Diagnostics altered_rows(const Book& book);

}  // namespace driftwarden
