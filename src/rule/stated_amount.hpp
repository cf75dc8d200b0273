// SPDX-License-Identifier: MIT
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "diagnostic/result.hpp"
#include "quantity/units.hpp"

namespace driftwarden {

// What an amount in a pack has to be an amount of.
struct AmountOf {
  std::string_view name;  // as in "drift", for messages
  Dimension dimension = Dimension::count;
  std::optional<Dimension> absolute;  // of the difference behind a ratio, which may be written instead
};

struct StatedAmount {
  Amount amount;
  bool is_absolute = false;
};

// Reads "5 %", "0.1 L/min" or, of a count, "3". Everything else carries its unit: a missing one is an error, no guess.
Result<StatedAmount> stated_amount(std::string_view text, const AmountOf& of, const Place& place);

}  // namespace driftwarden
