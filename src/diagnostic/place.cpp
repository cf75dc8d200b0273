// SPDX-License-Identifier: MIT
#include "driftwarden/diagnostic/place.hpp"

namespace driftwarden {

std::string to_text(const Place& place) {
  std::string text = place.file;
  if (place.line == 0) return text;
  text += ':' + std::to_string(place.line);
  if (place.column != 0) text += ':' + std::to_string(place.column);
  return text;
}

}  // namespace driftwarden
