// SPDX-License-Identifier: MIT
#include "report/mass_working.hpp"

#include <gtest/gtest.h>

#include "quantity/rounding.hpp"
#include "report/terminal_text.hpp"
#include "support/book_text.hpp"

namespace driftwarden::mass_working_test {
namespace {

std::string working(const BookText& text, const Sampler& sampler = cyclone_sampler(),
                    std::vector<PracticeChoice> practice = {}) {
  JudgedBook book(text, {{}, {sampler}, std::move(practice)});
  return mass_working(book.screening(), book.result("S1"), no_terminal);
}

bool has(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }

#define EXPECT_HAS(text, part) EXPECT_TRUE(has(text, part)) << "no '" << (part) << "' in\n" << (text)

// own input: 5 µm, 2 behind 4 µm, 1.25 at 1.9 for 2.0 L/min with n = 0.75: 37.96 % of it comes through, and 39.99 %,
// computed with SciPy 1.10 by tests/support/computed_aerosols.py; 38.38 % is respirable.
TEST(MassWorking, ShowsEveryStepOfOneAerosol) {
  const std::string text = working(cyclone_book("1.9"));
  EXPECT_HAS(text,
             "  50 % cut size d50 = 4 µm at 2 L/min, spread 1.25\n"
             "  Law of the cut (cyclone): d50 goes as the flow to the power -0.75, over flows from 1.5 to 2.5 L/min. "
             "Source: A source [own.toml:3:1]\n");
  EXPECT_HAS(
      text,
      "  cut.size: d50 = 4.000 x (1.90000 / 2.00000)^-0.75 = 4.157 µm; cut.shift = 4.157 / 4.000 - 1 = +3.92 %\n");
  EXPECT_HAS(text, "  Aerosol: mass median diameter 5 µm, geometric standard deviation 2: Report 7 [book.toml:3:1]\n");
  EXPECT_HAS(text,
             "= Φ( ln(d50 / 5) / √(ln²1.25 + ln²2) ), Φ being the standard normal distribution: 37.96 % at the nominal "
             "flow, 39.99 % at this one\n");
  EXPECT_HAS(text,
             "  mass.shift.actual  = F / F_nominal - 1 = +5.34 %: error of the concentration by the actual volume\n");
  EXPECT_HAS(text, "  mass.shift.nominal = F x Q / (F_nominal x Q_nominal) - 1 = +0.07 %: error of the concentration");
  EXPECT_HAS(text,
             "  Against the respirable convention (ISO 7708, EN 481), which takes 38.38 % of it, the concentration is "
             "off -1.08 % "
             "at the nominal flow; at this one +4.20 % by the actual volume and -1.01 % by the nominal volume\n");
  EXPECT_HAS(text, "  mass.bias = +4.20 %: the volume is formed with the mean flow as measured\n");
  EXPECT_HAS(text, "A model, and never a correction of a result.");
  EXPECT_HAS(text,
             "  No uncertainty is stated of mass.shift and mass.bias: of what a model leaves out nobody has a standard "
             "deviation\n");
}

// derived: the u of d50 is that of the flow times n d50 / Q.
TEST(MassWorking, StatesHowWellEachFigureIsKnownOrWhyNobodySays) {
  EXPECT_HAS(working(cyclone_book("1.9")),
             "  How well cut.size and cut.shift are known is not stated, as of the flow it is not\n");
  BookText text = cyclone_book("1.9");
  text.certificates = certificates_with_uncertainty;
  text.readings += "2026-09-21T07:31,pre,S1,V1,1.901\n2026-09-21T16:11,post,S1,V1,1.899\n";
  JudgedBook book(text, {{}, {cyclone_sampler()}});
  const SampleResult& result = book.result("S1");
  const double of_shift = 0.75 * 4.15688 / 4 / 1.9 * result.budget.about(BudgetFigure::flow).expanded;
  EXPECT_HAS(mass_working(book.screening(), result, no_terminal),
             "  cut.size is known to U = " + with_significant_digits(4 * of_shift, 2) +
                 " µm, cut.shift to U = " + with_significant_digits(100 * of_shift, 2) +
                 " %: by the u of the flow, the law of the cut taken as exact\n");
}

TEST(MassWorking, ShowsARangeWhereNobodyStatesTheAerosol) {
  const std::string text = working(cyclone_book("1.9", false));
  EXPECT_HAS(text, "Nobody states the aerosol ([aerosol] in book.toml)");
  EXPECT_HAS(text, "mass median diameter 1 to 15 µm, geometric standard deviation 2 to 3.\n");
  EXPECT_HAS(text, " - 1 = +0.34 % to +12.25 %: error of the concentration by the actual volume\n");
}

TEST(MassWorking, ShowsARangeAndNoVerdictWhereNobodyStatesTheExponent) {
  const std::string text = working(cyclone_book("1.9"), cyclone_sampler({}));
  EXPECT_HAS(text, "Law of the cut (cyclone): nobody states with which exponent d50 goes with the flow");
  EXPECT_HAS(text,
             "  With exponents of 0.5 to 1.15, between which most of the literature's lie (from memory), d50 = 4.104 "
             "to 4.243 µm");
  EXPECT_HAS(text, "are missing: give cut_exponent to have a verdict.\n");
  EXPECT_FALSE(has(text, "How well cut.size"));
  EXPECT_HAS(text, "= F / F_nominal - 1 = +3.55 % to +8.21 %");
}

TEST(MassWorking, ShowsTheSlipOfWhatGoesByTheory) {
  Sampler impactor = cyclone_sampler({});
  impactor.cut_kind = CutKind::impactor;
  const std::string text = working(cyclone_book("1.9"), impactor);
  EXPECT_HAS(text,
             "Law of the cut (impactor): d50 x √C goes as the flow to the power -0.5, C being the slip correction, "
             "over flows");
  EXPECT_HAS(text, "  cut.size: d50 x √C = 4.000 x √1.0417 x (1.90000 / 2.00000)^-0.5, so d50 = 4.106 µm; cut.shift");
}

TEST(MassWorking, SaysByWhichVolumeTheBiasIs) {
  EXPECT_HAS(working(cyclone_book("1.9"), cyclone_sampler(), {practice("flow_for_volume", "nominal")}),
             "  mass.bias = -1.01 %: the volume is formed with the nominal flow\n");
  EXPECT_HAS(
      working(cyclone_book_from("1.95", "1.85"), cyclone_sampler(), {practice("flow_for_volume", "pre")}),
      "  mass.bias = (1 + b) x 1.90000 / 1.95000 - 1 = +1.53 %, b being that by the actual volume: the volume is "
      "formed with 1.95000 L/min, by flow_for_volume = \"pre\"\n");
  Sampler total = cyclone_sampler();
  total.fraction = "total";
  EXPECT_FALSE(has(working(cyclone_book("1.9"), total), "convention"));
}

TEST(MassWorking, SaysWhatIsLacking) {
  EXPECT_HAS(working(cyclone_book("1.4")),
             "1.40000 L/min, lies outside those flows: what it did to the cut is not known.\n");
  BookText text = cyclone_book("1.9");
  text.readings = "taken,stage,sample,calibrator,reading [L/min]\n";
  EXPECT_HAS(working(text), "  can't be worked out: a flow is missing\n");
  EXPECT_EQ(working(cyclone_book("1.9"), sampler("cyclone", 2.0, 0.75)), "");
}

TEST(MassWorking, TellsTheCutAtTheSamplesOwnNominalFlow) {
  EXPECT_HAS(working(with_own_nominal(cyclone_book("1.9"), "1.9")),
             "  The sample's own nominal flow is 1.9 L/min: there d50 = 4.157 µm\n");
}

void expect_last(const std::string& text, const std::string& line) {
  EXPECT_TRUE(text.ends_with("\n  " + line + "\n")) << "'" << line << "' is not the last line of\n" << text;
}

TEST(MassWorking, EndsWithWhyNothingIsKnownAtTheSamplesOwnNominalFlow) {
  expect_last(
      working(with_own_nominal(cyclone_book("1.9"), "3")),
      "The sample's own nominal flow is 3 L/min, which lies outside those flows: what d50 is there, and what the "
      "flow did to it, is not known.");
  expect_last(
      working(with_own_nominal(cyclone_book("1.9"), "1.9"), cyclone_sampler({})),
      "The sample's own nominal flow is 1.9 L/min: what d50 is there, and what the flow did to it, is not known "
      "without the exponent.");
}

TEST(MassWorking, FormsNoRatioWhereNothingComesThrough) {
  BookText text = cyclone_book("1.9");
  text.settings.replace(text.settings.find("\"5 µm\""), 7, R"(["5 µm", "200 µm"])");
  text.settings.replace(text.settings.find("gsd = 2"), 7, "gsd = 1");
  Sampler sharp = cyclone_sampler();
  sharp.cut_spread = 1.1;
  expect_last(
      working(text, sharp),
      "So little of the coarsest comes through that no ratio can be formed of it: what the flow did to the mass "
      "is not known.");
}

}  // namespace
}  // namespace driftwarden::mass_working_test
