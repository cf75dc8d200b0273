// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <vector>

#include "evidence/package_note.hpp"
#include "verdict/records_used.hpp"

namespace driftwarden {

// Something an auditor asks to see of calibration and sampling records, where a package has it, and what of it the
// book does not say.
struct AskedRecord {
  std::string what;
  std::string asked_by;                // clauses; a '*' where the number is from memory
  std::string place;                   // in the package
  std::vector<std::string> missing;    // "issuer: for 3 of 14 certificates (C-1, C-2, C-9)"; none: nothing is
  std::vector<std::string> elsewhere;  // what no book has, so that an auditor has to ask for it
};

// All of them, in the order in which an audit goes: the instruments, their calibration, readings, samples, results.
std::vector<AskedRecord> asked_records(const Screening& screening, const RecordsUsed& used, const PackageNote& note);

}  // namespace driftwarden
