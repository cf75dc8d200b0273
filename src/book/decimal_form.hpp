// SPDX-License-Identifier: MIT
#pragma once

#include <optional>
#include <vector>

#include "book/table_files.hpp"
#include "record/decimal_column.hpp"

namespace driftwarden {

// How the numbers of a field are written, judged by the first rows of the first file that has it. Empty where its files
// have different units, or its numbers are no decimals near one another.
std::optional<DecimalForm> decimal_form_of(const std::vector<TableFile>& files, int field);

}  // namespace driftwarden
