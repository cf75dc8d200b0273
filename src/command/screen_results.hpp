// SPDX-License-Identifier: MIT
#pragma once

#include <iosfwd>
#include <string>
#include <vector>

#include "command/selection.hpp"
#include "verdict/totals.hpp"

namespace driftwarden {

struct ScreenForm {
  std::string format = "table";  // table, csv, json or sarif
  bool has_colour = false;
  unsigned threads = 1;
};

// Judges samples and writes what `screen` prints of them, and of their pumps and batches.
Totals write_screen(const OpenedBook& opened, const Selection& selected, const ScreenForm& form,
                    const std::string& version, std::ostream& out, const Advance& advance = {});

}  // namespace driftwarden
