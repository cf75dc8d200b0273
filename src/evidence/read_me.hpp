// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <vector>

#include "evidence/altered_packs.hpp"
#include "evidence/asked_records.hpp"
#include "evidence/package_note.hpp"
#include "verdict/totals.hpp"

namespace driftwarden {

// READ-ME-FIRST.txt of a package: for an auditor who has never heard of the program.
struct ReadMe {
  std::string title;  // of the book
  PackageNote note;
  Totals totals;
  std::size_t faults = 0;  // records of the book that could not be understood
  std::vector<AskedRecord> asked;
  std::vector<AlteredPack> altered;  // rule packs that are not what their name says
};

std::string read_me_text(const ReadMe& read_me);

}  // namespace driftwarden
