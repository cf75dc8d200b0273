// SPDX-License-Identifier: MIT
#include "verdict/calibrator_display.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "support/book_text.hpp"

namespace driftwarden::calibrator_display_test {
namespace {

// input: calibrators of every principle and their certificates.

BookText calibrators() {
  BookText text;
  text.instruments =
      "instrument,kind,principle,scale temperature [°C],scale pressure [kPa],resolution [L/min],interval [d]\n"
      "P1,pump,,,,,\n"
      "V1,calibrator,volumetric,,,0.001,365\n"
      "bubble,calibrator,bubble,,,0.001,365\n"
      "rotameter,calibrator,rotameter,20,101.325,0.05,365\n"
      "mass,calibrator,mass,0,101.325,0.01,365\n"
      "orifice,calibrator,orifice,20,101.325,,365\n";
  text.certificates = "certificate,instrument,calibrated,nominal [L/min],reference [L/min],as left [L/min]\n";
  for (const char* name : {"V1", "bubble", "rotameter", "mass", "orifice"}) {
    for (const char* point : {"1,1,1.01", "2,2,2.03", "3,3,2.98"})
      text.certificates += std::string("C-") + name + "," + name + ",2026-01-05," + point + "\n";
  }
  text.plan = "sample,batch\n";
  return text;
}

Row row_named(const Book& book, std::string_view name) {
  for (Row row = 0; row < book.instruments.size(); ++row) {
    if (book.instruments[row].name == name) return row;
  }
  return no_row;
}

constexpr Day in_september = 20717;
const FlowBand five_percent_of_2{1.9, 2.1, true};

// What the sheet tells, sent back through the corrections: the nominal flow within a step of the display; ends that
// keep the band, and one step further does not.
TEST(CalibratorDisplay, ComesBackThroughTheCorrectionsForEachPrinciple) {
  JudgedBook book(calibrators());
  for (const char* name : {"V1", "bubble", "rotameter", "mass", "orifice"}) {
    const CalibratorDisplay display(book.screening(), row_named(book.book(), name), in_september);
    for (const double temperature_k : {263.15, 283.15, 308.15}) {
      for (const double pressure_kpa : {70.0, 84.5, 101.325}) {
        const AirAhead air{temperature_k, pressure_kpa, 0.4};
        const DisplayBand shown = display.should_show(2.0, five_percent_of_2, air);
        const double step = display.step_l_min();
        const double per_step =
            display.actual_l_min(shown.nominal + step, air) - display.actual_l_min(shown.nominal, air);
        const std::string where = std::string(name) + " at " + std::to_string(temperature_k) + " K";
        EXPECT_NEAR(display.actual_l_min(shown.nominal, air), 2.0, 0.501 * per_step) << where;
        EXPECT_TRUE(five_percent_of_2.holds(display.actual_l_min(shown.low, air))) << where;
        EXPECT_TRUE(five_percent_of_2.holds(display.actual_l_min(shown.high, air))) << where;
        EXPECT_FALSE(five_percent_of_2.holds(display.actual_l_min(shown.low - step, air))) << where;
        EXPECT_FALSE(five_percent_of_2.holds(display.actual_l_min(shown.high + step, air))) << where;
      }
    }
  }
}

TEST(CalibratorDisplay, ShowsWholeStepsOfItsOwn) {
  JudgedBook book(calibrators());
  const CalibratorDisplay rotameter(book.screening(), row_named(book.book(), "rotameter"), in_september);
  EXPECT_EQ(rotameter.step_l_min(), 0.05);
  EXPECT_EQ(rotameter.decimals(), 2);
  EXPECT_TRUE(rotameter.has_own_step());
  const double nominal = rotameter.should_show(2.0, {}, {283.15, 84.5, missing}).nominal / 0.05;
  EXPECT_NEAR(nominal, std::round(nominal), 1e-9);
  const CalibratorDisplay orifice(book.screening(), row_named(book.book(), "orifice"), in_september);
  EXPECT_FALSE(orifice.has_own_step());
  EXPECT_EQ(orifice.decimals(), 3);
}

TEST(CalibratorDisplay, HasNoEndWhereThereIsNone) {
  JudgedBook book(calibrators());
  const CalibratorDisplay display(book.screening(), row_named(book.book(), "V1"), in_september);
  const DisplayBand shown = display.should_show(2.0, {1.9, std::numeric_limits<double>::infinity(), true}, {});
  EXPECT_FALSE(is_missing(shown.low));
  EXPECT_TRUE(is_missing(shown.high));
}

TEST(CalibratorDisplay, LeavesOutAnEndThatIsExcluded) {
  BookText text = calibrators();
  text.certificates =
      "certificate,instrument,calibrated,nominal [L/min],reference [L/min],as left [L/min]\nC,V1,2026-01-05,2,2,2\n";
  JudgedBook book(text);
  const CalibratorDisplay display(book.screening(), row_named(book.book(), "V1"), in_september);
  EXPECT_NEAR(display.should_show(2.0, {1.9, 2.1, true, false}, {}).high, 2.099, 1e-12);
  EXPECT_NEAR(display.should_show(2.0, {1.9, 2.1, true}, {}).low, 1.900, 1e-12);
  EXPECT_NEAR(display.should_show(2.0, {1.9, 2.1, false, true}, {}).low, 1.901, 1e-12);
  EXPECT_NEAR(display.should_show(2.0, {1.9, 2.1, false, true}, {}).high, 2.100, 1e-12);
}

TEST(CalibratorDisplay, SaysWhereNoStepOfItLiesInTheBand) {
  JudgedBook book(calibrators());
  const CalibratorDisplay display(book.screening(), row_named(book.book(), "V1"), in_september);
  EXPECT_TRUE(display.should_show(2.0, {2.0001, 2.0009}, {}).has_no_step);
  EXPECT_FALSE(display.should_show(2.0, {1.9, 2.1}, {}).has_no_step);
  EXPECT_FALSE(display.should_show(2.0, {}, {}).has_no_step);
}

TEST(CalibratorDisplay, SaysWhatLacks) {
  JudgedBook book(calibrators());
  const CalibratorDisplay rotameter(book.screening(), row_named(book.book(), "rotameter"), in_september);
  const DisplayBand shown = rotameter.should_show(2.0, five_percent_of_2, {missing, 84.5, missing});
  EXPECT_TRUE(is_missing(shown.nominal));
  EXPECT_TRUE(is_missing(shown.low));
  EXPECT_EQ(shown.lack, FactorLack::temperature);
}

}  // namespace
}  // namespace driftwarden::calibrator_display_test
