// SPDX-License-Identifier: MIT
#pragma once

#include <utility>
#include <vector>

#include "report/field_sheet.hpp"
#include "support/book_text.hpp"

namespace driftwarden {

// input: a plan, a rotameter drawn for 20 °C and 101.325 kPa, and a rule of 5 %.

inline BookText sheet_book() {
  BookText text;
  text.instruments =
      "instrument,kind,principle,serial,scale temperature [°C],scale pressure [kPa],resolution [L/min],read "
      "at,interval [d]\n"
      "P1,pump,,AB-1,,,,,\nP2,pump,,,,,,,\nV1,calibrator,volumetric,,,,0.001,,365\n"
      "V2,calibrator,rotameter,R-9,20,101.325,0.01,centre,365\n";
  text.plan =
      "sample,batch,kind,pump,sampler,calibrator,day,medium\n"
      "S2,B1,,P1,cowl,V2,2026-09-22,C-7\n"
      "S3,B1,,P1,cowl,V2,2026-09-22,\n"
      "S4,B1,,P1,cowl,V2,2026-09-23,\n"
      "<i>S5,B1,,P2,cowl,V1,2026-09-22,\n"
      "S6,B1,,,cowl,V1,,\n"
      "K1,B1,blank,,,,,\n";
  return text;
}

inline const RulesText sheet_rules{.rules = {{Subject::sample, "pre.deviation", "within", {"5 %"}, Otherwise::qualify},
                                             {Subject::sample, "warm-up", "at_least", {"15 min"}},
                                             {Subject::sample, "pre.count", "at_least", {"4"}}},
                                   .samplers = {sampler("cowl", 2.0)}};

inline FieldSheets sheets_of(JudgedBook& book, std::vector<Row> calibrators = {}) {
  SaidAir said;
  said.temperature_k = 288.15;
  said.pressure_kpa = 85;
  return field_sheets(book.screening(), {"B1", samples_ahead(book.screening(), "B1"),
                                         air_expected(book.screening(), said, 20717), std::move(calibrators), 20717});
}

}  // namespace driftwarden
