// SPDX-License-Identifier: MIT
#include "book/calibration_points.hpp"

#include <gtest/gtest.h>

#include "book/calibration_document.hpp"
#include "book/written_certificate.hpp"

namespace driftwarden::calibration_points_test {
namespace {

// echo: what the documents of tests/book/dcc say; sums and differences of these are derived.

const std::string file = "c.xml";

Result<DocumentPoints> points(const std::string& text, Dimension dimension) {
  const XmlElement tree = *xml_tree(text, file, "");
  return calibration_points(*dcc_child(tree, "measurementResults"), {dimension, "", file});
}
std::string fault(const std::string& name, const std::string& what, const std::string& by,
                  Dimension dimension = Dimension::temperature) {
  const Result<DocumentPoints> read = points(dcc_with(name, what, by), dimension);
  return read ? "" : read.faults().front().message + " [" + read.faults().front().id + "]";
}

TEST(CalibrationPoints, AreMadeOfReferenceAndIndication) {
  const DocumentPoints read = *points(dcc("thermometer.xml"), Dimension::temperature);
  ASSERT_EQ(read.points.size(), 4U);
  EXPECT_EQ(read.points[0].state, AdjustmentState::unsaid);
  EXPECT_EQ(read.coverage_factor, 2.0);
  EXPECT_EQ(read.understood, (std::set<std::string>{"basic_measuredValue", "basic_measurementError",
                                                    "basic_referenceValue", "basic_temperature"}));
}

TEST(CalibrationPoints, TakeWhatIsLackingFromTheError) {
  const std::string measured = "basic_measuredValue";
  const DocumentPoints read = *points(dcc_with("thermometer.xml", measured, "other"), Dimension::temperature);
  EXPECT_DOUBLE_EQ(read.points[0].indicated, 273.15 + 0.01 + 0.19);
  const DocumentPoints other =
      *points(dcc_with("thermometer.xml", "basic_referenceValue", "other"), Dimension::temperature);
  EXPECT_DOUBLE_EQ(other.points[0].reference, 273.15 + 0.2 - 0.19);
}

TEST(CalibrationPoints, HoldTheErrorToItsDefinition) {
  // The indication 20.1, the reference 20.01: 0.09, and 0.0 to 0.2 by what rounding leaves.
  EXPECT_EQ(fault("thermometer.xml", "0.08 0.09 0.00", "0.08 0.15 0.00"), "");
  EXPECT_EQ(fault("thermometer.xml", "0.08 0.09 0.00", "0.08 0.16 0.00"),
            "the error of point 3 is not the indication less the reference: by another convention, or by a slip "
            "[dcc/wrong-error]");
  EXPECT_EQ(fault("thermometer.xml", "0.19 0.08", "-0.19 0.08"),
            "the error of point 1 is not the indication less the reference: by another convention, or by a slip "
            "[dcc/wrong-error]");
}

TEST(CalibrationPoints, HaveAListOfOneServeAll) {
  const Result<DocumentPoints> read =
      points(dcc_with("thermometer.xml", "0.2 10.1 20.1 30.0", "0.2"), Dimension::temperature);
  EXPECT_FALSE(read);  // the errors are then others
  const DocumentPoints flows = *points(dcc_with("both-in-one-list.xml", ">60.0 120.0<", ">60.0<"), Dimension::flow);
  EXPECT_EQ(flows.points[1].reference, 1.0);
  EXPECT_EQ(fault("thermometer.xml", "0.2 10.1 20.1 30.0", "0.2 10.1 20.1"),
            "a list has 3 figures beside others of 4 [dcc/structure]");
}

TEST(CalibrationPoints, KnowTheirStateByListOrQuantity) {
  const DocumentPoints flows = *points(dcc("both-in-one-list.xml"), Dimension::flow);
  ASSERT_EQ(flows.points.size(), 4U);
  EXPECT_EQ(flows.points[0].state, AdjustmentState::before);
  EXPECT_EQ(flows.points[3].state, AdjustmentState::after);
  EXPECT_TRUE(flows.understood.contains("basic_adjustment"));
  EXPECT_EQ(fault("calibrator.xml", ">beforeAdjustment<", ">beforeRepair<", Dimension::flow),
            "the status 'beforeRepair' of an adjustment is not understood [dcc/structure]");
  EXPECT_EQ(fault("calibrator.xml", "basic_adjustment", "other", Dimension::flow),
            "some of its points say whether they were read before or after an adjustment, and 2 don't [dcc/structure]");
}

TEST(CalibrationPoints, AreOfTheKindThatIsWanted) {
  EXPECT_EQ(points(dcc("barometer.xml"), Dimension::pressure)->points.size(), 3U);
  EXPECT_EQ(points(dcc("barometer.xml"), Dimension::flow).faults().front().message, "it has no points of flow");
  EXPECT_EQ(fault("thermometer.xml", "\\kelvin", "\\pascal"),
            "basic_measurementError is a pressure beside a temperature [dcc/structure]");
}

TEST(CalibrationPoints, TellWhatNoPointCanBeMadeOf) {
  EXPECT_EQ(fault("both-in-one-list.xml", "basic_referenceValue", "other", Dimension::flow),
            "a list has basic_measuredValue alone, of which no point can be made [dcc/structure]");
  EXPECT_EQ(fault("thermometer.xml", "gp_immersionDepth", "basic_referenceValue"),
            "a second quantity of one list is a basic_referenceValue [dcc/structure]");
  EXPECT_EQ(fault("thermometer.xml", "0.01 10.02", "0.01 1O.02"), "'1O.02' is not a number [dcc/number]");
}

TEST(CalibrationPoints, HaveOneUncertaintyAndOneCoverageFactor) {
  EXPECT_EQ(
      fault("both-in-one-list.xml", "<si:coverageFactorXMLList>2<", "<si:coverageFactorXMLList>2.2<", Dimension::flow),
      "its points have several coverage factors, 2.2 and 2 [dcc/coverage-factors]");
  const std::string two =
      "\\degreecelsius</si:unitXMLList>\n<si:expandedUncXMLList><si:uncertaintyXMLList>0.02</"
      "si:uncertaintyXMLList><si:coverageFactorXMLList>2</si:coverageFactorXMLList></si:expandedUncXMLList>";
  std::string text = dcc("two-items.xml");
  for (std::size_t at = text.find("\\degreecelsius</si:unitXMLList>"); at != std::string::npos;
       at = text.find("\\degreecelsius</si:unitXMLList>\n                </si", at + two.size()))
    text.replace(at, 31, two);
  EXPECT_EQ(points(text, Dimension::temperature).faults().front().message,
            "the reference and the indication have uncertainties of their own, and nothing says which is that of the "
            "calibration");
}

}  // namespace
}  // namespace driftwarden::calibration_points_test
