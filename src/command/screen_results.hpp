// SPDX-License-Identifier: MIT
#pragma once

#include <iosfwd>
#include <string>
#include <vector>

#include "command/opened_book.hpp"

namespace driftwarden {

struct ScreenForm {
  std::string format = "table";  // table, csv, json or sarif
  bool has_colour = false;
  unsigned threads = 1;
};

// Judges samples and writes what `screen` prints of them.
Totals write_screen(const OpenedBook& opened, const std::vector<Row>& samples, const ScreenForm& form,
                    const std::string& version, std::ostream& out, const Advance& advance = {});

}  // namespace driftwarden
