// SPDX-License-Identifier: MIT
#pragma once

#include <optional>
#include <vector>

#include "command/opened_book.hpp"

namespace driftwarden {

// The samples that --batch, --sample, --since and --until leave, in the book's order; nothing (told) where a name or a
// date can't be understood. Days are those of the sample's start in the book's zone, both ends included. Once days
// are asked for, blanks without times are left out; a sample whose start can't be understood stays: nobody can say that
// it lies outside.
std::optional<std::vector<Row>> selected_samples(const OpenedBook& opened, const ScreenOptions& options,
                                                 Surroundings& surroundings);

// The row of a sample's name; nothing (told, with the nearest name) where there is none.
std::optional<Row> sample_named(const Book& book, const std::string& name, Surroundings& surroundings);

}  // namespace driftwarden
