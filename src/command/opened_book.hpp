// SPDX-License-Identifier: MIT
#pragma once

#include <memory>
#include <optional>

#include "command/options.hpp"
#include "verdict/book_as_of.hpp"

namespace driftwarden {

unsigned threads_of(const BookOptions& options);

// Tells diagnostics, one a line.
void tell(std::ostream& err, const Diagnostics& diagnostics);

// The first of each kind, and how many more there are: thousands would bury the results.
void tell_first(std::ostream& err, const Diagnostics& diagnostics);
// All of them, as whoever checks a book wants; only a terminal is spared the thousands.
void tell_all(const Diagnostics& diagnostics, Surroundings& surroundings);

// Tells why a command does nothing; its exit status.
int refuse(const Diagnostics& why, Surroundings& surroundings);

// Reads a book and shows on a terminal how far it has come.
Result<Book> read_watched(const BookOptions& options, Surroundings& surroundings);

// Opens a book for judging. Its faults and remarks are told; nothing where it can't be used at all.
std::unique_ptr<OpenedBook> open_book(const BookOptions& options, Surroundings& surroundings);

// Whether a file to be written is one of the book's own (told).
bool tell_over_the_book(const Book& book, const std::string& file, Surroundings& surroundings);

// Looks the whole book through for doubtful data; what there is is told and joins the book's problems.
void tell_doubts(OpenedBook& opened, Surroundings& surroundings);

// The day that stands for today, or nothing (told) where `text` is not a date.
std::optional<Day> as_of_day(const std::string& text, const TimeZone& zone, Surroundings& surroundings);

}  // namespace driftwarden
