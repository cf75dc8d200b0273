// SPDX-License-Identifier: MIT
#pragma once

#include <optional>

#include "book/book.hpp"

namespace driftwarden {

// Where results.csv doesn't fit together: what is spelt otherwise stands beside what it belongs to, and nothing leans
// on it.
//   doubt/analyte       two analytes that differ in capitals or blanks alone
//   doubt/lone-blank    a blank's result of an analyte of which no sample of its batch has one
//   doubt/silent-blank  a blank without a result of an analyte of which samples of its batch have one
// What was reported after the day that stands for today is not known yet.
void note_results(const Book& book, std::optional<Day> as_of, Diagnostics& doubts);

}  // namespace driftwarden
