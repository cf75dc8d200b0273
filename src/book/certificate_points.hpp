// SPDX-License-Identifier: MIT
#pragma once

#include <optional>

#include "record/instrument.hpp"

namespace driftwarden {

// Some reports list the points as found and those as left apart, so that one point stands in two rows. Each row that
// says as found only is put into the row of the same nominal that says as left, with the reference it had. One that
// finds none stays out of use where the certificate has rows as left only: nobody read that point after the adjustment.
// The place of the first such row; nothing where there is none.
std::optional<RowPlace> join_found_and_left(Certificate& certificate);

}  // namespace driftwarden
