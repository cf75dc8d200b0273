// SPDX-License-Identifier: MIT
#pragma once

#include <cstdint>
#include <filesystem>
#include <vector>

#include "book/book.hpp"
#include "diagnostic/result.hpp"

namespace driftwarden {

// Which part of a split book each record goes to, by its row: all that is about one pump stays together, so that every
// sample finds the readings it leans on in its own part; and so does all of a batch with results, for its blanks.
struct BookShares {
  std::uint32_t parts = 1;
  std::vector<std::uint32_t> samples;
  std::vector<std::uint32_t> readings;
  std::vector<std::uint32_t> decisions;
  std::vector<std::uint32_t> results;
};

// Deals the pumps out in turn. The book must be without faults: of a faulty row nobody can say where it belongs.
BookShares shares_of(const Book& book, std::uint32_t parts);

// The folder of a part counted from 0: "part-1" of the first.
std::string part_name(std::uint32_t part);

// Writes each part as a book, part-1 to part-n in a folder that is there: rows byte for byte and in their order, other
// files whole. Faults: output/unwritable; parts/pack-outside where a rule pack lies outside of the book's folder.
Result<std::uint32_t> write_parts(const Book& book, const BookShares& shares, const std::filesystem::path& folder);

}  // namespace driftwarden
