// SPDX-License-Identifier: MIT
// Any bytes as plan.csv: what is to be sampled. Nothing may crash, and what is kept of a row can be used.
#include <cstdint>
#include <set>
#include <string>

#include "fuzz/sound_book.hpp"

namespace driftwarden {
namespace {

void planned_samples_can_be_used(const Book& book) {
  const auto is_none_or = [&book](Row instrument, InstrumentKind kind) {
    return instrument == no_row || (instrument < book.instruments.size() && book.instruments[instrument].kind == kind);
  };
  std::set<std::string> names;
  for (const PlannedSample& planned : book.plan) {
    require(!planned.name.empty() && !planned.batch.empty(), "a planned sample has a name and a batch");
    require(names.insert(planned.name).second, "it is planned once: " + planned.name);
    require(is_none_or(planned.pump, InstrumentKind::pump), "its pump is a pump");
    require(is_none_or(planned.calibrator, InstrumentKind::calibrator), "its calibrator is a calibrator");
    require(is_missing(planned.nominal_l_min) || planned.nominal_l_min >= 0, "its flow is a flow");
    require(planned.place.file < book.files.plan.size() && planned.place.line > 1, "it has a place");
  }
}

}  // namespace
}  // namespace driftwarden

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  return driftwarden::read_as("plan.csv", data, size, driftwarden::planned_samples_can_be_used);
}
