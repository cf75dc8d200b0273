// SPDX-License-Identifier: MIT
#pragma once

#include <optional>
#include <set>
#include <string>
#include <vector>

#include "command/opened_book.hpp"

namespace driftwarden {

// What is printed of a book, and how much of the book counts.
struct Selection {
  std::vector<Row> samples;  // in the book's order
  Day last = no_day;         // what is said of pumps and batches rests on the samples that have come by this day
};

// The samples that --batch, --sample, --since and --until leave; nothing (told) where a name or a
// date can't be understood. Days are those of the sample's start in the book's zone, both ends included. Once days
// are asked for, blanks without times are left out; a sample whose start can't be understood stays: nobody can say that
// it lies outside.
std::optional<Selection> selected_samples(const OpenedBook& opened, const ScreenOptions& options,
                                          Surroundings& surroundings);

// The text numbers of batches by their names, the rows of samples by theirs; nothing (told) where one is unknown.
std::optional<std::set<TextId>> batches_named(const Book& book, const std::vector<std::string>& names,
                                              Surroundings& surroundings);
std::optional<std::set<Row>> rows_named(const Book& book, const std::vector<std::string>& names,
                                        Surroundings& surroundings);

// The row of a sample's name; nothing (told, with the nearest name) where there is none.
std::optional<Row> sample_named(const Book& book, const std::string& name, Surroundings& surroundings);

}  // namespace driftwarden
