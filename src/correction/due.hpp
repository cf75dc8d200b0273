// SPDX-License-Identifier: MIT
#pragma once

#include "record/instrument.hpp"

namespace driftwarden {

// The day by which an instrument has to be calibrated again; no_day where neither certificate nor interval says so.
//
//   due = the certificate's own due date, else calibrated + ⌊interval⌋
//
//   due, calibrated   calendar days      interval  recalibration interval of the instrument, d
//   Source   this project's pinned choice: the certificate's issuer wins over the owner's interval
//   Valid    a certificate with a date; a day past the end of the calendar is no_day
//   Example  calibrated 2026-01-10, interval 365 d  ->  due 2027-01-10
Day due_day(const Certificate& certificate, const Instrument& instrument);

}  // namespace driftwarden
