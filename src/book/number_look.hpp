// SPDX-License-Identifier: MIT
#pragma once

#include <string_view>

namespace driftwarden {

// As what a spreadsheet shows a number, as far as that tells what the number is.
struct NumberLook {
  enum class Kind { plain, percent, date, time, date_time, duration } kind = Kind::plain;
  int digits = 0;  // at least so many, noughts before: "000" shows 7 as 007
};

// By a number format's code ("0.00", "dd/mm/yyyy hh:mm", "[h]:mm"), as ECMA-376-1, 18.8.31 writes them.
NumberLook look_of(std::string_view code);

// By the number of a format that needs no code (ECMA-376-1, 18.8.30); plain for all others.
NumberLook built_in_look(int number);

}  // namespace driftwarden
