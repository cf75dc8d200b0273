// SPDX-License-Identifier: MIT
#include "assessment/calibrator_knowledge.hpp"

#include <gtest/gtest.h>

#include "assessment/worked_budget.hpp"
#include "book/stamp_text.hpp"
#include "support/book_text.hpp"

namespace driftwarden::calibrator_knowledge_test {
namespace {

constexpr Day first_of_july = 20635;  // 2026-07-01

// V1 has two certificates (+1 % from January, +2 % from July, the second without a due date) and is calibrated every
// 100 days; R1 is a rotameter whose scale was drawn for 20 °C and 101.325 kPa.
BookText two_certificates() {
  BookText text;
  text.instruments =
      "instrument,kind,principle,interval [d],scale temperature [°C],scale pressure [kPa]\n"
      "P1,pump,,,,\n"
      "V1,calibrator,volumetric,100,,\n"
      "R1,calibrator,rotameter,,20,101.325\n"
      "V9,calibrator,volumetric,,,\n";
  text.certificates =
      "certificate,instrument,calibrated,due,nominal [L/min],reference [L/min],as left [L/min]\n"
      "old,V1,2026-01-05,2026-04-01,2,2,2.02\n"
      "new,V1,2026-07-01,,2,2,2.04\n"
      "scale,R1,2026-01-05,,2,2,2\n";
  text.readings =
      "taken,stage,sample,calibrator,reading [L/min],temperature [°C],pressure [kPa]\n"
      "2026-09-21T07:30,pre,S1,V1,2.04,20,100\n"
      "2026-09-21T07:31,pre,S1,R1,2.00,5,84.5\n"
      "2026-09-21T07:32,pre,S1,R1,2.00,5,\n";
  return text;
}

TEST(CalibratorKnowledge, CertificateInForceIsTheNewestOnOrBeforeTheDay) {
  const Book book = book_of(two_certificates());
  const CalibratorKnowledge knowledge(book);
  const auto name_on = [&](Day day) {
    const std::int32_t certificate = knowledge.certificate(1, day);
    return certificate < 0 ? "" : book.certificates[static_cast<std::size_t>(certificate)].name;
  };
  EXPECT_EQ(date_text(first_of_july), "2026-07-01");
  EXPECT_EQ(name_on(first_of_july - 1), "old");
  EXPECT_EQ(name_on(first_of_july), "new");
  EXPECT_EQ(name_on(day_from({2026, 1, 4})), "");
}

TEST(CalibratorKnowledge, AReadingLeansOnTheCertificateOfItsOwnDay) {
  BookText text = two_certificates();
  text.readings =
      "taken,stage,sample,calibrator,reading [L/min]\n"
      "2026-06-30T23:59,pre,S1,V1,2.04\n2026-07-01T00:00,pre,S1,V1,2.04\n2026-07-01T00:01,pre,S1,V9,2.04\n"
      "2026-07-01T00:02,pre,S1,nobody,2.04\n";
  const Book book = book_of(text);
  const CalibratorKnowledge knowledge(book);
  EXPECT_EQ(knowledge.certificate_of(0), 0);
  EXPECT_EQ(knowledge.certificate_of(1), 1);
  EXPECT_EQ(knowledge.certificate_of(2), -1);
  EXPECT_EQ(knowledge.certificate_of(3), -1);
  const std::vector<Row> rows{0, 0, 1, 2, 1, 3};
  EXPECT_EQ(knowledge.certificates_of(rows), (std::vector<std::int32_t>{0, 1, -1}));
}

TEST(CalibratorKnowledge, HasTheErrorsOfEachCertificateAndNoneWithoutOne) {
  const Book book = book_of(two_certificates());
  const CalibratorKnowledge knowledge(book);
  ASSERT_EQ(knowledge.curve(0).size(), 1U);
  EXPECT_NEAR(knowledge.curve(0)[0].error, 0.01, 1e-12);
  EXPECT_NEAR(knowledge.curve(1)[0].error, 0.02, 1e-12);
  EXPECT_TRUE(knowledge.curve(-1).empty());
}

TEST(CalibratorKnowledge, DueIsTheCertificatesDayElseTheInstrumentsIntervalElseUnknown) {
  const Book book = book_of(two_certificates());
  const CalibratorKnowledge knowledge(book);
  EXPECT_EQ(date_text(knowledge.due(0)), "2026-04-01");
  EXPECT_EQ(date_text(knowledge.due(1)), "2026-10-09");  // 100 days after the first of July
  EXPECT_EQ(knowledge.due(2), no_day);
}

TEST(CalibratorKnowledge, CorrectsByTheCertificateItIsGiven) {
  const Book book = book_of(two_certificates());
  const CalibratorKnowledge knowledge(book);
  EXPECT_NEAR(knowledge.correct(0, 1, {}).actual_l_min, 2.0, 1e-12);
  EXPECT_NEAR(knowledge.correct(0, 0, {}).actual_l_min, 2.04 / 1.01, 1e-12);
  EXPECT_EQ(knowledge.correct(0, -1, {}).actual_l_min, 2.04);
}

// own input: 2.1333 L/min by NMAM 4th edition, chapter D, section 7.a, step 7; computed with Python 3.11 by
// tests/support/computed_corrections.py.
TEST(CalibratorKnowledge, CorrectsByThePrincipleOfTheReadingsCalibrator) {
  const Book book = book_of(two_certificates());
  const CalibratorKnowledge knowledge(book);
  EXPECT_NEAR(knowledge.correct(1, 2, {}).actual_l_min, 2.1333, 0.5e-4);
  EXPECT_EQ(knowledge.correct(2, 2, {}).lack, CorrectedReading::Lack::pressure);
}

// own input: the pressure at 1500 m by US Standard Atmosphere 1976, equation 33a, and the rotameter's flow there;
// computed with Python 3.11 by tests/support/computed_corrections.py.
TEST(CalibratorKnowledge, TakesThePressureOfTheSitesAltitudeOnlyWhereNoneWasRead) {
  BookText text = two_certificates();
  text.settings += "[site]\naltitude = \"1500 m\"\n";
  const Book book = book_of(text);
  const CalibratorKnowledge knowledge(book);
  bool is_from_altitude = false;
  EXPECT_EQ(knowledge.pressure_kpa(1, is_from_altitude), 84.5);
  EXPECT_FALSE(is_from_altitude);
  EXPECT_NEAR(knowledge.pressure_kpa(2, is_from_altitude), 84.556, 0.5e-3);
  EXPECT_TRUE(is_from_altitude);
  EXPECT_NEAR(knowledge.correct(2, 2, {}).actual_l_min, 2.1326, 0.5e-4);
}

TEST(CalibratorKnowledge, HasNoPressureWithoutAReadingAndWithoutAnAltitude) {
  const Book book = book_of(two_certificates());
  const CalibratorKnowledge knowledge(book);
  bool is_from_altitude = false;
  EXPECT_TRUE(is_missing(knowledge.pressure_kpa(2, is_from_altitude)));
  EXPECT_FALSE(is_from_altitude);
  EXPECT_FALSE(knowledge.site_pressure_kpa().has_value());
}

// A critical orifice without scale conditions of its own keeps the temperature of its certificate: 2.00 L/min at 20 °C
// is 2.0505 at 35 °C.
// own input: choked flow; computed with Python 3.11 by tests/support/computed_corrections.py.
TEST(CalibratorKnowledge, AnOrificeWithoutAScaleTemperatureHasThatOfItsCertificate) {
  BookText text;
  text.instruments = "instrument,kind,principle\nP1,pump,\nO1,calibrator,orifice\n";
  text.certificates =
      "certificate,instrument,calibrated,temperature [°C],nominal [L/min],reference [L/min],as left [L/min]\n"
      "C1,O1,2026-01-05,20,2,2,2\n";
  text.readings =
      "taken,stage,sample,calibrator,reading [L/min],temperature [°C]\n"
      "2026-09-21T07:30,pre,S1,O1,2.00,35\n";
  const Book book = book_of(text);
  const CalibratorKnowledge knowledge(book);
  EXPECT_NEAR(knowledge.correct(0, 0, {}).actual_l_min, 2.0505, 0.5e-4);
  EXPECT_EQ(knowledge.correct(0, -1, {}).lack, CorrectedReading::Lack::scale_conditions);
}

TEST(CalibratorKnowledge, KnowsTheFaultOfAnInstrumentBeforeThatOfItsCertificate) {
  BookText text = two_certificates();
  text.instruments += "V8,calibrator,volumetric,ten,,\n";
  text.certificates += "bad,V9,2026-01-05,,2,two,2\nfine,V8,2026-01-05,,2,2,2\n";
  const Book book = book_of(text);
  const CalibratorKnowledge knowledge(book);
  const auto id = [&](ProblemNumber problem) {
    return problem == no_problem ? "" : book.problems[problem - 1].id + " " + book.problems[problem - 1].place.file;
  };
  EXPECT_EQ(id(knowledge.problem(3, 3)), "cell/not-a-number certificates.csv");
  EXPECT_EQ(id(knowledge.problem(4, 4)), "cell/not-a-number instruments.csv");
  EXPECT_EQ(id(knowledge.problem(1, 0)), "");
  EXPECT_EQ(id(knowledge.problem(1, -1)), "");
  EXPECT_EQ(id(knowledge.problem(no_row, 0)), "");
}

// The older certificate stands second; it was left without error, and a year later 0.4 % were found.
BookText moved_in_a_year() {
  BookText text = two_certificates();
  text.certificates =
      "certificate,instrument,calibrated,nominal [L/min],reference [L/min],as found [L/min],as left [L/min]\n"
      "new,V1,2026-01-05,2,2,2.008,2\nold,V1,2025-01-05,2,2,,2\n";
  return text;
}

// derived: 0.4 % in 365 days are 0.04 % in 36.5.
TEST(CalibratorKnowledge, KnowsHowFarAnErrorMayHaveMoved) {
  const Book book = book_of(moved_in_a_year());
  const CalibratorKnowledge knowledge(book);
  const Day calibrated = day_from({2026, 1, 5});
  EXPECT_NEAR(knowledge.moved_since(0, 1, calibrated + 73).u, 0.0008, 1e-12);
  EXPECT_EQ(knowledge.moved_since(0, 1, calibrated + 73).dof, 1);
  EXPECT_TRUE(is_missing(knowledge.moved_since(1, 1, calibrated - 1).u));
  EXPECT_TRUE(is_missing(knowledge.moved_since(-1, 1, calibrated).u));
}

SupposedErrors three_percent_from(Day from) {
  SupposedErrors supposed;
  supposed.instrument = 1;  // V1
  supposed.from = from;
  supposed.until = from + 100;
  supposed.by_day = {{{2.0, 0.03}}};
  return supposed;
}

// own input: the rotameter's flow as above; computed with Python 3.11 by tests/support/computed_corrections.py.
TEST(CalibratorKnowledge, CorrectsByASupposedErrorOnItsDays) {
  const Book book = book_of(two_certificates());
  const Day read = day_from({2026, 9, 21});
  const CalibratorKnowledge then(book, three_percent_from(read));
  EXPECT_NEAR(then.correct(0, 1, {}).actual_l_min, 2.04 / 1.03, 1e-12);
  EXPECT_EQ(then.curve_for(0, 1)[0].error, 0.03);
  EXPECT_NEAR(then.correct(1, 2, {}).actual_l_min, 2.1333, 0.5e-4);  // another calibrator's, as without
  const CalibratorKnowledge later(book, three_percent_from(read + 1));
  EXPECT_NEAR(later.correct(0, 1, {}).actual_l_min, 2.0, 1e-12);
  EXPECT_NEAR(later.curve_for(0, 1)[0].error, 0.02, 1e-12);
}

// derived: as above. What is supposed of a standard says nothing of how the calibrator moved since.
TEST(CalibratorKnowledge, AnErrorThatIsItselfSupposedHasNotMoved) {
  const Book book = book_of(moved_in_a_year());
  const Day day = day_from({2026, 1, 5}) + 73;
  EXPECT_EQ(CalibratorKnowledge(book, three_percent_from(day)).moved_since(0, 1, day).u, 0);
  EXPECT_NEAR(CalibratorKnowledge(book, three_percent_from(day + 1)).moved_since(0, 1, day).u, 0.0008, 1e-12);
  SupposedErrors of_standard = three_percent_from(day);
  of_standard.instrument = 3;
  of_standard.by_certificate[0] = {{2.0, 0.03}};
  EXPECT_NEAR(CalibratorKnowledge(book, of_standard).moved_since(0, 1, day).u, 0.0008, 1e-12);
}

TEST(CalibratorKnowledge, AScaleTemperatureOfItsOwnIsNotThatOfTheCertificate) {
  BookText text = two_certificates();
  text.certificates =
      "certificate,instrument,calibrated,temperature [°C],nominal [L/min],reference [L/min],as left [L/min]\n"
      "C1,R1,2026-01-05,25,2,2,2\nC2,V1,2026-01-05,25,2,2,2\n";
  const Book book = book_of(text);
  const CalibratorKnowledge knowledge(book);
  EXPECT_NEAR(knowledge.scale_temperature(2, 0)->kelvin, 293.15, 1e-9);
  EXPECT_NEAR(knowledge.scale_temperature(1, 1)->kelvin, 298.15, 1e-9);
  EXPECT_FALSE(knowledge.scale_temperature(1, -1).has_value());
}

TEST(CalibratorKnowledge, PutsTheConditionsOfAReadingIntoItsCorrection) {
  BookText text = two_certificates();
  replace_all(text.instruments, "V1,calibrator,volumetric", "V1,calibrator,bubble");
  text.readings =
      "taken,stage,sample,calibrator,reading [L/min],temperature [°C],pressure [kPa],humidity [%]\n"
      "2026-09-21T07:30,pre,S1,V1,2.04,20,100,45\n";
  const Book book = book_of(text);
  const CalibratorKnowledge knowledge(book);
  ToCorrect reading = knowledge.in_common(1, 1, {});
  knowledge.put_conditions(0, reading);
  EXPECT_NEAR(reading.inputs.temperature_k, 293.15, 1e-9);
  EXPECT_NEAR(reading.inputs.pressure_kpa, 100, 1e-9);
  EXPECT_NEAR(reading.inputs.humidity, 0.45, 1e-12);
}

TEST(CalibratorKnowledge, AReadingWithoutATimeLeansOnNoCertificate) {
  BookText text = two_certificates();
  replace_all(text.readings, "2026-09-21T07:30", "2026-09-2O");
  const Book book = book_of(text);
  EXPECT_EQ(CalibratorKnowledge(book).certificate_of(0), -1);
}

}  // namespace
}  // namespace driftwarden::calibrator_knowledge_test
