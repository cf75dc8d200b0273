// SPDX-License-Identifier: MIT
#pragma once

#include "history/reviewed_book.hpp"
#include "report/kit_sheet.hpp"

namespace driftwarden {

// A kind of kit that holds two pumps, a calibrator, hoses and a form. K-1 went out with a pump too few, a thing too
// many and a calibrator that is past due, and came back without its hoses. K-2 is out. Invented data.
inline BookText kit_text() {
  BookText text;
  text.instruments =
      "instrument,kind,principle,serial\nP1,pump,,T-7\nP2,pump,,T-8\nV1,calibrator,volumetric,C-1\n"
      "V2,calibrator,volumetric,C-2\n";
  text.certificates =
      "certificate,instrument,calibrated,due,nominal [L/min],reference [L/min],as left [L/min]\n"
      "C1,V1,2026-01-05,2026-09-22,2,2,2\nC2,V2,2026-01-05,2027-01-05,2,2,2\n";
  text.kits =
      "kind of kit,item,kind of instrument,number,note\ndust,pump,pump,2,charged\ndust,calibrator,calibrator,,\n"
      "dust,hose,,3,tight\ndust,form,,,\n";
  text.issues =
      "kit,kind of kit,instrument,item,out,to,checked by,due back,charged,back,checked back by,condition,missing\n"
      "K-1,dust,V1,,2026-09-20,north crew,store,2026-09-22,,2026-09-24,workshop,dirty,\n"
      "K-1,dust,P2,,2026-09-20,north crew,store,2026-09-22,yes,2026-09-24,workshop,good,\n"
      "K-1,dust,,hose,2026-09-20,,,,,2026-09-24,,,yes\n"
      "K-1,dust,,lamp,2026-09-20,,,,,2026-09-24,,,\n"
      "K-1,dust,P1,,2026-08-01,,,,,2026-08-04,,good,\n"
      "K-2,dust,V2,calibrator,2026-09-23,south crew,,2026-09-30,,,,,\n";
  return text;
}

inline std::optional<KitSheet> kit_sheet(const std::string& name, const std::string& as_of = "2026-09-24") {
  const ReviewedBook book(kit_text(), {}, as_of);
  std::optional<KitSheet> sheet = kit_sheet_of(book.screening().book(), book.review().kits, name, day(as_of));
  if (sheet) sheet->version = "0.1.0";
  return sheet;
}

}  // namespace driftwarden
