// SPDX-License-Identifier: MIT
#include "record/instrument.hpp"

namespace driftwarden {

std::string_view to_text(InstrumentKind kind) {
  switch (kind) {
    case InstrumentKind::pump:
      return "pump";
    case InstrumentKind::calibrator:
      return "calibrator";
    case InstrumentKind::thermometer:
      return "thermometer";
    case InstrumentKind::barometer:
      return "barometer";
  }
  return {};
}

std::string_view to_text(Principle principle) {
  return principle == Principle::none ? "" : principle_words[static_cast<std::size_t>(principle) - 1];
}

std::string_view to_text(ReadAt read_at) {
  switch (read_at) {
    case ReadAt::unknown:
      return "";
    case ReadAt::centre:
      return "centre";
    case ReadAt::top:
      return "top";
  }
  return {};
}

}  // namespace driftwarden
