// SPDX-License-Identifier: MIT
#include "driftwarden/record/instrument.hpp"

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
  switch (principle) {
    case Principle::none:
      return "";
    case Principle::volumetric:
      return "volumetric";
    case Principle::bubble:
      return "bubble";
    case Principle::rotameter:
      return "rotameter";
    case Principle::mass:
      return "mass";
    case Principle::orifice:
      return "orifice";
  }
  return {};
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
