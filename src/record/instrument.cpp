// SPDX-License-Identifier: MIT
#include "record/instrument.hpp"

namespace driftwarden {

Dimension dimension_of_points(InstrumentKind kind) {
  if (kind == InstrumentKind::thermometer) return Dimension::temperature;
  if (kind == InstrumentKind::barometer) return Dimension::pressure;
  return kind == InstrumentKind::balance ? Dimension::mass : Dimension::flow;
}

std::string_view to_text(InstrumentKind kind) { return instrument_kind_words[static_cast<std::size_t>(kind)]; }

std::string_view to_text(Principle principle) {
  return principle == Principle::none ? "" : principle_words[static_cast<std::size_t>(principle) - 1];
}

std::string_view to_text(ReadAt read_at) {
  return read_at == ReadAt::unknown ? "" : read_at_words[static_cast<std::size_t>(read_at) - 1];
}

}  // namespace driftwarden
