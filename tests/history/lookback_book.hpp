// SPDX-License-Identifier: MIT
#pragma once

#include "support/book_text.hpp"

namespace driftwarden {

// A book in which V1 was good on 2026-03-01, was found to show 10 % too much on 2026-03-11, and was the standard of V2
// in between (2026-03-06). S1 was read with V1, S2 with V2 after V1 was set right, S3 with V1 before and V2 after, S4
// with V3 and once with V1 in the field, S5 with V1 when all was well again, S6 with V3 only. Invented data.
inline BookText lookback_text() {
  BookText text;
  text.instruments =
      "instrument,kind,principle\n"
      "P1,pump,\nP2,pump,\nP3,pump,\nP4,pump,\nP5,pump,\nP6,pump,\n"
      "V1,calibrator,volumetric\nV2,calibrator,volumetric\nV3,calibrator,volumetric\n";
  text.certificates =
      "certificate,instrument,calibrated,standard,nominal [L/min],reference [L/min],as found [L/min],as left [L/min],"
      "tolerance [%]\n"
      "V1/good,V1,2026-03-01,outside prover,2,2.0,2.0,2.0,2\n"
      "V2/against-V1,V2,2026-03-06,V1,2,2.0,2.0,2.0,2\n"
      "V3/own,V3,2026-03-01,outside prover,2,2.0,2.0,2.0,2\n"
      "V1/found,V1,2026-03-11,outside prover,2,2.0,2.2,2.0,2\n";
  text.samples =
      "sample,pump,started,stopped\n"
      "S1,P1,2026-03-06T08:00,2026-03-06T16:00\n"
      "S2,P2,2026-03-20T08:00,2026-03-20T16:00\n"
      "S3,P3,2026-03-07T08:00,2026-03-07T16:00\n"
      "S4,P4,2026-03-08T08:00,2026-03-08T16:00\n"
      "S5,P5,2026-03-12T08:00,2026-03-12T16:00\n"
      "S6,P6,2026-03-08T08:00,2026-03-08T16:00\n";
  text.readings =
      "taken,stage,sample,calibrator,reading [L/min]\n"
      "2026-03-06T07:30,pre,S1,V1,2.2\n2026-03-06T16:10,post,S1,V1,2.2\n"
      "2026-03-20T07:30,pre,S2,V2,2.0\n2026-03-20T16:10,post,S2,V2,2.0\n"
      "2026-03-07T07:30,pre,S3,V1,2.2\n2026-03-07T16:10,post,S3,V3,2.2\n"
      "2026-03-08T07:30,pre,S4,V3,2.0\n2026-03-08T12:00,field,S4,V1,2.2\n2026-03-08T16:10,post,S4,V3,2.0\n"
      "2026-03-12T07:30,pre,S5,V1,2.0\n2026-03-12T16:10,post,S5,V1,2.0\n"
      "2026-03-08T07:30,pre,S6,V3,2.0\n2026-03-08T16:10,post,S6,V3,2.0\n";
  return text;
}

inline RulesText drift_within_5_percent() { return {{{Subject::sample, "drift", "within", {"5 %"}}}}; }

inline std::int32_t certificate_of(const Book& book, std::string_view name) {
  for (std::size_t i = 0; i < book.certificates.size(); ++i) {
    if (book.certificates[i].name == name) return static_cast<std::int32_t>(i);
  }
  throw std::runtime_error("no certificate " + std::string(name));
}

inline Row instrument_of(const Book& book, std::string_view name) {
  for (Row row = 0; row < book.instruments.size(); ++row) {
    if (book.instruments[row].name == name) return row;
  }
  throw std::runtime_error("no instrument " + std::string(name));
}

}  // namespace driftwarden
