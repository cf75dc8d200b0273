// SPDX-License-Identifier: MIT
#include "book/row_reader.hpp"

#include <gtest/gtest.h>

#include <array>
#include <memory>

#include "book/padded_text.hpp"
#include "book/written_book.hpp"

namespace driftwarden::row_reader_test {
namespace {

enum Field : int { name, reading, temperature, factor, taken, due, stage, fault, note };

// A table of invented columns, one of each type and some more.
constexpr std::array<FieldSpec, 9> fields{{
    {0, "name", CellType::text, Dimension::count, true},
    {1, "reading", CellType::quantity, Dimension::flow, false, 0, 1e5},
    {2, "temperature", CellType::quantity, Dimension::temperature, false, 180, 400},
    {3, "factor", CellType::number, Dimension::count, false, 1, 10},
    {4, "taken", CellType::moment},
    {5, "due", CellType::date},
    {6, "stage", CellType::word},
    {7, "fault", CellType::word},
    {8, "note"},
}};
constexpr TableSpec spec{"readings", fields};
constexpr std::array<std::string_view, 3> stages{"pre", "field", "post"};
const std::string heading = "name,reading [mL/min],temperature [°C],factor,taken,due,stage,fault,note\n";

// Reads the rows of a text one after the other.
class Reading {
 public:
  explicit Reading(const std::string& text, char decimal = '.') : text_(text), decimal_(decimal) {
    Diagnostics problems;
    layout_ = *read_layout({text_, "f.csv"}, spec, {}, problems);
    scanner_ = std::make_unique<CsvScanner>(std::string_view(text_).substr(layout_.rows_begin), layout_.separator);
    line_ = layout_.first_line;
    row = std::make_unique<RowReader>(
        RowContext{layout_, spec, file_, zone_, DateOrder::iso, decimal_, texts_, problems_, lost, marks_});
  }

  RowReader& next() {
    EXPECT_TRUE(scanner_->next());
    row->start(*scanner_, line_);
    line_ += 1 + scanner_->extra_lines();
    return *row;
  }
  std::string problems() const { return told(problems_.sorted().problems); }
  const std::string& text(TextId id) const { return pool_.text(id); }

  std::unique_ptr<RowReader> row;
  ProblemNumber lost = no_problem;

