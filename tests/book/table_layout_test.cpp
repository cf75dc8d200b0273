// SPDX-License-Identifier: MIT
#include "book/table_layout.hpp"

#include <gtest/gtest.h>

#include <array>

#include "book/padded_text.hpp"
#include "book/written_book.hpp"

namespace driftwarden::table_layout_test {
namespace {

enum Field : int { name, reading, temperature, uncertainty, taken, warm_up, note };

constexpr std::array or_a_ratio{Dimension::ratio};
// A table of invented columns, one of each type.
constexpr std::array<FieldSpec, 7> fields{{
    {0, "name", CellType::text, Dimension::count, true},
    {1, "reading", CellType::quantity, Dimension::flow, true},
    {2, "temperature", CellType::quantity, Dimension::temperature},
    {3, "uncertainty", CellType::quantity, Dimension::flow, false, 0, 1e5, or_a_ratio},
    {4, "taken", CellType::moment},
    {5, "warm-up", CellType::quantity, Dimension::time},
    {6, "note"},
}};
constexpr TableSpec spec{"readings", fields};
constexpr TableSpec spec_without_note{"decisions", std::span(fields).first(6)};

std::optional<TableLayout> layout_of(std::string_view text, const HeadingMap& owners = {},
                                     const TableSpec& table = spec) {
  Diagnostics problems;
  return read_layout({PaddedText(text), "f.csv"}, table, owners, problems);
}

std::string told_of(std::string_view text, const HeadingMap& owners = {}, const TableSpec& table = spec) {
  Diagnostics problems;
  read_layout({PaddedText(text), "f.csv"}, table, owners, problems);
  return told(problems);
}

std::vector<int> columns_of(std::string_view text, const HeadingMap& owners = {}) {
  const auto layout = layout_of(text, owners);
  return layout ? layout->column_of_field : std::vector<int>{};
}

TEST(TableLayout, FindsColumnsInAnyOrder) {
  EXPECT_EQ(columns_of("taken,reading [L/min],name\n"), (std::vector<int>{2, 1, -1, -1, 0, -1, -1}));
  EXPECT_EQ(told_of("taken,reading [L/min],name\n"), "");
}

TEST(TableLayout, MatchesHeadingsWithoutRegardToCaseBlanksHyphensAndUnderscores) {
  for (const std::string heading :
       {"warm-up [min]", "Warm Up[min]", "WARM_UP [ min ]", "warmup [MIN]", "  warm  - up [min] "}) {
    const auto layout = layout_of("NAME,Reading[l/min]," + heading + "\n");
    ASSERT_TRUE(layout) << heading;
    EXPECT_EQ(layout->column_of_field[warm_up], 2) << heading;
  }
}

TEST(TableLayout, MatchesAHeadingBrokenOverLines) {
  const auto layout = layout_of("name,\"Reading\n[mL/min]\",\"warm\r\nup [min]\"\nx,1,2\n");
  ASSERT_TRUE(layout);
  EXPECT_EQ(layout->column_of_field[reading], 1);
  EXPECT_EQ(layout->column_of_field[warm_up], 2);
  EXPECT_EQ(layout->first_line, 4U) << "the heading line takes three lines";
  EXPECT_EQ(layout->rows_begin, 41U);
}

TEST(TableLayout, ReadsTheUnitOfEachQuantity) {
  const auto layout = layout_of("name,reading [cc/min],temperature [°F],uncertainty [%],warm-up [h]\n");
  ASSERT_TRUE(layout);
  EXPECT_DOUBLE_EQ(layout->unit_of_field[reading].to_inside(2000), 2.0);
  EXPECT_DOUBLE_EQ(layout->unit_of_field[temperature].to_inside(77), 298.15);
  EXPECT_EQ(layout->unit_of_field[uncertainty].dimension, Dimension::ratio);
  EXPECT_DOUBLE_EQ(layout->unit_of_field[uncertainty].to_inside(5), 0.05);
  EXPECT_DOUBLE_EQ(layout->unit_of_field[warm_up].to_inside(2), 120.0);
  EXPECT_FALSE(layout->has(taken));
}

TEST(TableLayout, LeavesAMarkOfTheByteOrderOut) {
  const auto layout = layout_of("\xEF\xBB\xBFname,reading [L/min]\nx,1\n");
  ASSERT_TRUE(layout);
  EXPECT_EQ(layout->column_of_field[name], 0);
  EXPECT_EQ(layout->rows_begin, 24U);
  EXPECT_EQ(layout->first_line, 2U);
  EXPECT_EQ(
      told_of("\xEF\xBB\xBFname,reading\n"),
      "f.csv:1:6: error: the heading 'reading' carries no unit; write it as in 'reading [L/min]'; units of flow are "
      "L/min, mL/min, cm3/min, m3/h, m3/min, ft3/min [heading/no-unit]\n")
      << "columns are counted behind the mark";
}

TEST(TableLayout, FindsTheSeparatorInTheHeadingLine) {
  EXPECT_EQ(layout_of("name,reading [L/min]\n")->separator, ',');
  EXPECT_EQ(layout_of("name;reading [L/min];note\n")->separator, ';');
  EXPECT_EQ(layout_of("name\treading [L/min]\tnote, remark\n")->separator, '\t');
}

TEST(TableLayout, HasNoRowsBehindAHeadingLineThatEndsTheFile) {
  for (const std::string text : {"name,reading [L/min]", "name,reading [L/min]\n", "name,reading [L/min]\r"}) {
    const auto layout = layout_of(text);
    ASSERT_TRUE(layout);
    EXPECT_EQ(layout->rows_begin, text.size());
    EXPECT_EQ(layout->columns, 2U);
  }
}

TEST(TableLayout, TakesTheOwnersHeadings) {
  const HeadingMap owners{{"Flow LPM", {"reading [L/min]", {"book.toml", 5, 14}}},
                          {"Kit", {"name", {"book.toml", 6, 9}}}};
  EXPECT_EQ(columns_of("kit,flow_lpm\n", owners), (std::vector<int>{0, 1, -1, -1, -1, -1, -1}));
  EXPECT_EQ(columns_of("name,Reading [L/min]\n", owners), (std::vector<int>{0, 1, -1, -1, -1, -1, -1}))
      << "and ours still";
  const auto layout = layout_of("kit,FLOW LPM\n", owners);
  ASSERT_TRUE(layout);
  EXPECT_DOUBLE_EQ(layout->unit_of_field[reading].to_inside(2), 2.0);
}

TEST(TableLayout, TellsOfAnOwnersHeadingWithoutAUnitByTheOwnersName) {
  EXPECT_EQ(told_of("name,Flow\n", {{"Flow", {"reading", {"book.toml", 5, 8}}}}),
            "f.csv:1:6: error: the heading 'Flow' carries no unit; write it as in 'reading [L/min]'; units of flow are "
            "L/min, mL/min, cm3/min, m3/h, m3/min, ft3/min [heading/no-unit]\n");
}

TEST(TableLayout, TellsEveryFaultOfTheHeadingLineAtOnce) {
  EXPECT_EQ(
      told_of("temperature [kPa],readin [L/min],warm-up,name,Name\n"),
      "f.csv:1:1: error: the heading 'temperature [kPa]' has a unit that is not one of temperature; units of "
      "temperature are °C, °F, K [heading/unknown-unit]\n"
      "f.csv:1:34: error: the heading 'warm-up' carries no unit; write it as in 'warm-up [min]'; units of time are "
      "s, min, h, d [heading/no-unit]\n"
      "f.csv:1:47: error: the column 'name' stands twice, here as 'Name'; keep one of them [heading/twice]\n"
      "f.csv:1: error: there is no column 'reading [L/min]' (is 'readin [L/min]' meant?); add it to the heading "
      "line, or map your own heading to it in book.toml under [headings.readings] [heading/missing]\n"
      "f.csv:1:19: remark: columns without a meaning here are kept as notes: 'readin [L/min]'; did you mean "
      "'reading' by 'readin [L/min]'? [heading/unknown]\n");
  EXPECT_FALSE(layout_of("temperature [kPa],reading [L/min],name\n"));
}

TEST(TableLayout, TellsTwiceOfAColumnUnderTheOwnersAndOurName) {
  EXPECT_EQ(told_of("name,reading [L/min],Kit\n", {{"Kit", {"name", {"book.toml", 5, 8}}}}),
            "f.csv:1:22: error: the column 'name' stands twice, here as 'Kit'; keep one of them [heading/twice]\n");
}

TEST(TableLayout, NamesTheUnitsOfBothDimensionsWhereAColumnHasTwo) {
  EXPECT_EQ(
      told_of("name,reading [L/min],uncertainty [°C]\n"),
      "f.csv:1:22: error: the heading 'uncertainty [°C]' has a unit that is not one of flow; units of flow are L/min, "
      "mL/min, cm3/min, m3/h, m3/min, ft3/min; units of ratio are %, 1 [heading/unknown-unit]\n");
}

TEST(TableLayout, TellsWhereAFaultStandsBehindAHeadingOfSeveralLinesAndBytes) {
  EXPECT_EQ(
      told_of("\"Prüf\nling °\",name,reading [°C]\n"),
      "f.csv:2:14: error: the heading 'reading [°C]' has a unit that is not one of flow; units of flow are L/min, "
      "mL/min, cm3/min, m3/h, m3/min, ft3/min [heading/unknown-unit]\n"
      "f.csv:1:1: remark: columns without a meaning here are kept as notes: 'Prüf\\x0aling °' [heading/unknown]\n");
}

TEST(TableLayout, NamesUnknownColumnsOnceAndKeepsThemAsNotes) {
  const std::string text = "name,Colour,reading [L/min],namme,\n";
  EXPECT_EQ(
      told_of(text),
      "f.csv:1:6: remark: columns without a meaning here are kept as notes: 'Colour', 'namme'; did you mean 'name' "
      "by 'namme'? [heading/unknown]\n");
  const auto layout = layout_of(text);
  ASSERT_TRUE(layout);
  EXPECT_EQ(layout->columns, 5U);
  EXPECT_EQ(layout->notes, (std::vector<std::pair<int, std::string>>{{1, "Colour"}, {3, "namme"}, {4, "column 5"}}))
      << "a column without a heading is nobody's mistake, and no cell of it is lost";
}

TEST(TableLayout, SaysThatUnknownColumnsAreNotUsedWhereATableHasNoNotes) {
  EXPECT_EQ(told_of("name,reading [L/min],Colour\n", {}, spec_without_note),
            "f.csv:1:22: remark: columns without a meaning here are not used: 'Colour' [heading/unknown]\n");
}

TEST(TableLayout, TakesAHeadingWithTextBehindItsUnitForAnother) {
  EXPECT_EQ(columns_of("name,reading [L/min],reading [L/min] uncorrected\n"),
            (std::vector<int>{0, 1, -1, -1, -1, -1, -1}));
}

TEST(TableLayout, NeedsAHeadingLine) {
  const std::string none =
      "f.csv:1: error: there is no heading line; begin the file with the columns' names [heading/none]\n";
  for (const std::string text : {"", "\xEF\xBB\xBF", "\n", "\r\n", "\n\n", ",,\n"}) {
    EXPECT_EQ(told_of(text), none) << testing::PrintToString(text);
  }
}

TEST(TableLayout, TellsOfQuotesThatDoNotFitInTheHeadingLine) {
  EXPECT_EQ(
      told_of("name,\"reading [L/min]\nx,1\n"),
      "f.csv:1:6: error: the quoted cell that begins here never ends; close it with a quote, and double the quotes "
      "inside it [csv/open-quote]\n");
  EXPECT_EQ(
      told_of("\"name\"s,reading [L/min]\nx,1\n"),
      "f.csv:1:7: error: text stands between a closing quote and the separator; double the quotes inside a quoted "
      "cell [csv/text-after-quote]\n");
}

TEST(TableLayout, TellsOfAFileInUtf16) {
  const std::string told =
      "f.csv: error: the file is in UTF-16, and not in UTF-8; save it as CSV in UTF-8 [csv/not-utf-8]\n";
  EXPECT_EQ(told_of(std::string("\xFF\xFEn\0a\0m\0e\0", 10)), told);
  EXPECT_EQ(told_of(std::string("\xFE\xFF\0n\0a\0m\0e", 10)), told);
  EXPECT_EQ(told_of(std::string("n\0a\0m\0e\0", 8)), told) << "without a mark";
}

TEST(TableLayout, TellsOfAHeadingInAnotherEncoding) {
  EXPECT_EQ(told_of("name,reading [L/min],temperature [\xB0"
                    "C],note\nx,1,2,\n"),
            "f.csv:1:22: error: the heading 'temperature [\\xb0"
            "C]' is not UTF-8; save it as CSV in UTF-8 "
            "[csv/not-utf-8]\n");
  EXPECT_EQ(told_of("name,\"temp\xE9rature\nde l'air\"\nx,1\n"),
            "f.csv:1:6: error: the heading 'temp\\xe9rature\\x0ade l'air' is not UTF-8; save it as CSV in UTF-8 "
            "[csv/not-utf-8]\n");
}

TEST(TableLayout, AsksWhetherAMappedHeadingWasMeant) {
  const HeadingMap owners{{"Caudal", {"reading [L/min]", {"book.toml", 5, 10}}}};
  EXPECT_EQ(
      told_of("name,Caudall\n", owners),
      "f.csv:1: error: there is no column 'reading [L/min]' (is 'Caudall' meant?); add it to the heading line, or "
      "map your own heading to it in book.toml under [headings.readings] [heading/missing]\n"
      "f.csv:1:6: remark: columns without a meaning here are kept as notes: 'Caudall'; did you mean 'Caudal' by "
      "'Caudall'? [heading/unknown]\n");
}

TEST(TableLayout, TellsOfLinesThatEndInCarriageReturnsAlone) {
  EXPECT_EQ(told_of("name,reading [L/min]\rx,1\ry,2\r"),
            "f.csv: error: the lines end in carriage returns alone; save it with line ends of today: LF, or CR and LF "
            "[csv/line-ends]\n");
}

TEST(OwnersHeadings, HaveToBeMappedToAColumn) {
  const HeadingMap owners{{"Flow LPM", {"readng [L/min]", {"book.toml", 7, 14}}},
                          {"Kit", {"name", {"book.toml", 6, 9}}},
                          {"Lamp", {"colour", {"book.toml", 8, 9}}}};
  Diagnostics problems;
  check_owners_headings(owners, spec, problems);
  EXPECT_EQ(
      told(problems),
      "book.toml:7:14: error: 'readng [L/min]' is no column of readings; did you mean 'reading'? "
      "[heading/unknown-target]\n"
      "book.toml:8:9: error: 'colour' is no column of readings; known are name, reading, temperature, uncertainty, "
      "taken, warm-up, note [heading/unknown-target]\n");
}

TEST(SplitHeading, TakesTheUnitOutOfTheBrackets) {
  const auto split = [](std::string_view text) {
    const Heading heading = split_heading(text);
    return heading.name + "|" + heading.unit.value_or("none");
  };
  EXPECT_EQ(split("reading [L/min]"), "reading|L/min");
  EXPECT_EQ(split("  reading[ L/min ] "), "reading|L/min");
  EXPECT_EQ(split("reading"), "reading|none");
  EXPECT_EQ(split("reading []"), "reading|");
  EXPECT_EQ(split("reading ]L/min["), "reading ]L/min[|none");
  EXPECT_EQ(split("reading [L/min"), "reading [L/min|none");
  EXPECT_EQ(split("[L/min]"), "|L/min");
  EXPECT_EQ(split("reading [L/min] of PUMP-1"), "reading [L/min] of PUMP-1|none");
}

TEST(SplitHeading, TakesAUnitFromRoundBracketsOrBehindAComma) {
  const auto split = [](std::string_view text) {
    const Heading heading = split_heading(text);
    return heading.name + "|" + heading.unit.value_or("none");
  };
  EXPECT_EQ(split("reading (L/min)"), "reading|L/min");
  EXPECT_EQ(split("Flow, L/min"), "Flow|L/min");
  EXPECT_EQ(split("temperature (of the air) (°C)"), "temperature (of the air)|°C");
  for (const char* none : {"reading (uncorrected)", "reading (1)", "calibrated, by", "pump, first"})
    EXPECT_EQ(split(none), std::string(none) + "|none");
}

TEST(OurHeading, TakesTheUnitOfTheOwners) {
  const HeadingMap owners{{"Flow", {"reading", {}}}, {"Bench temp", {"temperature [°C]", {}}}};
  EXPECT_EQ(our_heading("Flow (mL/min)", owners), "reading [mL/min]");
  EXPECT_EQ(our_heading("bench temp", owners), "temperature [°C]");
  EXPECT_EQ(our_heading("Flow", owners), "reading");
  EXPECT_EQ(our_heading("Flux (mL/min)", owners), "Flux (mL/min)");
}

TEST(Heading, OfManyColumnsWithoutAMeaningNamesTheFirst) {
  std::string line = "name";
  for (int i = 0; i < 30; ++i) line += ",x" + std::to_string(i);
  const std::string said = told_of(line + ",reading [L/min]\n");
  EXPECT_NE(said.find(", 'x19' and 10 more [heading/unknown]\n"), std::string::npos) << said;
}

TEST(SeparatorOf, IsTheOneThatStandsMostOftenOutsideQuotes) {
  EXPECT_EQ(separator_of("a,b,c\n;;;;\n"), ',') << "of the first line";
  EXPECT_EQ(separator_of("a;b,c;d\n"), ';');
  EXPECT_EQ(separator_of("a\tb,c\td\n"), '\t');
  EXPECT_EQ(separator_of("\"a,b,c,d\";e;f\n"), ';');
  EXPECT_EQ(separator_of("\"a \"\"b,c,d\"\",\";e;f\n"), ';');
  EXPECT_EQ(separator_of("a 5\" tube;b,c;d\n;,,,,,\n"), ';') << "a quote inside a bare cell opens nothing";
  EXPECT_EQ(separator_of("alone"), ',');
  EXPECT_EQ(separator_of(""), ',');
  EXPECT_EQ(separator_of("a,b;c\n"), ',') << "the comma where they stand equally often";
}

}  // namespace
}  // namespace driftwarden::table_layout_test
