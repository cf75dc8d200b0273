// SPDX-License-Identifier: MIT
#pragma once

#include <string>

#include "report/custody_sheet.hpp"
#include "support/book_text.hpp"

namespace driftwarden {

// A batch with a sample that stands, one that is void, a blank, and one over midnight that lacks its readings; its
// laboratory and who took most of them are written down.
inline BookText custody_text() {
  BookText text;
  text.settings +=
      "[custody]\nsender = [\"Quarry office\", \"Lane 1\"]\nlaboratory = [\"Dust laboratory\"]\nreference = \"order "
      "7\"\n";
  text.samples =
      "sample,batch,kind,pump,method,analysis,started,stopped,temperature [°C],pressure [kPa],note,medium,by\n"
      "S1,B-7,sample,P1,method 12,\"fume, metals\",2026-09-21T08:00,2026-09-21T16:00,25,101.325,wet filter,C-1,day "
      "crew\n"
      "S2,B-7,sample,P2,method 12,\"fume, metals\",2026-09-21T08:00,2026-09-21T16:00,25,101.325,,C-2,day crew\n"
      "S3,B-7,sample,P1,method 12,dust,2026-09-21T22:00,2026-09-22T06:00,25,101.325,,C-3,\n"
      "K1,B-7,blank,,method 12,\"fume, metals\",,,,,,C-4,\n";
  text.readings +=
      "2026-09-21T07:35,pre,S2,V1,2.000\n"
      "2026-09-21T16:15,post,S2,V1,1.800\n";
  return text;
}

inline CustodySheet custody_of(const BookText& text) {
  JudgedBook book(text, {{{Subject::sample, "drift", "within", {"5 %"}}}});
  CustodySheet sheet;
  sheet.title = book.book().settings.title;
  sheet.batch = "B-7";
  sheet.zone = "UTC";
  sheet.reference = "25 °C, 101.325 kPa";
  sheet.consignment = consignment_of(book.book().settings, sheet.batch);
  sheet.as_of = "2026-11-16";
  sheet.version = "0.1.0";
  for (const std::string_view name : {"S1", "S2", "S3", "K1"})
    sheet.add(custody_line(book.screening(), book.result(name)));
  return sheet;
}

}  // namespace driftwarden