 private:
  PaddedText text_;
  char decimal_;
  const std::string file_ = "f.csv";
  TimeZone zone_ = TimeZone::utc();
  TableLayout layout_;
  TextPool pool_;
  SharedTexts texts_{pool_};
  ProblemList problems_;
  EmptyMarks marks_;
  std::unique_ptr<CsvScanner> scanner_;
  std::uint32_t line_ = 0;
};

// What is told of one row that is read cell by cell.
std::string told_of(const std::string& row_text, char decimal = '.') {
  Reading text(heading + row_text, decimal);
  RowReader& row = text.next();
  row.text(name);
  for (const int f : {reading, temperature, factor}) row.quantity(f);
  row.moment(taken);
  row.date(due);
  row.word(stage, stages);
  row.yes_no(fault);
  row.interned_note(note);
  return text.problems();
}

TEST(RowReader, ReadsEveryTypeOfCell) {
  Reading text(heading + "P-1,1950,20,2,2026-05-01T08:00Z,2026-06-01,POST,Yes,all well\n");
  RowReader& row = text.next();
  EXPECT_EQ(row.text(name), "P-1");
  EXPECT_EQ(row.quantity(reading), 1.95);
  EXPECT_DOUBLE_EQ(row.quantity(temperature), 293.15);
  EXPECT_EQ(row.quantity(factor), 2.0);
  EXPECT_EQ(row.moment(taken), 1777622400);
  EXPECT_EQ(row.date(due), day_from({2026, 6, 1}));
  EXPECT_EQ(row.word(stage, stages), 2);
  EXPECT_EQ(row.yes_no(fault), YesNo::yes);
  EXPECT_EQ(text.text(row.interned(note)), "all well");
  EXPECT_EQ(row.problem(), no_problem);
  EXPECT_EQ(text.problems(), "");
}

TEST(RowReader, ReadsEmptyCellsAsMissingAndNotAsZero) {
  Reading text(heading + "P-1,, ,,\t,,,,\n");
  RowReader& row = text.next();
  EXPECT_TRUE(is_missing(row.quantity(reading)));
  EXPECT_TRUE(is_missing(row.quantity(temperature)));
  EXPECT_TRUE(is_missing(row.quantity(factor)));
  EXPECT_EQ(row.moment(taken), no_moment);
  EXPECT_EQ(row.date(due), no_day);
  EXPECT_EQ(row.word(stage, stages), -1);
  EXPECT_EQ(row.yes_no(fault), YesNo::unsaid);
  EXPECT_EQ(row.interned(note), 0U);
  EXPECT_EQ(row.interned_note(note), 0U);
  EXPECT_EQ(text.problems(), "");
}

TEST(RowReader, ReadsColumnsThatAreNotThereAsMissing) {
  Reading text("name\nP-1\n");
  RowReader& row = text.next();
  EXPECT_FALSE(row.has(reading));
  EXPECT_TRUE(is_missing(row.quantity(reading)));
  EXPECT_EQ(row.moment(taken), no_moment);
  EXPECT_EQ(row.date(due), no_day);
  EXPECT_EQ(row.yes_no(fault), YesNo::unsaid);
  EXPECT_EQ(row.text(note), "");
  EXPECT_EQ(row.interned_note(note), 0U);
  EXPECT_EQ(text.problems(), "");
}

TEST(RowReader, LeavesBlanksAroundACellOut) {
  Reading text(heading + " P 1 ,\t1950 ,\" 20 \",,  2026-05-01 08:00 ,, pre ,,\n");
  RowReader& row = text.next();
  EXPECT_EQ(row.text(name), "P 1");
  EXPECT_EQ(row.quantity(reading), 1.95);
  EXPECT_DOUBLE_EQ(row.quantity(temperature), 293.15);
  EXPECT_EQ(row.moment(taken), 1777622400);
  EXPECT_EQ(row.word(stage, stages), 0);
  EXPECT_EQ(text.problems(), "");
}

TEST(RowReader, ReadsADecimalCommaWhereTheBookHasOne) {
  Reading text("name;reading [L/min]\nP-1;1,95\n", ',');
  EXPECT_EQ(text.next().quantity(reading), 1.95);
  EXPECT_EQ(text.problems(), "");
}

TEST(RowReader, RefusesTheOtherDecimalSign) {
  EXPECT_EQ(
      told_of("P-1,\"1,95\",,,,,,,\n"),
      "f.csv:2:5: error: '1,95' is not a number; write digits with '.' as decimal sign, or set decimal = \",\" in "
      "book.toml [cell/not-a-number]\n");
  EXPECT_EQ(
      told_of("P-1,1.95,,,,,,,\n", ','),
      "f.csv:2:5: error: '1.95' is not a number; write digits with ',' as decimal sign; a point is not one in this "
      "book [cell/not-a-number]\n");
  EXPECT_EQ(
      told_of("P-1,\"1,234,5\",,,,,,,\n", ','),
      "f.csv:2:5: error: '1,234,5' is not a number; write digits with ',' as decimal sign; the unit belongs in the "
      "heading [cell/not-a-number]\n");
}

TEST(RowReader, SaysWhyACellIsNoNumber) {
  EXPECT_EQ(told_of("P-1,195O,,,,,,,\n"),
            "f.csv:2:5: error: '195O' is not a number; write digits with '.' as decimal sign; a letter stands where a "
            "digit should [cell/not-a-number]\n");
  EXPECT_EQ(
      told_of("P-1,\"1,l\",,,,,,,\n", ','),
      "f.csv:2:5: error: '1,l' is not a number; write digits with ',' as decimal sign; a letter stands where a digit "
      "should [cell/not-a-number]\n");
  EXPECT_EQ(
      told_of("P-1,half full,,,,,,,\n"),
      "f.csv:2:5: error: 'half full' is not a number; write digits with '.' as decimal sign; the unit belongs in the "
      "heading [cell/not-a-number]\n");
  EXPECT_EQ(
      told_of("P-1,1950 mL,,,,,,,\n"),
      "f.csv:2:5: error: '1950 mL' is not a number; write digits with '.' as decimal sign; the unit belongs in the "
      "heading [cell/not-a-number]\n");
  EXPECT_EQ(told_of("P-1,,,nan,,,,,\n"),
            "f.csv:2:7: error: 'nan' is not a number; write digits with '.' as decimal sign; the unit belongs in the "
            "heading [cell/not-a-number]\n");
}

TEST(RowReader, SaysThatABlankStandsInANumber) {
  for (const std::string written : {"2.4 86", "2 486", "\"2,4 86\""}) {
    const std::string told = told_of("P-1," + written + ",,,,,,,\n");
    EXPECT_NE(told.find("is not a number; write digits with '.' as decimal sign; a blank stands between digits "),
              std::string::npos)
        << told;
  }
  EXPECT_NE(told_of("P-1,\"2,4 86\",,,,,,,\n", ',').find("; a blank stands between digits ["), std::string::npos);
}

TEST(RowReader, TellsOfEveryTextThatIsNotUtf8) {
  Reading text(heading + "P-1,,,,,,,,Jos\xE9\nP-2,,,,,,,,Jos\xE9\nP\xE9,,,,,,,,José\n");
  EXPECT_EQ(text.next().interned(note), 0U);
  EXPECT_NE(text.row->problem(), no_problem);
  EXPECT_EQ(text.next().note(note), "Jos\xE9");
  text.next().kept_text(name);
  EXPECT_EQ(text.text(text.row->interned(note)), "José");
  EXPECT_EQ(text.problems(),
            "f.csv:2:12: error: 'Jos\\xe9' is not UTF-8; save the file as CSV in UTF-8 [csv/not-utf-8]\n"
            "f.csv:3:12: error: 'Jos\\xe9' is not UTF-8; save the file as CSV in UTF-8 [csv/not-utf-8]\n"
            "f.csv:4:1: error: 'P\\xe9' is not UTF-8; save the file as CSV in UTF-8 [csv/not-utf-8]\n");
}

TEST(RowReader, ReadsAnyNumberOfDigitsAlsoWithADecimalComma) {
  const std::string digits = "1,9500000000000000000000000000000000000000000000000000000001";
  Reading text("name;reading [L/min]\nP-1;" + digits + "\n", ',');
  EXPECT_EQ(text.next().quantity(reading), 1.95);
  EXPECT_EQ(text.problems(), "");
}

TEST(RowReader, RefusesFiguresThatCannotBeWithBoundsInTheUnitOfTheHeading) {
  EXPECT_EQ(
      told_of("P-1,-1,293.15,11,,,,,\n"),
      "f.csv:2:5: error: the reading '-1' can't be; between 0 mL/min and 100000000 mL/min is plausible; is the unit "
      "in the heading right? [cell/implausible]\n"
      "f.csv:2:8: error: the temperature '293.15' can't be; between -93.15 °C and 126.85 °C is plausible; is the "
      "unit in the heading right? [cell/implausible]\n"
      "f.csv:2:15: error: the factor '11' can't be; between 1 and 10 is plausible; is the unit in the heading right? "
      "[cell/implausible]\n");
}

TEST(RowReader, TakesFiguresOnTheBounds) {
  Reading text("name,reading [L/min],factor\nP-1,0,1\nP-2,100000,10\n");
  EXPECT_EQ(text.next().quantity(reading), 0.0);
  EXPECT_EQ(text.row->quantity(factor), 1.0);
  EXPECT_EQ(text.next().quantity(reading), 1e5);
  EXPECT_EQ(text.row->quantity(factor), 10.0);
  EXPECT_EQ(text.problems(), "");
}

TEST(RowReader, TellsOfARequiredCellThatIsEmpty) {
  EXPECT_EQ(told_of(" ,1950,,,,,,,\n"),
            "f.csv:2:1: error: the cell under 'name' is empty; every row needs one [cell/empty]\n");
}

TEST(RowReader, SuggestsTheNearestOfTheWords) {
  EXPECT_EQ(told_of("P-1,,,,,,pots,yes,\n"),
            "f.csv:2:10: error: 'pots' is no word for 'stage'; did you mean 'post'? write pre, field or post "
            "[cell/unknown-word]\n");
  EXPECT_EQ(told_of("P-1,,,,,,pre,perhaps,\n"),
            "f.csv:2:14: error: 'perhaps' is no word for 'fault'; write no or yes [cell/unknown-word]\n");
}

TEST(RowReader, TellsOfTimesAndDates) {
  EXPECT_EQ(told_of("P-1,,,,2026-05-01,2026-02-30,,,\n"),
            "f.csv:2:8: error: '2026-05-01' is a date without a time of day; write the time too, as 2026-05-01T07:15 "
            "[time/date-only]\n"
            "f.csv:2:19: error: '2026-02-30' names a day that no calendar has; days of 2026-02 run from 01 to 28 "
            "[time/no-such-date]\n");
}

TEST(RowReader, TellsEveryFaultOfARowAndCallsTheFirstItsProblem) {
  Reading text(heading + "P-1,x,,y,,,,,\n");
  RowReader& row = text.next();
  row.quantity(reading);
  const ProblemNumber first = row.problem();
  EXPECT_NE(first, no_problem);
  row.quantity(factor);
  EXPECT_EQ(row.problem(), first);
  EXPECT_EQ(
      text.problems(),
      "f.csv:2:5: error: 'x' is not a number; write digits with '.' as decimal sign; the unit belongs in the heading "
      "[cell/not-a-number]\n"
      "f.csv:2:8: error: 'y' is not a number; write digits with '.' as decimal sign; the unit belongs in the heading "
      "[cell/not-a-number]\n");
}

TEST(RowReader, HasNoProblemInTheRowBehindAFaultyOne) {
  Reading text(heading + "P-1,x,,,,,,,\nP-2,1950,,,,,,,\n");
  text.next().quantity(reading);
  EXPECT_NE(text.row->problem(), no_problem);
  EXPECT_EQ(text.next().quantity(reading), 1.95);
  EXPECT_EQ(text.row->problem(), no_problem);
}

TEST(RowReader, CountsColumnsInCharactersAndLinesInQuotedCells) {
  EXPECT_EQ(
      told_of("\"é°\n漢\",x,,y,,,,,\n"),
      "f.csv:3:4: error: 'x' is not a number; write digits with '.' as decimal sign; the unit belongs in the heading "
      "[cell/not-a-number]\n"
      "f.csv:3:7: error: 'y' is not a number; write digits with '.' as decimal sign; the unit belongs in the heading "
      "[cell/not-a-number]\n");
}

TEST(RowReader, TellsOnlyTheNumberOfCellsWhereItIsWrong) {
  const std::string told =
      " cells, the heading line 9; write one cell for each heading; a cell that holds the separator goes in quotes "
      "[csv/cell-count]\n";
  EXPECT_EQ(told_of(",x,\n"), "f.csv:2: error: the row has 3" + told);
  EXPECT_EQ(told_of("P-1,1,95,20,x,y,z,pots,perhaps,\n"), "f.csv:2: error: the row has 10" + told);
  EXPECT_EQ(told_of(" \n"), "f.csv:2: error: the row has 1" + told);
}

TEST(RowReader, StillReadsTheCellsThereAreInARowWithTooFew) {
  Reading text(heading + "P-1,1950\n");
  RowReader& row = text.next();
  EXPECT_EQ(row.text(name), "P-1");
  EXPECT_EQ(row.quantity(reading), 1.95);
  EXPECT_TRUE(is_missing(row.quantity(factor)));
  EXPECT_NE(row.problem(), no_problem);
  EXPECT_EQ(text.lost, no_problem) << "no other row is in doubt";
}

TEST(RowReader, TellsOfAQuoteThatNobodyClosesAndThatRowsAreLost) {
  EXPECT_EQ(
      told_of("P-1,1950,\"20,,,,,,\nP-2,1960,20,,,,,,\n"),
      "f.csv:2:10: error: the quoted cell that begins here never ends; close it with a quote, and double the quotes "
      "inside it [csv/open-quote]\n");
  Reading text(heading + "P-1,1950,\"20,,,,,,\nP-2,1960,20,,,,,,\n");
  EXPECT_EQ(text.next().problem(), text.lost);
  EXPECT_NE(text.lost, no_problem);
}

TEST(RowReader, KnowsThatRowsAreLostInsideAStrayQuoteThatMeetsAnother) {
  Reading text(heading + "P-1,1950,\"20,,,,,,\nP-2,1960,\"20,,,,,,\nP-3,1970,20,,,,,,\n");
  text.next();
  EXPECT_EQ(
      text.problems(),
      "f.csv:3:11: error: text stands between a closing quote and the separator; double the quotes inside a quoted "
      "cell [csv/text-after-quote]\n");
  EXPECT_NE(text.lost, no_problem);
}

TEST(RowReader, TellsTheOtherFaultsOfARowWithTextBehindAQuote) {
  EXPECT_EQ(
      told_of("\"P\"-1,x,,,,,,,\n"),
      "f.csv:2:4: error: text stands between a closing quote and the separator; double the quotes inside a quoted "
      "cell [csv/text-after-quote]\n"
      "f.csv:2:7: error: 'x' is not a number; write digits with '.' as decimal sign; the unit belongs in the heading "
      "[cell/not-a-number]\n");
}

TEST(RowReader, GivesOneTextOneNumber) {
  Reading text(
      heading +
      "P-1,,,,,,,,same\nP-2,,,,,,,,other\nP-3,,,,,,,,same\nP-4,,,,,,,,\"sa\"\"me\"\nP-5,,,,,,,,\"sa\"\"me\"\n");
  const TextId first = text.next().interned(note);
  const TextId second = text.next().interned(note);
  EXPECT_NE(first, second);
  EXPECT_EQ(text.next().interned(note), first);
  const TextId quoted = text.next().interned(note);
  EXPECT_EQ(text.text(quoted), "sa\"me");
  EXPECT_EQ(text.next().interned(note), quoted);
}

TEST(RowReader, PutsTheCellsOfUnknownColumnsBehindTheNote) {
  Reading text("Lamp,name,note,Weather,\non,P-1,\"well, yes\", dry ,5\n,P-2,,wet,\n,P-3,,,\n");
  EXPECT_EQ(text.text(text.next().interned_note(note)), "well, yes; Lamp: on; Weather: dry; column 5: 5");
  EXPECT_EQ(text.text(text.next().interned_note(note)), "Weather: wet");
  EXPECT_EQ(text.next().interned_note(note), 0U);
  EXPECT_EQ(text.row->note(note), "");
}

TEST(RowReader, TakesTheProblemOfARecordItLeansOnUnlessItHasItsOwn) {
  Reading text(heading + "P-1,x,,,,,,,\nP-2,1950,,,,,,,\n");
  text.next().quantity(reading);
  const ProblemNumber own = text.row->problem();
  text.row->lean_on(own + 7);
  EXPECT_EQ(text.row->problem(), own);
  text.next().lean_on(no_problem);
  EXPECT_EQ(text.row->problem(), no_problem);
  text.row->lean_on(own + 7);
  EXPECT_EQ(text.row->problem(), own + 7);
}

TEST(RowReader, RemarksOnADoubtWithoutAProblem) {
  Reading text(heading + "P-1,1950,,,,,,,\nP-2\n");
  text.next().doubt(reading, "a/b", "odd", "look again");
  EXPECT_EQ(text.row->problem(), no_problem);
  text.next().doubt(reading, "a/b", "odd", "look again");
  EXPECT_EQ(
      text.problems(),
      "f.csv:2:5: remark: odd; look again [a/b]\n"
      "f.csv:3: error: the row has 1 cells, the heading line 9; write one cell for each heading; a cell that holds "
      "the separator goes in quotes [csv/cell-count]\n");
}

TEST(RowReader, RefusesACellOfNulBytes) {
  EXPECT_EQ(
      told_of(std::string("P-1,1\0005,,,,,,,\n", 16)),
      "f.csv:2:5: error: '1\\x005' is not a number; write digits with '.' as decimal sign; the unit belongs in the "
      "heading [cell/not-a-number]\n");
}

}  // namespace
}  // namespace driftwarden::row_reader_test
