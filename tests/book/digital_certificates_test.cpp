// SPDX-License-Identifier: MIT
#include "book/digital_certificates.hpp"

#include <gtest/gtest.h>

#include "book/written_book.hpp"
#include "book/written_certificate.hpp"

namespace driftwarden::digital_certificates_test {
namespace {

// echo: what the documents of tests/book/dcc say.

// A book with these documents among its certificates.
class DocumentedBook : public WrittenBook {
 public:
  DocumentedBook() {
    file("instruments.csv",
         "instrument,kind,principle,serial\nPUMP-1,pump,,TF-1\nVOL-1,calibrator,volumetric,VOL-1-5335\n"
         "THERM-1,thermometer,,T-6120\nBARO-1,barometer,,B-2214\n");
  }
  DocumentedBook& holds(const std::string& text) {
    file("certificates/c.xml", text);
    return *this;
  }
};

std::string faults(const std::string& document) {
  std::string errors;
  for (const Diagnostic& problem : DocumentedBook().holds(document).read().problems) {
    if (is_error(problem)) errors += to_text(problem) + '\n';
  }
  return errors;
}
std::string faults_of(const std::string& name, const std::string& what, const std::string& by) {
  return faults(dcc_with(name, what, by));
}

TEST(DigitalCertificates, FillAThermometersCertificate) {
  const Book book = DocumentedBook().holds(dcc("thermometer.xml")).read();
  ASSERT_EQ(book.certificates.size(), 1U);
  const Certificate& it = book.certificates[0];
  EXPECT_EQ(it.name, "LF-T-2026-031");
  EXPECT_EQ(it.instrument, 2U);
  EXPECT_EQ(it.calibrated, day_from({2026, 2, 3}));
  EXPECT_EQ(it.issuer, "Lower Ferrow flow laboratory");
  EXPECT_EQ(it.coverage_factor, 2.0);
  EXPECT_DOUBLE_EQ(it.temperature->kelvin, 273.15 + 21.5);
  EXPECT_FALSE(it.pressure);
  ASSERT_EQ(it.condition_points.size(), 4U);
  const ConditionPoint& point = it.condition_points[1];
  EXPECT_DOUBLE_EQ(point.reference, 273.15 + 10.02);
  EXPECT_EQ(point.nominal, point.reference);
  EXPECT_DOUBLE_EQ(*point.in_use(), 273.15 + 10.1);
  EXPECT_FALSE(point.as_left);
  EXPECT_EQ(point.expanded_uncertainty, 0.05);
  EXPECT_EQ(it.condition_points[3].expanded_uncertainty, 0.05);
  EXPECT_EQ(it.problem, no_problem);
}

TEST(DigitalCertificates, CiteTheLinesOfTheFile) {
  const Book book = DocumentedBook().holds(dcc("thermometer.xml")).read();
  const Certificate& it = book.certificates[0];
  EXPECT_EQ(book.place_text(book.files.certificates, it.place), "certificates/c.xml:14");
  EXPECT_EQ(book.place_text(book.files.certificates, it.condition_points[1].place),
            "certificates/c.xml:" + std::to_string(line_of(dcc("thermometer.xml"), "0.2 10.1 20.1 30.0")));
}

TEST(DigitalCertificates, FillACalibratorsAsFoundAndAsLeftByNominalFigures) {
  const Book book = DocumentedBook().holds(dcc("calibrator.xml")).read();
  const Certificate& it = book.certificates.at(0);
  ASSERT_EQ(it.points.size(), 2U);
  EXPECT_EQ(it.instrument, 1U);
  EXPECT_EQ(it.points[1].nominal_l_min, 2.0);
  EXPECT_EQ(it.points[1].reference_l_min, 2.001);
  EXPECT_EQ(it.points[1].as_left_l_min, 2.002);
  EXPECT_EQ(it.points[1].as_found_l_min, 2.040);
  EXPECT_EQ(it.points[1].reference_as_found_l_min, 2.004);
  EXPECT_EQ(it.points[1].expanded_uncertainty_l_min, 0.008);
  EXPECT_DOUBLE_EQ(it.temperature->kelvin, 293.25);
  EXPECT_DOUBLE_EQ(it.pressure->value, 84.23);
}

TEST(DigitalCertificates, FillABarometersFromReferenceAndError) {
  const Book book = DocumentedBook().holds(dcc("barometer.xml")).read();
  const Certificate& it = book.certificates.at(0);
  ASSERT_EQ(it.condition_points.size(), 3U);
  EXPECT_EQ(it.instrument, 3U);
  EXPECT_EQ(it.condition_points[0].reference, 80.0);
  EXPECT_DOUBLE_EQ(*it.condition_points[0].in_use(), 80.02);
  EXPECT_EQ(it.condition_points[2].expanded_uncertainty, 0.01);
}

TEST(DigitalCertificates, TellStatesByQuantityAndReadWhatIsInSeveralUnits) {
  const Book book = DocumentedBook().holds(dcc("both-in-one-list.xml")).read();
  const Certificate& it = book.certificates.at(0);
  ASSERT_EQ(it.points.size(), 2U);
  EXPECT_EQ(it.points[0].reference_l_min, 1.0);  // 60 L/h
  EXPECT_EQ(it.points[1].as_found_l_min, 2.04);  // 2040 mL/min
  EXPECT_EQ(it.points[1].as_left_l_min, 2.001);
  EXPECT_EQ(it.points[1].expanded_uncertainty_l_min, 0.008);
}

TEST(DigitalCertificates, TakeOfTwoItemsTheResultsThatReferToTheOneThatIsKnown) {
  const Book book = DocumentedBook().holds(dcc("two-items.xml")).read();
  const Certificate& it = book.certificates.at(0);
  ASSERT_EQ(it.condition_points.size(), 2U);
  EXPECT_DOUBLE_EQ(*it.condition_points[0].in_use(), 273.15 + 20.2);
}

TEST(DigitalCertificates, SayByWhatTheyWereReadAndWhatIsNotUsed) {
  EXPECT_EQ(DocumentedBook().holds(dcc("signed.xml")).faults(),
            "certificates/c.xml: remark: read as the certificate 'LF-T-2026-050' of 'THERM-1', 2 points (nothing in it "
            "tells of an adjustment), by basic_measuredValue, basic_referenceValue; not used: customer, manufacturer, "
            "performanceLocation, respPersons [dcc/read]\n"
            "certificates/c.xml: remark: it bears an XML signature, which is not checked; check it with a program for "
            "that before you lean on it [dcc/signature]\n");
  const std::string told_of_barometer = DocumentedBook().holds(dcc("barometer.xml")).faults();
  const std::string line = std::to_string(line_of(dcc("barometer.xml"), "21 43 62") - 2);
  EXPECT_NE(told_of_barometer.find("basic_measuredValue of line " + line), std::string::npos) << told_of_barometer;
  EXPECT_NE(told_of_barometer.find(" comment,"), std::string::npos) << told_of_barometer;
  EXPECT_NE(DocumentedBook().holds(dcc("calibrator.xml")).faults().find("2 points before and 2 after an adjustment"),
            std::string::npos);
}

TEST(DigitalCertificates, OfBeforeAnAdjustmentAloneCorrectNothingAndAreInDoubt) {
  std::string text = dcc("calibrator.xml");
  const std::size_t second = text.rfind("<c:measurementResult>");
  text.erase(second, text.find("</c:measurementResults>") - second);
  const Book book = DocumentedBook().holds(text).read();
  ASSERT_EQ(book.certificates.at(0).points.size(), 2U);
  for (const CertificatePoint& point : book.certificates[0].points) {
    EXPECT_TRUE(point.as_found_l_min);
    EXPECT_FALSE(point.in_use_l_min());
  }
  EXPECT_NE(told(book.problems).find("2 points before an adjustment, and none after it"), std::string::npos);
  EXPECT_EQ(
      problem_text(book, book.certificates[0].problem),
      "certificates/c.xml: error: it tells how 'VOL-1' was before an adjustment, and not how it is since; ask the "
      "laboratory for what was read after it [dcc/none-after]");
}

TEST(DigitalCertificates, AreOfTheInstrumentWithTheirSerialNumber) {
  EXPECT_EQ(
      faults_of("thermometer.xml", ">T-6120<", ">T-9<"),
      "certificates/c.xml: error: no instrument has the serial number 'T-9' ('bench thermometer'); write it in the "
      "column 'serial' of the instrument it belongs to [dcc/unknown-serial]\n");
  EXPECT_EQ(
      faults_of("thermometer.xml", ">T-6120<", "><"),
      "certificates/c.xml: error: no serial number is named of what was calibrated, 'bench thermometer'; write it "
      "in the column 'serial' of the instrument it belongs to [dcc/unknown-serial]\n");
  EXPECT_EQ(
      faults_of("calibrator.xml", ">VOL-1-5335<", ">TF-1<"),
      "certificates/c.xml: error: 'PUMP-1' is a pump and has no measuring principle, so that nothing says whether "
      "the flows are actual ones or at standard conditions; certificates are of calibrators, thermometers and "
      "barometers [dcc/no-principle]\n");
  EXPECT_EQ(
      faults_of("two-items.xml", ">T-1<", ">B-2214<"),
      "certificates/c.xml: error: its serial numbers are those of several instruments: BARO-1, THERM-1; give each "
      "instrument a serial number of its own; write the points of a certificate of several items to a CSV file "
      "[dcc/which-item]\n");
  EXPECT_EQ(
      faults_of("two-items.xml", "refId=\"b\"", ""),
      "certificates/c.xml:68:3: error: it has no points of temperature whose results refer to the item 'b'; points "
      "are lists with basic_referenceValue and basic_measuredValue; write others to a CSV file of certificates "
      "[dcc/no-points]\n");
}

TEST(DigitalCertificates, OfAnUnknownCalibratorLeaveThoseWithoutOneInDoubt) {
  const Book book = DocumentedBook().holds(dcc_with("calibrator.xml", ">VOL-1-5335<", ">V-9<")).read();
  EXPECT_NE(book.instruments[1].problem, no_problem);
}

TEST(DigitalCertificates, ThatCantBeReadLeaveCalibratorsInDoubt) {
  const Book book = DocumentedBook().holds("<a>").read();
  EXPECT_NE(problem_text(book, book.instruments[1].problem).find("[xml/unreadable]"), std::string::npos);
  EXPECT_TRUE(book.certificates.empty());
}

TEST(DigitalCertificates, WithAFaultInTheirPointsKeepTheirDateAndAreInDoubt) {
  const Book book = DocumentedBook().holds(dcc_with("calibrator.xml", ">2.040<", ">much<")).read();
  ASSERT_EQ(book.certificates.size(), 1U);
  EXPECT_EQ(book.certificates[0].calibrated, day_from({2026, 1, 5}));
  EXPECT_NE(book.certificates[0].problem, no_problem);
}

TEST(DigitalCertificates, AreOneOfAName) {
  DocumentedBook book;
  book.holds(dcc("thermometer.xml")).file("certificates/d.xml", dcc("thermometer.xml"));
  EXPECT_NE(book.faults().find("certificates/d.xml: error: the certificate 'LF-T-2026-031' is already in "
                               "certificates/c.xml:14; keep one of the two [dcc/twice]\n"),
            std::string::npos);
}

TEST(DigitalCertificates, HavePlausibleFigures) {
  const std::string line = std::to_string(line_of(dcc("calibrator.xml"), ">2.002<"));
  EXPECT_EQ(
      faults_of("calibrator.xml", ">2.001<", ">0.0<"),
      "certificates/c.xml:" + line +
          ": error: a point can't be: reference 0, indication 2.002 L/min; a flow of 0 gives no relative error, and "
          "nothing is below 0 [dcc/implausible]\n");
}

TEST(DigitalCertificates, LieInTheFolderCertificates) {
  DocumentedBook book;
  book.file("readings/a.xml", dcc("thermometer.xml")).file("b.xml", "<a/>");
  const std::string told = book.faults();
  EXPECT_NE(told.find("b.xml: remark: is not read: a digital calibration certificate lies in the folder certificates; "
                      "lay it there if it is one, or name it in book.toml under [files] ignore if it need not be read"),
            std::string::npos)
      << told;
  EXPECT_NE(told.find("readings/a.xml: remark: is not read: "), std::string::npos) << told;
  book.holds(dcc("thermometer.xml")).file("certificates/c.csv", "certificate\n");
  EXPECT_NE(book.faults().find("'certificates/c.csv' and 'certificates/c.xml' are the same file"), std::string::npos);
}

}  // namespace
}  // namespace driftwarden::digital_certificates_test
