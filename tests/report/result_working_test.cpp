// SPDX-License-Identifier: MIT
#include "report/result_working.hpp"

#include <gtest/gtest.h>

#include "report/terminal_text.hpp"
#include "support/laboratory_book.hpp"

namespace driftwarden::result_working_test {
namespace {

const std::string by_amount = "sample,analyte,amount [mg],limit [mg],expanded uncertainty [%],coverage factor\n";

std::string working(const BookText& text, std::vector<PracticeChoice> practice = blanks_taken_off(),
                    const std::string& sample = "S1", std::vector<Sampler> samplers = {}) {
  JudgedBook book(text, {{}, std::move(samplers), std::move(practice)});
  return result_working(book.screening(), book.result(sample), no_terminal);
}

bool has(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }

#define EXPECT_HAS(text, part) EXPECT_TRUE(has(text, part)) << "no '" << (part) << "' in\n" << (text)

// derived: 15.842 - 15.310 = 0.532 mg, less (0.007 + 0.005) / 2 = 0.006 mg, in 887.25 L. The uncertainties: regression,
// no check here; assessment/laboratory_figures_test.cpp has them.
TEST(ResultWorking, ShowsEveryStepWithTheLineOfEachInput) {
  const std::string text = working(laboratory_book());
  EXPECT_HAS(text,
             "  dust   [results.csv:2]\n"
             "    found = weight after - weight before = 15.842 - 15.31 = 0.5320 mg\n"
             "    u of it = 0.0133 mg, the expanded uncertainty over 2, the usual factor, for none is written\n"
             "    Field blanks of its batch, 2 for 1 sample:\n"
             "      B1: 0.007000 mg, limit 0.03 mg   [results.csv:3]\n"
             "      B2: 0.005000 mg, limit 0.03 mg   [results.csv:4]\n"
             "    mean of them = 0.006000 mg, s (n - 1) = 0.001414 mg\n"
             "    limit of the laboratory: 0.03 mg\n"
             "    m = found - mean of the blanks = 0.5320 mg - 0.006000 mg = 0.5260 mg\n"
             "    Practice blank_correction = mean, by the book: The client asked for it. [book.toml:3:1]\n"
             "    u of the blank that is taken off = 0.00173 mg, by s x √(1 + 1/2)\n"
             "    c = 1000 x 0.5260 mg / 887.25 L = 0.5928 mg/m3, in air at actual conditions\n"
             "    u = ");
  EXPECT_HAS(text, " %, by the amount, the blanks and the volume\n");
  EXPECT_HAS(text,
             "  No concentration is held to a limit of exposure here: that takes the method, the law and whoever knows "
             "the work.\n");
}

// derived: 0.03 mg in 887.25 L.
TEST(ResultWorking, KeepsLessThan) {
  const std::string text = working(laboratory_book(by_amount + "S1,dust,<0.03,,,\n"));
  EXPECT_HAS(text, "    found: less than 0.03 mg\n");
  EXPECT_HAS(text, "    No field blank of its batch has a result of dust.\n");
  EXPECT_HAS(text, "    From a limit nothing is taken off.\n");
  EXPECT_HAS(text, "    c < 1000 x 0.03000 mg / 887.25 L = 0.03381 mg/m3, in air at actual conditions\n");
  EXPECT_HAS(text, "    No uncertainty is stated of a concentration that is less than something.\n");
  EXPECT_HAS(working(laboratory_book(by_amount + "S1,dust,0.031,0.03,,\nB1,dust,0.01,,,\n")),
             "    It lies below the laboratory's limit, and stays less than 0.03 mg\n");
}

TEST(ResultWorking, SaysWhatIsMissing) {
  const std::string none = working(laboratory_book(by_amount + "S1,dust,0.5,,,\n"));
  EXPECT_HAS(none, "    No uncertainty of it is on record.\n");
  EXPECT_HAS(none, "    No limit of the laboratory is on record.\n");
  EXPECT_HAS(none, "    m = found - mean of the blanks can't be worked out: there is no blank\n");
  EXPECT_HAS(working(laboratory_book(by_amount + "S1,dust,0.5,,4,2\nB1,dust,0.01,,,\n")),
             "    One blank does not tell how blanks scatter: no uncertainty is stated.\n");
  EXPECT_HAS(working(laboratory_book(by_amount + "S1,dust,0.5,,,\n"), {}),
             "    m = found = 0.5000 mg: no blank is taken off\n");
  EXPECT_HAS(working(laboratory_book(by_amount + "S1,dust,x,,,\n")), "a row that it leans on can't be understood");
}

TEST(ResultWorking, NamesBlanksAboveAndBelowTheirLimits) {
  const std::string text =
      working(laboratory_book(by_amount + "S1,dust,0.5,,4,2\nB1,dust,<0.03,,,\nB2,dust,0.04,0.03,,\n"));
  EXPECT_HAS(text, "      B1: less than 0.03 mg, counted as nothing   [results.csv:3]\n");
  EXPECT_HAS(text, "      B2: 0.04000 mg, above its limit of 0.03 mg   [results.csv:4]\n");
  EXPECT_HAS(text, " and, for 1 of them, anything up to the limit of 0.03000 mg\n");
}

TEST(ResultWorking, SaysThatNoConcentrationOfAVoidSampleStands) {
  JudgedBook book(laboratory_book(), {{{Subject::result, "blank.count", "at_least", {"3"}}}});
  EXPECT_HAS(
      result_working(book.screening(), book.result("S1"), no_terminal),
      "    The sample is void: no concentration of it stands, and it is never evidence that exposure was low.\n");
}

TEST(ResultWorking, OfABlankSaysWhatItCarries) {
  const std::string text = working(laboratory_book(), {}, "B1");
  EXPECT_HAS(text, "    found = weight after - weight before = 15.004 - 14.997 = 0.007000 mg\n");
  EXPECT_HAS(text, "    A blank: what it carries speaks of the samples of its batch.\n");
  EXPECT_FALSE(has(text, "c = "));
}

// derived: 0.5 mg in 480 min x 1.7 L/min by convention, and x 1.975 L/min as measured.
TEST(ResultWorking, ShowsBesideAConventionWhatWasMeasured) {
  BookText text = nominal_book();
  text.results = by_amount + "S1,dust,0.5,,4,2\n";
  const std::string shown = working(text, {practice("flow_for_volume", "nominal")});
  EXPECT_HAS(shown, "c = 1000 x 0.5000 mg / 816.00 L = 0.6127 mg/m3");
  EXPECT_HAS(shown, "    No uncertainty is stated of it: its volume is a convention, and nobody measured it.\n");
  EXPECT_HAS(shown, "    By the volume as measured, c = 0.5274 mg/m3, u = ");
}

// derived: 0.5 mg in 480 min x 1.9 L/min, and x 2.0 L/min.
TEST(ResultWorking, ShowsBesideAMeasuredVolumeWhatTheNominalFlowWouldMake) {
  BookText text = cyclone_book("1.9");
  text.results = by_amount + "S1,dust,0.5,,4,2\n";
  const std::string shown = working(text, {}, "S1", {cyclone_sampler()});
  EXPECT_HAS(shown, "c = 1000 x 0.5000 mg / 912.00 L = 0.5482 mg/m3");
  EXPECT_HAS(shown,
             "    By the nominal flow, c = 0.5208 mg/m3; what either volume is off by, the model of the sampler "
             "says above\n");
}

TEST(ResultWorking, CountsFibres) {
  BookText text = laboratory_book("sample,analyte,amount [fibres]\nS1,fibres,42000\n");
  EXPECT_HAS(working(text, {}),
             "c = 42000 fibres / (1000 x 887.25 L) = 0.04734 fibres/cm3, in air at actual conditions\n");
}

TEST(ResultWorking, IsOnlyItsClosingSentenceWithoutAny) { EXPECT_FALSE(has(working(BookText(), {}), "[")); }

// derived: 0.532 mg less (0.002 + 0.004) / 2 mg. The uncertainties: regression, no check here;
// assessment/laboratory_figures_test.cpp has them.
TEST(ResultWorking, ShowsTheBalanceAndTheControlFilters) {
  const std::string text = working(weighing_book(), {practice("control_correction", "mean")});
  EXPECT_HAS(
      text,
      "    found = weight after - weight before = 15.842 - 15.31 = 0.5320 mg\n"
      "    weight before taken on 2026-09-14: certificate M1 [certificates/balances.csv:2], due on 2026-09-20; u of "
      "the weight = 0.00203 mg\n"
      "    weight after taken on 2026-09-28: certificate M2 [certificates/balances.csv:4], due on 2027-09-20; u of "
      "the weight = 0.00417 mg\n"
      "    u of it = √(0.00417² + 0.00203²) = 0.00464 mg, by the balance's certificate, for the row states none\n");
  EXPECT_HAS(text,
             "    Control filters weighed with its batch, 2:\n"
             "      CF-1: 0.002000 mg   [results.csv:4]\n"
             "      CF-2: 0.004000 mg   [results.csv:5]\n"
             "    mean change = 0.003000 mg, s (n - 1) = 0.001414 mg\n");
  EXPECT_HAS(text, "    m = found - mean change of the control filters = 0.5320 mg - 0.003000 mg = 0.5290 mg\n");
  EXPECT_HAS(text, "    u of what is taken off = 0.00173 mg, by s x √(1 + 1/2)\n");
  EXPECT_HAS(text, " %, by the amount, the control filters and the volume\n");
  EXPECT_HAS(
      working(weighing_book(), {practice("control_correction", "mean"), practice("blank_correction", "mean")}),
      "    The control filters are not taken off beside the blanks: what the weighing room did is in these, too.\n");
  EXPECT_HAS(working(weighing_book(), {}), "    m = found = 0.5320 mg: no blank is taken off\n");
}

TEST(ResultWorking, SaysWhatIsNotKnownOfTheWeighing) {
  const std::string head = "sample,analyte,before [mg],after [mg],balance,weighed before,weighed after,reported\n";
  EXPECT_HAS(working(weighing_book(head + "S1,dust,15,16,MB-2,2025-08-31,2026-09-21,\n")),
             "    weight before taken on 2025-08-31: no certificate of MB-2 was in force\n");
  EXPECT_HAS(working(weighing_book(head + "S1,dust,15,16,MB-2,,,\n")),
             "    When it was weighed nobody says: which certificate of MB-2 was in force is not known.\n");
  const std::string reported = working(weighing_book(head + "S1,dust,15,16,MB-2,,,2027-09-21\n"));
  EXPECT_HAS(reported,
             "    weight before taken on 2027-09-21, as the one after, for no day is written: certificate M2 ");
  EXPECT_HAS(reported,
             "    weight after taken on 2027-09-21, the day of the report, for no other is written: certificate M2 "
             "[certificates/balances.csv:4], overdue since 2027-09-20; u of the weight = ");
  const std::vector<PracticeChoice> off{practice("control_correction", "mean")};
  EXPECT_HAS(working(weighing_book(head + "S1,dust,15,16,,,,\n"), off),
             "    m = found - mean change of the control filters can't be worked out: there is no control filter\n");
}

}  // namespace
}  // namespace driftwarden::result_working_test
