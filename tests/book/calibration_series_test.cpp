// SPDX-License-Identifier: MIT
#include "book/calibration_series.hpp"

#include <gtest/gtest.h>

namespace driftwarden::calibration_series_test {
namespace {

// echo: what the quantities say; half a step by its definition, 5 in the place behind the last digit.

Result<CalibrationSeries> series(const std::string& inside, bool is_difference = false) {
  const XmlElement tree =
      *xml_tree("<q xmlns='https://ptb.de/si' xmlns:d='https://ptb.de/dcc'>\n" + inside + "</q>", "c.xml", "");
  return calibration_series(tree, is_difference, "c.xml");
}
std::string fault(const std::string& inside) {
  const Result<CalibrationSeries> read = series(inside);
  return read ? "" : to_text(read.faults().front());
}
std::string list(const std::string& values, const std::string& units, const std::string& more = "") {
  return "<realListXMLList><valueXMLList>" + values + "</valueXMLList><unitXMLList>" + units + "</unitXMLList>" + more +
         "</realListXMLList>";
}
std::string real(const std::string& value, const std::string& unit, const std::string& more = "") {
  return "<real><value>" + value + "</value><unit>" + unit + "</unit>" + more + "</real>";
}
const std::string flow = "\\litre\\per\\minute";

TEST(CalibrationSeries, HoldsOneFigureOrAList) {
  const CalibrationSeries one = *series(real("2.0", flow));
  EXPECT_EQ(one.figures, std::vector<double>{2.0});
  EXPECT_EQ(one.dimension, Dimension::flow);
  EXPECT_EQ(one.line, 2U);
  EXPECT_TRUE(one.expanded.empty());
  EXPECT_EQ(series(list(" 1 \n 2 ", flow))->figures, (std::vector<double>{1, 2}));
  EXPECT_EQ(series(list("1 2000", flow + " \\milli\\litre\\per\\minute"))->figures, (std::vector<double>{1, 2}));
}

TEST(CalibrationSeries, KnowsHowFineItIsWritten) {
  EXPECT_EQ(series(list("20.05 3 1.2E1 5e-2", flow))->half_steps, (std::vector<double>{0.005, 0.5, 0.5, 0.005}));
  EXPECT_EQ(series(list("20.0", "\\degreecelsius"))->half_steps, std::vector<double>{0.05});
}

TEST(CalibrationSeries, HasTheExpandedUncertaintyInBothFormsOfTheStandard) {
  const std::string old_one =
      "<expandedUnc><uncertainty>5</uncertainty><coverageFactor>2.1</coverageFactor></expandedUnc>";
  EXPECT_EQ(series(real("1", "\\milli\\litre\\per\\minute", old_one))->expanded, std::vector<double>{0.005});
  EXPECT_EQ(series(real("1", "\\degreecelsius", old_one))->expanded, std::vector<double>{5});
  EXPECT_EQ(series(real("1", flow, old_one))->coverage_factors, std::vector<double>{2.1});
  const std::string new_one =
      "<measurementUncertaintyUnivariate><expandedMU><valueExpandedMU>5</valueExpandedMU><coverageFactor>2</"
      "coverageFactor>"
      "</expandedMU></measurementUncertaintyUnivariate>";
  EXPECT_EQ(series(real("1", flow, new_one))->expanded, std::vector<double>{5});
  const std::string of_list =
      "<expandedUncXMLList><uncertaintyXMLList>0.1 "
      "0.2</uncertaintyXMLList><coverageFactorXMLList>2</coverageFactorXMLList>"
      "</expandedUncXMLList>";
  EXPECT_EQ(series(list("1 2", flow, of_list))->expanded, (std::vector<double>{0.1, 0.2}));
  EXPECT_EQ(series(list("1 2", flow, of_list))->coverage_factors, (std::vector<double>{2, 2}));
  EXPECT_EQ(fault(list("1 2 3", flow, of_list)).substr(0, 70),
            "c.xml:2:116: error: 2 figures do not go with the 3 of the list; write ");
}

TEST(CalibrationSeries, OfSeveralUnitsIsTheFirstThatIsUnderstood) {
  EXPECT_EQ(series("<hybrid>" + real("7", "\\cfm") + real("120", "\\litre\\per\\hour") + "</hybrid>")->figures,
            std::vector<double>{2});
  EXPECT_NE(fault("<hybrid>" + real("7", "\\cfm") + "</hybrid>").find("'\\cfm' is not understood"), std::string::npos);
  EXPECT_NE(fault("<hybrid>" + real("x", flow) + real("2", flow) + "</hybrid>").find("'x' is not a number"),
            std::string::npos);
  EXPECT_NE(fault("<hybrid></hybrid>").find("[dcc/structure]"), std::string::npos);
}

TEST(CalibrationSeries, IsADifferenceForAnError) {
  EXPECT_EQ(series(real("0.5", "\\degreecelsius"), true)->figures, std::vector<double>{0.5});
  EXPECT_EQ(series(real("0.5", "\\degreecelsius"), true)->dimension, Dimension::temperature_difference);
}

TEST(CalibrationSeries, TellsWhatIsNotUnderstood) {
  EXPECT_EQ(
      fault(real("1", "\\volt")),
      "c.xml:2:23: error: the unit '\\volt' is not understood; flows (volume by time), temperatures and pressures "
      "are, as \\litre\\per\\minute, \\degreecelsius, \\hecto\\pascal [dcc/unit]");
  EXPECT_EQ(fault(real("NaN", flow)),
            "c.xml:2:7: error: 'NaN' is not a number; ask the laboratory what stands there [dcc/number]");
  EXPECT_NE(fault(list("", flow)).find("there are no figures"), std::string::npos);
  EXPECT_NE(fault(list("1 2 3", flow + " " + flow)).find("2 units do not go with 3 figures"), std::string::npos);
  EXPECT_NE(fault(list("1 2", flow + " \\kelvin")).find("its units are of several kinds"), std::string::npos);
  EXPECT_NE(fault(real("1", "")).find("there is no unit"), std::string::npos);
  EXPECT_NE(fault("<real><value>1</value></real>").find("there is no 'unit' in 'real'"), std::string::npos);
  EXPECT_NE(fault("<constant/>").find("no figures of a kind that is understood stand in 'q'"), std::string::npos);
  const std::string no_expanded = "the uncertainty is not stated as an expanded one with its coverage factor";
  EXPECT_NE(fault(real("1", flow, "<coverageInterval/>")).find(no_expanded), std::string::npos);
  EXPECT_NE(fault(real("1", flow, "<measurementUncertaintyUnivariate><standardMU/></measurementUncertaintyUnivariate>"))
                .find(no_expanded),
            std::string::npos);
  const auto with = [](const std::string& uncertainty, const std::string& k) {
    return fault(real("1", flow,
                      "<expandedUnc><uncertainty>" + uncertainty + "</uncertainty><coverageFactor>" + k +
                          "</coverageFactor></expandedUnc>"));
  };
  EXPECT_NE(with("-1", "2").find("an uncertainty is negative"), std::string::npos);
  EXPECT_NE(with("1", "0.95").find("the coverage factor 0.95 can't be"), std::string::npos);
  EXPECT_EQ(with("1", "10"), "");
}

}  // namespace
}  // namespace driftwarden::calibration_series_test
