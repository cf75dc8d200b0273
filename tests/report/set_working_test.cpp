// SPDX-License-Identifier: MIT
#include "report/set_working.hpp"

#include <gtest/gtest.h>

#include "support/book_text.hpp"

namespace driftwarden::set_working_test {
namespace {

// input: figures to be written in percent.

std::string working(const BookText& text, const RulesText& rules = {}) {
  JudgedBook book(text, rules);
  const SampleResult& result = book.result("S1");
  std::size_t next_step = 0;
  return set_working(book.screening(), result, result.figures->sets.front(), next_step);
}

bool has(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }

BookText read_by(const std::string& instrument, const std::string& certificate, const std::string& reading) {
  BookText text;
  text.instruments =
      "instrument,kind,principle,serial,scale temperature [°C],scale pressure [kPa],read at\nP1,pump,,,,,\n" +
      instrument + "\n";
  text.certificates =
      certificate.empty()
          ? ""
          : "certificate,instrument,calibrated,due,standard,temperature [°C],nominal [L/min],reference [L/min],as left "
            "[L/min]\n" +
                certificate + "\n";
  text.readings =
      "taken,stage,sample,calibrator,reading [L/min],temperature [°C],pressure [kPa],humidity [%],void,note\n" +
      reading + "\n";
  return text;
}

// 2.1333 L/min was computed outside this program from NMAM 4th ed. Ch. D §7a(7).
TEST(ReadingSteps, ShowTheWholeWayOfARotametersReading) {
  EXPECT_EQ(
      working(read_by("R1,calibrator,rotameter,R-17,20,101.325,centre",
                      "C1,R1,2026-01-05,2027-01-05,LAB,20,2,2.00,2.02", "2026-09-21T07:30,pre,S1,R1,2.02,5,84.5,,,")),
      "  Calibrator R1, rotameter, serial R-17, scale drawn for 20.00 °C, 101.325 kPa, read at the centre of the float "
      "  "
      "[instruments.csv:3]\n"
      "  Certificate C1, calibrated 2026-01-05, due 2027-01-05, against LAB   [certificates.csv:2]\n"
      "    error e = (indicated - reference) / reference: +1.000 % at 2.02000\n"
      "  2026-09-21T07:30+00:00  indicated 2.02000 L/min at 5.00 °C, 84.500 kPa   [readings.csv:2]\n"
      "      certificate  2.02000 / (1 + 0.010000) = 2.00000\n"
      "      rotameter    2.00000 x √((101.325 / 84.500) x (278.15 / 293.15)) = x 1.066656 = 2.13331 L/min actual\n"
      "  n = 1, mean = 2.13331 L/min, s (n - 1) = none, range = 0.00000 L/min\n");
}

// A formula that is not the one followed would be worse than none.
TEST(ReadingSteps, ShowNoFormulaOfACorrectionThatIsNotPractised) {
  const BookText text =
      read_by("R1,calibrator,rotameter,,20,101.325,", "", "2026-09-21T07:30,pre,S1,R1,2.00,5,84.5,,,");
  const std::string never = working(text, {{}, {}, {practice("rotameter_correction", "never")}});
  EXPECT_TRUE(has(never, "rotameter    x 1 (rotameter_correction is 'never') = 2.00000 L/min actual\n")) << never;
  EXPECT_FALSE(has(never, "√"));
  const BookText near =
      read_by("R1,calibrator,rotameter,,20,101.325,", "", "2026-09-21T07:30,pre,S1,R1,2.00,21,100,,,");
  const std::string beyond = working(near, {{}, {}, {practice("rotameter_correction", "beyond 5 %")}});
  EXPECT_TRUE(has(beyond, "rotameter    x 1 (rotameter_correction is 'beyond 5 %') = 2.00000 L/min actual\n"))
      << beyond;
  EXPECT_TRUE(has(working(text, {{}, {}, {practice("rotameter_correction", "beyond 5 %")}}), "√((101.325 / 84.500)"));
}

// 2.000 of a meter whose standard conditions are 0 °C, 101.325 kPa is 2.1830 L/min at 25 °C: computed outside this
// program.
TEST(ReadingSteps, ShowTheRatiosOfAMassMeter) {
  const std::string text =
      working(read_by("M1,calibrator,mass,,0,101.325,", "", "2026-09-21T07:30,pre,S1,M1,2.000,25,101.325,,,"));
  EXPECT_TRUE(
      has(text, "mass         2.00000 x (101.325 / 101.325) x (298.15 / 273.15) = x 1.091525 = 2.18305 L/min actual\n"))
      << text;
  EXPECT_TRUE(has(text, "standard conditions 0.00 °C, 101.325 kPa")) << text;
}

TEST(ReadingSteps, ShowTheRootOfAnOrifice) {
  const std::string text =
      working(read_by("O1,calibrator,orifice,,20,,", "", "2026-09-21T07:30,pre,S1,O1,2.00,35,100,,,"));
  EXPECT_TRUE(has(text, "orifice      2.00000 x √(308.15 / 293.15) = x 1.025265 = 2.05053 L/min actual\n")) << text;
}

TEST(ReadingSteps, OfAnOrificeTakeTheTemperatureOfTheCertificateWhereItHasNone) {
  const std::string text = working(read_by("O1,calibrator,orifice,,,,", "C1,O1,2026-01-05,,,20,2,2.00,2.00",
                                           "2026-09-21T07:30,pre,S1,O1,2.00,35,100,,,"));
  EXPECT_TRUE(has(text, "orifice      2.00000 x √(308.15 / 293.15) = x 1.025265 = 2.05053 L/min actual\n")) << text;
}

// 1.9715 and 1.9438 L/min of 2.000 at 23.0 °C, 100.0 kPa, 50 % were computed outside this program from Dalton's law.
TEST(ReadingSteps, ShowTheVapourOfASoapBubble) {
  const BookText text = read_by("B1,calibrator,bubble,,,,", "", "2026-09-21T07:30,pre,S1,B1,2.000,23,100,50,,");
  const std::string none = working(text);
  EXPECT_TRUE(has(none, "bubble       x 1 (bubble_humidity is 'none') = 2.00000 L/min actual\n")) << none;
  EXPECT_TRUE(
      has(none, "humidity     a correction to the ambient humidity would change it by -1.426 %; not practised\n"))
      << none;
  const std::string ambient = working(text, {{}, {}, {practice("bubble_humidity", "ambient")}});
  EXPECT_TRUE(has(ambient, "x (100.000 - 2.8110) / (100.000 - 0.500 x 2.8110) = x 0.985")) << ambient;
  EXPECT_TRUE(has(ambient, "= 1.97149 L/min actual\n")) << ambient;
  const std::string dry = working(text, {{}, {}, {practice("bubble_humidity", "dry")}});
  EXPECT_TRUE(has(dry, "x (100.000 - 2.8110) / 100.000 = x 0.971890 = 1.94378 L/min actual\n")) << dry;
  EXPECT_FALSE(has(dry, "not practised")) << dry;
}

TEST(ReadingSteps, SayThatConditionsAreMissing) {
  const std::string text =
      working(read_by("M1,calibrator,mass,,0,101.325,", "", "2026-09-21T07:30,pre,S1,M1,2.000,25,,,,"));
  EXPECT_TRUE(has(text, "at 25.00 °C, no pressure")) << text;
  EXPECT_TRUE(has(text, "mass         can't be corrected: conditions are missing\n")) << text;
  EXPECT_TRUE(has(text, "mean = missing")) << text;
}

TEST(ReadingSteps, SayWhenThePressureIsThatOfTheAltitude) {
  BookText text = read_by("M1,calibrator,mass,,0,101.325,", "", "2026-09-21T07:30,pre,S1,M1,2.000,25,,,,");
  text.settings += "[site]\naltitude = \"1500 m\"\n";
  EXPECT_TRUE(has(working(text), "84.556 kPa (by altitude)")) << working(text);
}

TEST(ReadingSteps, SayThatThereIsNoCertificate) {
  const std::string text =
      working(read_by("V1,calibrator,volumetric,,,,", "", "2026-09-21T07:30,pre,S1,V1,2.000,,,,,"));
  EXPECT_TRUE(has(text, "  No certificate in force: readings are taken as shown.\n")) << text;
  EXPECT_TRUE(has(text, "      volumetric   x 1 = 2.00000 L/min actual\n")) << text;
}

TEST(ReadingSteps, ShowVoidReadingsWithTheirReasonAndLeaveThemOut) {
  const std::string text =
      working(read_by("V1,calibrator,volumetric,,,,", "",
                      "2026-09-21T07:30,pre,S1,V1,2.000,,,,,\n2026-09-21T07:31,pre,S1,V1,9.000,,,,yes,knocked"));
  EXPECT_TRUE(has(text,
                  "indicated 9.00000 L/min at no temperature, no pressure   [readings.csv:3]\n      void, left out of "
                  "the mean: knocked\n"))
      << text;
  EXPECT_TRUE(has(text, "n = 1, mean = 2.00000")) << text;
}

TEST(ReadingSteps, ShowRejectedReadingsAndLeaveThemOut) {
  const std::string text =
      working(read_by("V1,calibrator,volumetric,,,,", "",
                      "2026-09-21T07:30,pre,S1,V1,2.000,,,,,\n2026-09-21T07:31,pre,S1,V1,2.O00,,,,,"));
  EXPECT_TRUE(has(text, "  indicated nothing readable at no temperature, no pressure   [readings.csv:3]\n")) << text;
  EXPECT_TRUE(has(text, "[readings.csv:3]\n      rejected, left out: see the faults of the book\n")) << text;
}

TEST(ReadingSteps, UseTheCertificateOfTheReadingsOwnDay) {
  BookText text = read_by("V1,calibrator,volumetric,,,,", "C1,V1,2026-01-05,,,,2,2,2.02\nC2,V1,2026-09-22,,,,2,2,2.08",
                          "2026-09-21T23:50,pre,S1,V1,2.02,,,,,\n2026-09-22T00:10,pre,S1,V1,2.08,,,,,");
  text.samples = "sample,pump,started,stopped\nS1,P1,2026-09-22T00:30,2026-09-22T08:00\n";
  EXPECT_TRUE(has(working(text), "certificate  2.02000 / (1 + 0.010000) = 2.00000\n")) << working(text);
  EXPECT_TRUE(has(working(text), "certificate  2.08000 / (1 + 0.040000) = 2.00000\n")) << working(text);
}

TEST(ReadingSteps, NameEveryCertificateTheyUse) {
  BookText text = read_by("V1,calibrator,volumetric,,,,", "C1,V1,2026-01-05,,,,2,2,2.02\nC2,V1,2026-09-22,,,,2,2,2.08",
                          "2026-09-21T23:50,pre,S1,V1,2.02,,,,,\n2026-09-22T00:10,pre,S1,V1,2.08,,,,,");
  text.samples = "sample,pump,started,stopped\nS1,P1,2026-09-22T00:30,2026-09-22T08:00\n";
  EXPECT_TRUE(has(working(text), "Certificate C1, calibrated 2026-01-05")) << working(text);
  EXPECT_TRUE(has(working(text), "Certificate C2, calibrated 2026-09-22")) << working(text);
}

TEST(FlowText, HasFiveDecimalsOrSaysMissing) {
  EXPECT_EQ(flow_text(2), "2.00000");
  EXPECT_EQ(flow_text(missing), "missing");
}

}  // namespace
}  // namespace driftwarden::set_working_test
