// SPDX-License-Identifier: MIT
#pragma once

#include <filesystem>
#include <string>
#include <vector>

#include "book/book.hpp"

namespace driftwarden {

// A file that goes into a package as it is.
struct PackedInput {
  std::string name;  // in the package
  std::filesystem::path file;
  std::string of_book;  // its name in the book's folder; "" where it lies elsewhere
};

// Everything that a book's verdicts are made from: its own files, its own rule packs, and the shipped packs it names.
// Faults: evidence/pack-outside, evidence/name.
Result<std::vector<PackedInput>> inputs_of(const Book& book, const std::filesystem::path& shipped_rules);

// What goes into the package: of a file that was read with the book the bytes that were read, whatever was added since.
// Faults: file/unreadable, file/changed.
Result<HeldFile> packed_bytes(const Book& book, const PackedInput& input);

// Rule packs of the book's own that don't lie in its folder: they can't be packed with it, and out of a package they
// would be read from the reader's own disk. Fault: evidence/pack-outside.
Diagnostics packs_outside(const Settings& settings);

}  // namespace driftwarden
