// SPDX-License-Identifier: MIT
#pragma once

#include <optional>

#include "assessment/sample_assessment.hpp"

namespace driftwarden {

// Above so many readings a book's records are not looked through for doubtful data: it would cost more than screening.
inline constexpr std::size_t most_readings_looked_through = 200000;

// What looks doubtful in a book's records as a whole: remarks for a person to look at, never proof, and no verdict
// leans on them. docs/uncertainty.md says how often each is raised by chance.
//   doubt/read-twice    readings of a set that were written down twice
//   doubt/identical     a set whose readings are all the same, on a display too fine for that
//   doubt/copied        readings of one sample that repeat those of another, in order
//   doubt/last-digits   last digits of a calibrator's readings that chance doesn't spread so
//   doubt/two-places    one calibrator, read on two pumps in turn within the same minutes
//   doubt/warm-up       a pump read sooner than the stated warm-up allows
//   doubt/sea-level     pressures of sea level at a site that lies high
//   doubt/two-kits      an instrument in two kits at once
//   doubt/kit-rows      rows of one kit that say different things of it
//   doubt/out-again     a kit that goes out again before all of it has come back
//   doubt/kit-day       a day of issues.csv that lies years from all that is on record
//   doubt/elsewhere     an instrument used while it is on record as elsewhere
//   doubt/analyte       two analytes that differ in capitals or blanks alone
//   doubt/lone-blank    a blank's result of an analyte of which no sample of its batch has one
//   doubt/silent-blank  a blank without a result of an analyte of which samples of its batch have one
// `samplers` tell the flows that pumps are set to; without them, only samples that state their own do. What was read
// after the day that stands for today is not known yet; without one, all is.
Diagnostics doubts_of(const Book& book, const SamplerFacts& samplers = {}, std::optional<Day> as_of = {});

}  // namespace driftwarden
