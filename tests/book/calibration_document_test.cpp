// SPDX-License-Identifier: MIT
#include "book/calibration_document.hpp"

#include <gtest/gtest.h>

#include "book/written_certificate.hpp"

namespace driftwarden::calibration_document_test {
namespace {

// echo: what the documents of tests/book/dcc say.

std::string fault(const std::string& text) {
  const Result<XmlElement> tree = xml_tree(text, "c.xml", "");
  const Result<CalibrationDocument> document = calibration_document(*tree, "c.xml");
  return document ? "" : to_text(document.faults().front());
}

TEST(CalibrationDocument, TellsItsHead) {
  const XmlElement tree = *xml_tree(dcc("calibrator.xml"), "c.xml", "");
  const CalibrationDocument document = *calibration_document(tree, "c.xml");
  EXPECT_EQ(document.version, "3.1.2");
  EXPECT_EQ(document.number, "LF-F-2026-007");
  EXPECT_EQ(document.laboratory, "Lower Ferrow flow laboratory");
  EXPECT_EQ(document.calibrated, day_from({2026, 1, 5}));
  ASSERT_EQ(document.items.size(), 1U);
  EXPECT_EQ(document.items[0].name, "dry piston calibrator");
  EXPECT_EQ(document.items[0].serials, std::vector<std::string>{"VOL-1-5335"});
  EXPECT_FALSE(document.has_signature);
}

TEST(CalibrationDocument, TakesForTheSerialNumberWithoutARefTypeWhatTheManufacturerCallsIt) {
  const XmlElement tree = *xml_tree(dcc_with("thermometer.xml", " refType=\"basic_serialNumber\"", ""), "c.xml", "");
  EXPECT_EQ(calibration_document(tree, "c.xml")->items[0].serials, std::vector<std::string>{"T-6120"});
}

TEST(CalibrationDocument, IsOfVersionThree) {
  const std::string way_out = "; ask for one after schema 3, or write its points to a CSV file of certificates ";
  EXPECT_EQ(
      fault(dcc_with("thermometer.xml", "\"3.1.2\"", "\"2.4.0\"")),
      "c.xml:2:1: error: its schema version is '2.4.0', and only version 3 is understood" + way_out + "[dcc/version]");
  EXPECT_EQ(fault(dcc_with("thermometer.xml", "\"3.1.2\"", "\"4.0.0\"")).substr(0, 45),
            "c.xml:2:1: error: its schema version is '4.0.");
  EXPECT_EQ(fault(dcc_with("thermometer.xml", "\"3.1.2\"", "\"3.3.0\"")), "");
  EXPECT_EQ(
      fault(dcc_with("thermometer.xml", "https://ptb.de/dcc", "https://ptb.example/dcc")),
      "c.xml:2:1: error: its namespace is 'https://ptb.example/dcc', not that of the DCC schema, https://ptb.de/dcc" +
          way_out + "[dcc/not-a-certificate]");
  EXPECT_EQ(fault("<invoice/>"),
            "c.xml:1:1: error: it is no digital calibration certificate but a 'invoice'; take it out of the folder "
            "certificates [dcc/not-a-certificate]");
}

TEST(CalibrationDocument, TellsWhatIsLacking) {
  EXPECT_EQ(fault(dcc_with("thermometer.xml", "<dcc:uniqueIdentifier>LF-T-2026-031</dcc:uniqueIdentifier>", "")),
            "c.xml:10:5: error: there is no 'uniqueIdentifier' in 'coreData'; write its points to a CSV file of "
            "certificates, and take it out of the folder [dcc/structure]");
  EXPECT_EQ(fault(dcc_with("thermometer.xml", ">LF-T-2026-031<", "> <")).substr(0, 62),
            "c.xml:14:7: error: nothing stands in 'uniqueIdentifier'; write");
  EXPECT_EQ(fault(dcc_with("thermometer.xml", "<dcc:endPerformanceDate>2026-02-03", "<dcc:endPerformanceDate>soon")),
            "c.xml:16:7: error: 'soon' is no date; an xs:date, as 2026-02-03 [dcc/structure]");
  EXPECT_EQ(fault(dcc_with("thermometer.xml", "<dcc:endPerformanceDate>2026-02-03",
                           "<dcc:endPerformanceDate>2026-02-03+01:00")),
            "");
}

}  // namespace
}  // namespace driftwarden::calibration_document_test
