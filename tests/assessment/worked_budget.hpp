// SPDX-License-Identifier: MIT
#pragma once

#include <gtest/gtest.h>

#include <cmath>

#include "assessment/budget.hpp"
#include "support/book_text.hpp"

namespace driftwarden {

// Figures of the tests have seven digits.
inline void expect_digits(double figure, double expected) { EXPECT_NEAR(figure, expected, 1e-6 * std::abs(expected)); }

// A book, its sample S1 assessed, and the budget of that.
struct BudgetedBook {
  explicit BudgetedBook(const BookText& text, const AssessmentPractice& practice = {})
      : book(book_of(text)),
        basis(book, practice, SamplerFacts{}),
        assessor(basis),
        figures(assessor.assess(row_of(book, "S1"))) {
    work_out_budget(basis, figures, budget);
  }
  BudgetedBook(const BudgetedBook&) = delete;
  BudgetedBook& operator=(const BudgetedBook&) = delete;

  const BudgetLine* line(BudgetSource source) const {
    for (const BudgetLine& line : budget.lines) {
      if (line.source == source) return &line;
    }
    return nullptr;
  }
  bool lacks(BudgetSource source) const {
    for (const BudgetLack& lack : budget.lacks) {
      if (lack.source == source) return true;
    }
    return false;
  }
  double contribution(BudgetSource source, BudgetFigure figure) const {
    const BudgetLine* found = line(source);
    return found == nullptr ? missing : found->contribution(figure);
  }

  Book book;
  AssessmentBasis basis;
  SampleAssessor assessor;
  const SampleAssessment& figures;
  Budget budget;
};

// The worked budget: five readings before and after on a dry piston whose flows are to be multiplied by 1.002, with an
// expanded uncertainty of 0.010 in that (k = 2) and a display step of 0.001 L/min; 480 minutes at 23 °C and 98.60 kPa,
// temperature within 2 K, pressure within 0.30 kPa, both times within half a minute; reference 20 °C, 101.325 kPa.
// Invented data.
inline BookText worked_book() {
  BookText text;
  text.settings +=
      "[reference]\ntemperature = \"20 °C\"\npressure = \"101.325 kPa\"\n"
      "[uncertainty]\ntemperature = \"2 °C\"\npressure = \"0.3 kPa\"\n";
  text.instruments =
      "instrument,kind,principle,resolution [L/min]\n"
      "P1,pump,,\n"
      "V1,calibrator,volumetric,0.001\n"
      "V2,calibrator,volumetric,0.001\n";
  text.certificates =
      "certificate,instrument,calibrated,nominal [L/min],reference [L/min],as left [L/min],expanded uncertainty "
      "[L/min],coverage factor\n"
      "C1,V1,2026-01-05,2,2.004,2.000,0.020,2\n"
      "C2,V2,2026-01-05,2,2.004,2.000,0.020,2\n";
  text.samples =
      "sample,pump,started,stopped,temperature [°C],pressure [kPa]\n"
      "S1,P1,2026-09-21T08:00,2026-09-21T16:00,23,98.60\n";
  text.readings =
      "taken,stage,sample,calibrator,reading [L/min]\n"
      "2026-09-21T07:30,pre,S1,V1,2.013\n2026-09-21T07:31,pre,S1,V1,2.008\n2026-09-21T07:32,pre,S1,V1,2.011\n"
      "2026-09-21T07:33,pre,S1,V1,2.015\n2026-09-21T07:34,pre,S1,V1,2.009\n"
      "2026-09-21T16:10,post,S1,V1,1.957\n2026-09-21T16:11,post,S1,V1,1.962\n2026-09-21T16:12,post,S1,V1,1.955\n"
      "2026-09-21T16:13,post,S1,V1,1.960\n2026-09-21T16:14,post,S1,V1,1.958\n";
  return text;
}

inline void replace_all(std::string& text, std::string_view from, std::string_view to) {
  for (std::size_t at = text.find(from); at != std::string::npos; at = text.find(from, at + to.size())) {
    text.replace(at, from.size(), to);
  }
}

// Two readings before S1 and two after it that say the same; the headings of what is given and what it says.
inline std::string two_and_two(const std::string& headings, const std::string& pre, const std::string& post) {
  std::string rows = "taken,stage,sample," + headings + "\n";
  for (const std::string minute : {"1", "2"}) {
    rows += "2026-09-21T07:3" + minute + ",pre,S1," + pre + "\n2026-09-21T16:1" + minute + ",post,S1," + post + "\n";
  }
  return rows;
}

}  // namespace driftwarden
