// SPDX-License-Identifier: MIT
#pragma once

#include "command/called.hpp"

namespace driftwarden {

inline bool has_part(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }

// S1 was drawn by NMAM 0600; N1 and N2 are planned for it, with a blank, K1.
inline BookText dust_book() {
  BookText text;
  text.settings += "[rules]\npacks = [\"nmam-respirable-dust\"]\n";
  text.samples =
      "sample,pump,sampler,method,started,stopped\nS1,P1,nylon-cyclone-10mm,NMAM "
      "0600,2026-09-21T08:00,2026-09-21T16:00\n";
  text.plan =
      "sample,batch,kind,pump,calibrator,sampler,method,target [µg/m3],expected [mg/m3],day\n"
      "N1,B1,,P2,V1,nylon-cyclone-10mm,NMAM 0600,500,1,2026-11-18\n"
      "N2,B1,,P2,V1,nylon-cyclone-10mm,NMAM 0600,50,1,2026-11-19\n"
      "K1,B1,blank,,,,NMAM 0600,,,\n";
  return text;
}

inline Called ahead(const CalledBook& book, std::vector<std::string> more) {
  more.insert(more.begin(), {"ahead", book.path()});
  return call(more);
}

}  // namespace driftwarden
