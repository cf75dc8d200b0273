// SPDX-License-Identifier: MIT
#pragma once

#include <cstdint>
#include <iosfwd>
#include <span>
#include <string>
#include <string_view>

#include "diagnostic/result.hpp"

namespace driftwarden {

// A result of `screen --format csv` of one part, with the name to show. 64 bytes behind the text must be readable.
struct PartResult {
  std::string name;
  std::string_view text;
};

// Writes the parts' results as that of the whole book: one heading line, then a row from the part that `order` names
// for each sample (counted from 1, one a line). The number of rows. Faults: join/order where the order is none of these
// parts; join/headings where the parts have different headings; join/rows where a part has fewer or more rows.
Result<std::size_t> join_results(std::string_view order, const std::string& order_name,
                                 std::span<const PartResult> parts, std::ostream& out);

}  // namespace driftwarden
