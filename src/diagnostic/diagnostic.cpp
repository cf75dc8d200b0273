// SPDX-License-Identifier: MIT
#include "diagnostic/diagnostic.hpp"

#include <cstddef>
#include <utility>

#include "diagnostic/characters.hpp"
#include "diagnostic/escaped.hpp"

namespace driftwarden {

namespace {

constexpr std::size_t longest_quotation = 60;  // characters

}  // namespace

std::string_view to_text(Severity severity) { return severity == Severity::error ? "error" : "remark"; }

std::string to_text(const Diagnostic& diagnostic) {
  std::string text = to_text(diagnostic.place);
  if (!text.empty()) text += ": ";
  text += to_text(diagnostic.severity);
  text += ": " + diagnostic.message;
  if (!diagnostic.hint.empty()) text += "; " + diagnostic.hint;
  return text + " [" + diagnostic.id + ']';
}

Diagnostic error(std::string id, Place place, std::string message, std::string hint) {
  return {std::move(id), Severity::error, std::move(place), std::move(message), std::move(hint)};
}

Diagnostic remark(std::string id, Place place, std::string message, std::string hint) {
  return {std::move(id), Severity::remark, std::move(place), std::move(message), std::move(hint)};
}

std::string in_quotes(std::string_view text) {
  std::string shown = "'";
  std::string shown_but_the_last;  // in case there is more than fits
  for (std::size_t count = 0; !text.empty(); ++count) {
    if (count == longest_quotation) return shown_but_the_last + "…'";
    const std::size_t length = character_length(text);
    const std::string_view character = text.substr(0, length == 0 ? 1 : length);
    text.remove_prefix(character.size());
    shown_but_the_last = shown;
    shown += length == 0 || is_control(character) ? escaped(character) : std::string(character);
  }
  return shown + '\'';
}

}  // namespace driftwarden
