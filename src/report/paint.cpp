// SPDX-License-Identifier: MIT
#include "report/paint.hpp"

#include <algorithm>
#include <array>

namespace driftwarden {
namespace {

constexpr std::string_view begin_of_command = "\x1b[";
constexpr std::string_view end_of_command = "m";
constexpr std::array<std::string_view, 6> codes{"0", "1", "2", "33", "36", "1;35"};

}  // namespace

std::size_t Paint::length_of_command(std::string_view text) {
  if (!text.starts_with(begin_of_command)) return 0;
  const std::size_t end = text.find(end_of_command, begin_of_command.size());
  if (end == std::string_view::npos) return 0;
  const std::string_view code = text.substr(begin_of_command.size(), end - begin_of_command.size());
  return std::find(codes.begin(), codes.end(), code) == codes.end() ? 0 : end + end_of_command.size();
}

std::string Paint::wrap(std::string_view code, std::string_view text) const {
  if (!has_colour_) return std::string(text);
  return "\x1b[" + std::string(code) + "m" + std::string(text) + "\x1b[0m";
}

std::string Paint::verdict(Verdict verdict, std::string_view text) const {
  switch (verdict) {
    case Verdict::valid:
      return std::string(text);
    case Verdict::qualified:
      return wrap("36", text);
    case Verdict::undecided:
      return wrap("33", text);
    case Verdict::void_:
      return wrap("1;35", text);
  }
  return std::string(text);
}

std::size_t characters_in(std::string_view text) {
  return static_cast<std::size_t>(
      std::count_if(text.begin(), text.end(), [](char c) { return (static_cast<unsigned char>(c) & 0xC0U) != 0x80U; }));
}

std::string left(std::string_view text, std::size_t width) {
  const std::size_t length = characters_in(text);
  return std::string(text) + std::string(length < width ? width - length : 0, ' ');
}

std::string right(std::string_view text, std::size_t width) {
  const std::size_t length = characters_in(text);
  return std::string(length < width ? width - length : 0, ' ') + std::string(text);
}

}  // namespace driftwarden
