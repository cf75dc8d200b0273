// SPDX-License-Identifier: MIT
#include "record/reading.hpp"

namespace driftwarden {

std::string_view to_text(Stage stage) {
  switch (stage) {
    case Stage::pre:
      return "pre";
    case Stage::field:
      return "field";
    case Stage::post:
      return "post";
  }
  return {};
}

}  // namespace driftwarden
