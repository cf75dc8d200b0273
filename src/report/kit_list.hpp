// SPDX-License-Identifier: MIT
#pragma once

#include <string>

#include "history/kits_out.hpp"
#include "report/paint.hpp"

namespace driftwarden {

// What of the kits is being put together, out, overdue, missing, and which instruments are not fit to go, as a table of
// at most 80 columns.
std::string kit_list_table(const Book& book, const KitsOut& kits, Day as_of, Paint paint);

// The same, one line a thing, one more for each instrument that is not fit to go, and one where something is not known:
// kit, kind_of_kit, instrument, serial, item, state, out, to, due_back, days_overdue, back, why, row, cautions.
std::string kit_list_csv(const Book& book, const KitsOut& kits, Day as_of);

// "PUMP-01, PUMP-02, hose"
std::string things_of(const Book& book, const KitOut& kit);
// "overdue by 3 days"; "" where it is not
std::string overdue_text(Day days);
// "out since 2026-11-09 with north crew, due back on 2026-11-13: overdue by 3 days"
std::string standing_of(const KitOut& kit, Day as_of);

}  // namespace driftwarden
