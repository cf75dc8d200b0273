// SPDX-License-Identifier: MIT
#include <gtest/gtest.h>

#include "book/written_book.hpp"

namespace driftwarden::certificates_file_test {
namespace {

// echo: what the rows of the file say.

const std::string heading = "certificate,instrument,calibrated,nominal [L/min],reference [L/min],as left [L/min]\n";

// A book with two calibrators and these certificates.
class CertifiedBook : public WrittenBook {
 public:
  explicit CertifiedBook(const std::string& certificates) {
    file("instruments.csv",
         "instrument,kind,principle\nPUMP-1,pump,\nVOL-1,calibrator,volumetric\nROT-22,calibrator,mass\n");
    file("certificates.csv", certificates);
  }
};

// The problems of VOL-1 and of ROT-22.
std::string doubts(const Book& book) {
  return problem_text(book, book.instruments[1].problem) + "\n" + problem_text(book, book.instruments[2].problem);
}

TEST(CertificatesFile, FillsEveryFieldOfACertificateAndItsPoints) {
  const Book book =
      CertifiedBook(
          "certificate,instrument,calibrated,due,issuer,standard,temperature [°C],pressure [hPa],nominal "
          "[L/min],reference "
          "[mL/min],as found [L/min],as left [L/min],expanded uncertainty [mL/min],coverage factor,tolerance [%]\n"
          "K-7,VOL-1,2026-01-05,2027-01-05,Our bench,ROT-22,20,1000,1,1010,1.02,1.01,5,2,1\n"
          "K-7,VOL-1,2026-01-05,2027-01-05,Our bench,ROT-22,20,1000,2,2010,,2.01,,,\n")
          .read();
  EXPECT_EQ(told(book.problems), "");
  ASSERT_EQ(book.certificates.size(), 1U);
  const Certificate& it = book.certificates[0];
  EXPECT_EQ(it.name, "K-7");
  EXPECT_EQ(it.instrument, 1U);
  EXPECT_EQ(it.calibrated, day_from({2026, 1, 5}));
  EXPECT_EQ(it.due, day_from({2027, 1, 5}));
  EXPECT_EQ(it.issuer, "Our bench");
  EXPECT_EQ(it.standard, "ROT-22");
  EXPECT_DOUBLE_EQ(it.temperature->kelvin, 293.15);
  EXPECT_EQ(it.pressure->value, 100.0);
  EXPECT_EQ(it.coverage_factor, 2.0);
  EXPECT_EQ(it.tolerance, 0.01);
  EXPECT_EQ(book.place_text(book.files.certificates, it.place), "certificates.csv:2");
  ASSERT_EQ(it.points.size(), 2U);
  EXPECT_EQ(it.points[0].nominal_l_min, 1.0);
  EXPECT_EQ(it.points[0].reference_l_min, 1.01);
  EXPECT_EQ(it.points[0].as_found_l_min, 1.02);
  EXPECT_EQ(it.points[0].as_left_l_min, 1.01);
  EXPECT_EQ(it.points[0].expanded_uncertainty_l_min, 0.005);
  EXPECT_FALSE(it.points[1].as_found_l_min);
  EXPECT_FALSE(it.points[1].expanded_uncertainty_l_min);
  EXPECT_EQ(it.points[1].place.line, 3U);
}

TEST(CertificatesFile, JoinsAsFoundAndAsLeftOfOnePointInTwoRows) {
  const Book book =
      CertifiedBook(
          "certificate,instrument,calibrated,nominal [L/min],reference [L/min],as found [L/min],as left [L/min]\n"
          "K-1,VOL-1,2026-01-05,2,2.001,2.064,\nK-1,VOL-1,2026-01-05,2,2.000,,2.001\n")
          .read();
  EXPECT_EQ(
      told(book.problems),
      "certificates.csv:2: remark: the certificate 'K-1' has as found and as left in rows apart; what was as found "
      "only tells how it was, and corrects no reading; one row a point says it, with 'reference as found' where "
      "that was another [certificate/found-apart]\n");
  ASSERT_EQ(book.certificates[0].points.size(), 1U);
  EXPECT_EQ(book.certificates[0].points[0].reference_as_found_l_min, 2.001);
}

TEST(CertificatesFile, TakesTheReferenceOfBothTimes) {
  const Book book = CertifiedBook(
                        "certificate,instrument,calibrated,nominal [L/min],reference [L/min],reference as found "
                        "[mL/min],as found [L/min],as left [L/min]\n"
                        "K-1,VOL-1,2026-01-05,2,2.000,2001,2.064,2.001\nK-1,VOL-1,2026-01-05,3,3,0,3,3\n")
                        .read();
  EXPECT_EQ(told(book.problems),
            "certificates.csv:3:26: error: a reference flow of 0 gives no relative error; leave the point out "
            "[certificate/no-flow]\n");
  EXPECT_DOUBLE_EQ(*book.certificates[0].points[0].reference_as_found_l_min, 2.001);
}

TEST(CertificatesFile, TakesAnUncertaintyInPercentOfTheReferenceFlow) {
  const Book book = CertifiedBook(
                        "certificate,instrument,calibrated,nominal [L/min],reference [L/min],expanded uncertainty [%]\n"
                        "K-7,VOL-1,2026-01-05,2,2.5,0.4\n")
                        .read();
  EXPECT_DOUBLE_EQ(*book.certificates.at(0).points.at(0).expanded_uncertainty_l_min, 0.01);
}

// A bench thermometer and a barometer beside the pump and the calibrators.
struct BookWithConditions : WrittenBook {
  BookWithConditions() {
    file("instruments.csv",
         "instrument,kind,principle\nPUMP-1,pump,\nVOL-1,calibrator,volumetric\nT-1,thermometer,\nB-1,barometer,\n");
  }
};

TEST(CertificatesFile, HoldsTemperaturesOfThermometersAndPressuresOfBarometers) {
  const Book book =
      BookWithConditions()
          .file("certificates/thermometers.csv",
                "certificate,instrument,calibrated,nominal [°C],reference [°C],as found [°C],as left [°F],expanded "
                "uncertainty [°C],tolerance [K]\nK-1,T-1,2026-01-05,20,20.1,20.3,68,0.1,0.5\n")
          .file("certificates/barometers.csv",
                "certificate,instrument,calibrated,nominal [hPa],reference [hPa],as found [hPa],expanded uncertainty "
                "[%],tolerance [hPa]\nK-2,B-1,2026-01-05,850,851,850,0.1,3\n")
          .read();
  EXPECT_EQ(told(book.problems), "");
  ASSERT_EQ(book.certificates.size(), 2U);
  const Certificate& barometer = book.certificates[0];  // by the names of the files
  const Certificate& thermometer = book.certificates[1];
  EXPECT_TRUE(thermometer.points.empty());
  ASSERT_EQ(thermometer.condition_points.size(), 1U);
  EXPECT_NEAR(thermometer.condition_points[0].reference, 293.25, 1e-9);
  EXPECT_NEAR(*thermometer.condition_points[0].as_found, 293.45, 1e-9);
  EXPECT_NEAR(*thermometer.condition_points[0].as_left, 293.15, 1e-9);
  EXPECT_NEAR(*thermometer.condition_points[0].expanded_uncertainty, 0.1, 1e-12);
  EXPECT_EQ(thermometer.condition_tolerance, 0.5);
  EXPECT_FALSE(thermometer.tolerance);
  EXPECT_NEAR(barometer.condition_points.at(0).nominal, 85, 1e-12);
  // derived: 0.1 % of 85.1 kPa.
  EXPECT_NEAR(*barometer.condition_points[0].expanded_uncertainty, 0.0851, 1e-12);
  EXPECT_NEAR(*barometer.condition_tolerance, 0.3, 1e-12);
}

TEST(CertificatesFile, TellsAPointOfTheWrongQuantity) {
  EXPECT_EQ(
      BookWithConditions()
          .file("certificates.csv", heading + "K-1,T-1,2026-01-05,1,1,1\n")
          .file("certificates/t.csv",
                "certificate,instrument,calibrated,nominal [°C],reference [°C]\nK-2,VOL-1,2026-01-05,20,20\n")
          .faults(),
      "certificates.csv:2:5: error: 'T-1' is a thermometer, and its points are no flows; put them into a file of their "
      "own in the folder certificates, with headings such as 'nominal [°C]' [certificate/wrong-quantity]\n"
      "certificates/t.csv:2:5: error: 'VOL-1' is a calibrator, and its points are no temperatures; put them into a "
      "file of their own in the folder certificates, with headings such as 'nominal [L/min]' "
      "[certificate/wrong-quantity]\n");
}

TEST(CertificatesFile, TellsUnitsThatDoNotGoTogether) {
  for (const std::string column : {"as found [L/min]", "as left [kPa]", "tolerance [%]", "expanded uncertainty [%]"}) {
    const Book book = BookWithConditions()
                          .file("certificates/t.csv", "certificate,instrument,calibrated,nominal [°C],reference [°C]," +
                                                          column + "\nK-2,T-1,2026-01-05,20,20,1\n")
                          .read();
    ASSERT_EQ(book.problems.size(), 1U) << column;
    EXPECT_EQ(book.problems[0].id, "certificate/mixed-units");
    EXPECT_EQ(book.problems[0].place, (Place{"certificates/t.csv", 1, 0}));
    EXPECT_TRUE(book.certificates.empty());
  }
}

TEST(CertificatesFile, GathersThePointsOfOneNameAlsoFromApartAndFromOtherFiles) {
  const Book book =
      CertifiedBook(heading + "K-1,VOL-1,2026-01-05,1,1,1\nK-2,ROT-22,2026-01-05,1,1,1\nK-1,VOL-1,2026-01-05,2,2,2\n")
          .file("certificates/more.csv", heading + "K-2,ROT-22,2026-01-05,3,3,3\n")
          .read();
  ASSERT_EQ(book.certificates.size(), 2U);
  EXPECT_EQ(book.certificates[0].points.size(), 2U);
  EXPECT_EQ(book.certificates[1].points.size(), 2U);
  EXPECT_EQ(book.place_text(book.files.certificates, book.certificates[1].points[1].place), "certificates/more.csv:2");
}

TEST(CertificatesFile, MayBeMissing) {
  const Book book = WrittenBook().read();
  EXPECT_TRUE(book.certificates.empty());
  EXPECT_EQ(told(book.problems), "");
}

TEST(CertificatesFile, TellsEveryFault) {
  EXPECT_EQ(
      CertifiedBook(heading + ",VOL-1,2026-01-05,1,1,1\n"
                              "K-2,,2026-01-05,1,1,1\n"
                              "K-3,VOL-1,,1,1,1\n"
                              "K-4,VOL-1,05.01.2026,,0,x\n"
                              "K-5,VOL-l,2026-01-05,1,1,1\n"
                              "K-6,STD-7,2026-01-05,1,1,1\n"
                              "K-7,VOL-1\n")
          .faults(),
      "certificates.csv:2:1: error: the cell under 'certificate' is empty; every row needs one [cell/empty]\n"
      "certificates.csv:3:5: error: the cell under 'instrument' is empty; every row needs one [cell/empty]\n"
      "certificates.csv:4:11: error: the cell under 'calibrated' is empty; every row needs one [cell/empty]\n"
      "certificates.csv:5:11: error: '05.01.2026' does not say which number is the month; write year-month-day, as "
      "2026-09-21, or say dates = \"month first\" or \"day first\" in book.toml [time/slashes]\n"
      "certificates.csv:5:22: error: the cell under 'nominal' is empty; every row needs one [cell/empty]\n"
      "certificates.csv:5:23: error: a reference flow of 0 gives no relative error; leave the point out "
      "[certificate/no-flow]\n"
      "certificates.csv:5:25: error: 'x' is not a number; write digits with '.' as decimal sign; the unit belongs in "
      "the heading [cell/not-a-number]\n"
      "certificates.csv:6:5: error: the instrument 'VOL-l' is not in instruments.csv; did you mean 'VOL-1'? "
      "[certificate/unknown-instrument]\n"
      "certificates.csv:7:5: error: the instrument 'STD-7' is not in instruments.csv; add it to instruments.csv as a "
      "calibrator [certificate/unknown-instrument]\n"
      "certificates.csv:8: error: the row has 2 cells, the heading line 6; write one cell for each heading; a cell "
      "that holds the separator goes in quotes [csv/cell-count]\n");
}

TEST(CertificatesFile, IsTornWhereRowsOfOneNameDisagree) {
  const Book book =
      CertifiedBook(heading +
                    "K-1,VOL-1,2026-01-05,1,1,1\nK-1,ROT-22,2026-01-05,2,2,2\nK-2,VOL-1,2026-02-05,1,1,1\n"
                    "K-2,VOL-1,2026-02-06,2,2,2\n")
          .read();
  EXPECT_EQ(told(book.problems),
            "certificates.csv:3:5: error: the certificate 'K-1' has another 'instrument' in certificates.csv:2; all "
            "rows of one certificate say the same; give another certificate another name [certificate/torn]\n"
            "certificates.csv:5:11: error: the certificate 'K-2' has another 'calibrated' in certificates.csv:4; all "
            "rows of one certificate say the same; give another certificate another name [certificate/torn]\n");
  EXPECT_EQ(problem_text(book, book.certificates[0].problem), to_text(book.problems[0]));
  EXPECT_EQ(problem_text(book, book.certificates[1].problem), to_text(book.problems[1]));
}

TEST(CertificatesFile, HeedsWhatAnyRowSaysOfTheWholeCertificate) {
  const std::string wide =
      "certificate,instrument,calibrated,nominal [L/min],reference [L/min],as left [L/min],due,coverage factor,"
      "tolerance [%]\n";
  const Book later =
      CertifiedBook(wide + "K-1,VOL-1,2026-01-05,1,1,1,,,\nK-1,VOL-1,2026-01-05,2,2,2,2027-01-05,4,3\n").read();
  EXPECT_TRUE(later.problems.empty());
  EXPECT_EQ(later.certificates[0].coverage_factor, 4);
  EXPECT_EQ(later.certificates[0].due, day_from({2027, 1, 5}));
  EXPECT_EQ(later.certificates[0].tolerance, 0.03);
  const Book standard = CertifiedBook(
                            "certificate,instrument,calibrated,nominal [L/min],reference [L/min],as left [L/min],"
                            "standard,issuer,temperature [K]\n"
                            "K-1,VOL-1,2026-01-05,1,1,1,,,\nK-1,VOL-1,2026-01-05,2,2,2,STD-9,Lab,293\n")
                            .read();
  EXPECT_TRUE(standard.problems.empty());
  EXPECT_EQ(standard.certificates[0].standard, "STD-9");
  EXPECT_EQ(standard.certificates[0].issuer, "Lab");
  EXPECT_TRUE(standard.certificates[0].temperature.has_value());
  const Book torn =
      CertifiedBook(wide +
                    "K-1,VOL-1,2026-01-05,1,1,1,2027-01-05,2,3\nK-1,VOL-1,2026-01-05,2,2,2,2027-01-05,4,3\n"
                    "K-1,VOL-1,2026-01-05,3,3,3,2028-01-05,2,3\nK-1,VOL-1,2026-01-05,4,4,4,,,5\n")
          .read();
  ASSERT_EQ(torn.problems.size(), 3U);
  EXPECT_NE(to_text(torn.problems[0])
                .find("certificates.csv:3:39: error: the certificate 'K-1' has another 'coverage factor'"),
            std::string::npos)
      << to_text(torn.problems[0]);
  EXPECT_NE(torn.problems[1].message.find("another 'due'"), std::string::npos);
  EXPECT_NE(torn.problems[2].message.find("another 'tolerance'"), std::string::npos);
}

TEST(CertificatesFile, RemarksThatTwoAreOfOneDayAndSaysWhichCounts) {
  const Book book = CertifiedBook(heading + "K-1,VOL-1,2026-01-05,1,1,1\nK-2,VOL-1,2026-01-05,2,2,2\n").read();
  EXPECT_EQ(told(book.problems),
            "certificates.csv:3: remark: 'VOL-1' has another certificate of 2026-01-05 in certificates.csv:2; this one "
            "counts from that day on; put all points of one calibration under one certificate's name "
            "[certificate/same-day]\n");
}

TEST(CertificatesFile, DoesNotCallACertificateTornForADateOrInstrumentThatIsToldAlready) {
  const Book book =
      CertifiedBook(heading + "K-1,VOL-1,x,1,1,1\nK-1,VOL-1,2026-01-05,2,2,2\nK-1,VOL-l,2026-01-05,3,3,3\n").read();
  EXPECT_EQ(told(book.problems),
            "certificates.csv:2:11: error: 'x' is not a date; write year-month-day, as 2026-09-21 [time/not-a-date]\n"
            "certificates.csv:4:5: error: the instrument 'VOL-l' is not in instruments.csv; did you mean 'VOL-1'? "
            "[certificate/unknown-instrument]\n");
  ASSERT_EQ(book.certificates.size(), 1U);
  EXPECT_EQ(book.certificates[0].calibrated, day_from({2026, 1, 5})) << "the other rows know the date";
  EXPECT_EQ(problem_text(book, book.certificates[0].problem), to_text(book.problems[0]));
}

TEST(CertificatesFile, IsAProblemOfTheCertificateWhateverPointIsFaulty) {
  const Book book =
      CertifiedBook(heading + "K-1,VOL-1,2026-01-05,1,1,1\nK-1,VOL-1,2026-01-05,2,2,two\nK-2,VOL-1,2025-01-05,1,1,1\n")
          .read();
  EXPECT_EQ(problem_text(book, book.certificates[0].problem), to_text(book.problems.at(0)));
  EXPECT_EQ(book.certificates[1].problem, no_problem);
  EXPECT_EQ(doubts(book), "\n") << "the date is known, so only readings since then are in doubt";
}

// Which certificate was in force can't be known then: an older one must not be used instead without a word.
TEST(CertificatesFile, PutsTheCalibratorInDoubtWhereADateIsLost) {
  const Book book = CertifiedBook(heading + "K-1,VOL-1,2026-01-05,1,1,1\nK-2,VOL-1,soon,1,1,1\n").read();
  EXPECT_EQ(doubts(book), to_text(book.problems.at(0)) + "\n");
}

TEST(CertificatesFile, PutsCalibratorsWithoutACertificateInDoubtWhereOneIsOfNobodyKnown) {
  for (const std::string& text :
       {std::string("K-2,VOL-l,2026-05-05,1,1,1\n"), std::string("K-2,STD-7,2026-05-05,1,1,1\n"),
        std::string("K-2,,2026-05-05,1,1,1\n"), std::string("K-2\n")}) {
    const Book book = CertifiedBook(heading + "K-1,VOL-1,2026-01-05,1,1,1\n" + text).read();
    ASSERT_EQ(book.problems.size(), 1U) << text;
    EXPECT_EQ(doubts(book), "\n" + to_text(book.problems[0])) << text;
    EXPECT_EQ(book.instruments[0].problem, no_problem) << "a pump needs none";
  }
}

TEST(CertificatesFile, PutsEveryCalibratorInDoubtWhereCertificatesAreLost) {
  for (const std::string& text :
       {heading + "K-1,VOL-1,2026-01-05,1,1,1\n\"K-2,VOL-1,2026-02-05,1,1,1\nK-3,ROT-22,2026-02-05,1,1,1\n",
        std::string("certificate,instrument,calibrated,nominal [L/min],reference\n")}) {
    const Book book = CertifiedBook(text).read();
    ASSERT_EQ(book.problems.size(), 1U) << text;
    EXPECT_EQ(doubts(book), to_text(book.problems[0]) + "\n" + to_text(book.problems[0])) << text;
    EXPECT_EQ(book.instruments[0].problem, no_problem);
  }
}

TEST(CertificatesFile, DoesNotTellOfUnknownInstrumentsWhereTheirFileIsLost) {
  const Book book =
      CertifiedBook(heading + "K-1,VOL-1,2026-01-05,1,1,1\n").file("instruments.csv", "instrument,kin\n").read();
  EXPECT_EQ(
      told(book.problems),
      "instruments.csv:1: error: there is no column 'kind' (is 'kin' meant?); add it to the heading line, or map your "
      "own heading to it in book.toml under [headings.instruments] [heading/missing]\n"
      "instruments.csv:1:12: remark: columns without a meaning here are kept as notes: 'kin'; did you mean 'kind' by "
      "'kin'? [heading/unknown]\n");
  EXPECT_EQ(problem_text(book, book.certificates.at(0).problem), to_text(book.problems[0]));
}

}  // namespace
}  // namespace driftwarden::certificates_file_test
