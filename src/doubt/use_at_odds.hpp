// SPDX-License-Identifier: MIT
#pragma once

#include "doubt/replicates.hpp"

namespace driftwarden {

// Instruments, readings and media whose records say that they were not used as it is written down.
//   doubt/out-of-service      a sample is drawn with a pump, or a set is read with a calibrator, that is out of service
//                             by then, or not yet in it; once an instrument
//   doubt/blank               a blank has flow readings, or a fault that spoils a sample
//   doubt/read-while-running  a set before or after sampling that names a pump only is read while a sample runs on it:
//                             it is of no sample
//   doubt/one-medium          two samples have one cassette, filter or tube, in a book where nearly each has its own
void note_use(const Book& book, const ComeBy& come, std::span<const Replicates> all, Diagnostics& doubts);

}  // namespace driftwarden
