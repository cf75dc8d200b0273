// SPDX-License-Identifier: MIT
#pragma once

#include "support/book_text.hpp"

namespace driftwarden {

// S1, a sample of batch B of 887.25 L, weighed with two blanks: 0.532 mg known to 5 %, and 0.007 and 0.005 mg on the
// blanks B1 and B2. Invented but for the weights of S1 and the blanks' mean.
inline constexpr const char* weighed =
    "sample,analyte,before [mg],after [mg],limit [mg],expanded uncertainty [%]\n"
    "S1,dust,15.310,15.842,0.03,5\nB1,dust,14.997,15.004,0.03,\nB2,dust,14.999,15.004,0.03,\n";

inline BookText laboratory_book(const std::string& results = weighed) {
  BookText text;
  text.certificates = certificates_with_uncertainty;
  text.samples =
      "sample,batch,kind,pump,started,stopped\nS1,B,,P1,2026-09-21T08:00,2026-09-21T15:35\nB1,B,blank,,,\n"
      "B2,B,blank,,,\nK1,C,blank,,,\n";
  text.readings =
      "taken,stage,sample,calibrator,reading [L/min]\n"
      "2026-09-21T07:30,pre,S1,V1,1.951\n2026-09-21T07:31,pre,S1,V1,1.949\n"
      "2026-09-21T16:10,post,S1,V1,1.951\n2026-09-21T16:11,post,S1,V1,1.949\n";
  text.results = results;
  return text;
}

// The same, weighed on a balance whose certificates know 10 mg to 0.0030 mg and 20 mg to 0.0050 mg (k = 2) in the first
// year and twice as ill in the second; one filter stayed in the weighing room with it. Invented.
inline constexpr const char* weighed_on_balance =
    "sample,analyte,before [mg],after [mg],limit [mg],balance,weighed before,weighed after,kind,batch\n"
    "S1,dust,15.310,15.842,0.03,MB-2,2026-09-14,2026-09-28,,\nB1,dust,14.997,15.004,0.03,MB-2,,2026-09-28,,\n"
    "CF-1,dust,15.000,15.002,,MB-2,,,control,B\nCF-2,dust,15.100,15.104,,MB-2,,,control,B\n";

inline BookText weighing_book(const std::string& results = weighed_on_balance) {
  BookText text = laboratory_book(results);
  text.instruments += "MB-2,balance,\n";
  text.balances =
      "certificate,instrument,calibrated,due,nominal [mg],reference [mg],as found [mg],expanded uncertainty [mg],"
      "coverage factor\n"
      "M1,MB-2,2025-09-01,2026-09-20,10,10,10.001,0.0030,2\nM1,MB-2,2025-09-01,2026-09-20,20,20,20.002,0.0050,2\n"
      "M2,MB-2,2026-09-21,2027-09-20,10,10,10.001,0.0060,2\nM2,MB-2,2026-09-21,2027-09-20,20,20,20.002,0.0100,2\n";
  return text;
}

// Which takes the mean of the blanks off.
inline std::vector<PracticeChoice> blanks_taken_off() { return {practice("blank_correction", "mean")}; }

}  // namespace driftwarden
