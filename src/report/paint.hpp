// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>
#include <string>
#include <string_view>

#include "verdict/finding.hpp"

namespace driftwarden {

// Colour for a terminal, never the only sign; without colour the text stays as it is.
class Paint {
 public:
  explicit Paint(bool has_colour) : has_colour_(has_colour) {}
  std::string verdict(Verdict verdict, std::string_view text) const;
  std::string heading(std::string_view text) const { return wrap("1", text); }
  std::string faint(std::string_view text) const { return wrap("2", text); }

  // The length of one of the commands to a terminal that this gives, at the begin of a text; 0: there is none.
  static std::size_t length_of_command(std::string_view text);

 private:
  std::string wrap(std::string_view code, std::string_view text) const;
  bool has_colour_;
};

// A text padded with blanks to a width, counted in characters; longer texts stay whole.
std::string left(std::string_view text, std::size_t width);
std::string right(std::string_view text, std::size_t width);
std::size_t characters_in(std::string_view text);

}  // namespace driftwarden
