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

// Which takes the mean of the blanks off.
inline std::vector<PracticeChoice> blanks_taken_off() { return {practice("blank_correction", "mean")}; }

}  // namespace driftwarden
