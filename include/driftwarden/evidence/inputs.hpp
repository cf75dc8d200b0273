// SPDX-License-Identifier: MIT
#pragma once

#include <filesystem>
#include <string>
#include <vector>

#include "driftwarden/book/book.hpp"

namespace driftwarden {

// A file that goes into a package as it is.
struct PackedInput {
  std::string name;  // in the package
  std::filesystem::path file;
};

// Everything that a book's verdicts are made from: its own files, its own rule packs, and the shipped packs it names.
// Faults: evidence/pack-outside, evidence/name.
Result<std::vector<PackedInput>> inputs_of(const Book& book, const std::filesystem::path& shipped_rules);

// Rule packs of the book's own that don't lie in its folder: they can't be packed with it, and out of a package they
// would be read from the reader's own disk. Fault: evidence/pack-outside.
Diagnostics packs_outside(const Settings& settings);

}  // namespace driftwarden
