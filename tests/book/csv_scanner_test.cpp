// SPDX-License-Identifier: MIT
#include "book/csv_scanner.hpp"

#include <gtest/gtest.h>

#include <random>
#include <string>
#include <vector>

#include "book/padded_text.hpp"
#include "book/slow_csv.hpp"

namespace driftwarden::csv_scanner_test {
namespace {

using Rows = CsvRows;

Rows rows_of(std::string_view text, char separator = ',') {
  const PaddedText padded(text);
  CsvScanner scanner(padded, separator);
  Rows rows;
  while (scanner.next()) {
    rows.emplace_back();
    for (std::size_t i = 0; i < scanner.cell_count(); ++i) rows.back().emplace_back(scanner.text(i));
  }
  return rows;
}

// The fault of the first row, as "what at byte".
std::string fault_of(std::string_view text) {
  const PaddedText padded(text);
  CsvScanner scanner(padded, ',');
  if (!scanner.next() || scanner.fault() == CsvFault::none) return "none";
  const std::string what = scanner.fault() == CsvFault::open_quote ? "open quote" : "text after quote";
  return what + " at " + std::to_string(scanner.fault_at() - std::string_view(padded).data());
}

TEST(CsvScanner, SplitsRowsAtLineEndsAndCellsAtSeparators) {
  EXPECT_EQ(rows_of("a,b,c\nd,e,f\n"), (Rows{{"a", "b", "c"}, {"d", "e", "f"}}));
}

TEST(CsvScanner, FindsNoRowInAnEmptyText) { EXPECT_EQ(rows_of(""), Rows{}); }

// RFC 4180, section 2, rule 2: the last record may or may not have an ending line break.
TEST(CsvScanner, ReadsALastRowWithoutALineEnd) {
  EXPECT_EQ(rows_of("a,b\nc,d"), (Rows{{"a", "b"}, {"c", "d"}}));
  EXPECT_EQ(rows_of("a,b\nc,"), (Rows{{"a", "b"}, {"c", ""}}));
  EXPECT_EQ(rows_of("a"), (Rows{{"a"}}));
}

// RFC 4180, section 2, rule 1: CRLF.
TEST(CsvScanner, TakesCarriageReturnAndLineFeedAsOneLineEnd) {
  EXPECT_EQ(rows_of("a,b\r\nc,\r\n\r\n,d\r\n"), (Rows{{"a", "b"}, {"c", ""}, {""}, {"", "d"}}));
  EXPECT_EQ(rows_of("a,\"b\"\r\n\"c\",\"\"\r\n"), (Rows{{"a", "b"}, {"c", ""}}));
}

TEST(CsvScanner, TakesALoneCarriageReturnAtTheVeryEndAsALineEnd) {
  EXPECT_EQ(rows_of("a,b\r"), (Rows{{"a", "b"}}));
  EXPECT_EQ(rows_of("a,\"b\"\r"), (Rows{{"a", "b"}}));
  EXPECT_EQ(fault_of("a,\"b\"\r"), "none");
  EXPECT_EQ(rows_of("\"a\",b\r"), (Rows{{"a", "b"}}));
}

TEST(CsvScanner, KeepsACarriageReturnInsideARow) {
  EXPECT_EQ(rows_of("a\rb,c\r\r\n"), (Rows{{"a\rb", "c\r"}}));
  EXPECT_EQ(rows_of("\"x\",a\rb\n"), (Rows{{"x", "a\rb"}}));
  EXPECT_EQ(fault_of("\"a\"\rb,c\n"), "text after quote at 3");
}

// RFC 4180, section 2, rule 5 and 6: "fields may be enclosed in double quotes"; line breaks, quotes and commas must be.
TEST(CsvScanner, ReadsSeparatorsAndLineEndsInsideQuotes) {
  EXPECT_EQ(rows_of("\"a,b\",c\n\"d\ne\",\"f\r\ng\"\nh,i\n"), (Rows{{"a,b", "c"}, {"d\ne", "f\r\ng"}, {"h", "i"}}));
}

// RFC 4180, section 2, rule 7: "aaa","b""bb","ccc".
TEST(CsvScanner, ReadsADoubledQuoteInsideQuotesAsOne) {
  EXPECT_EQ(rows_of("\"aaa\",\"b\"\"bb\",\"ccc\"\n"), (Rows{{"aaa", "b\"bb", "ccc"}}));
  EXPECT_EQ(rows_of("\"\"\"a\"\"\",\"\"\"\"\n"), (Rows{{"\"a\"", "\""}}));
  EXPECT_EQ(rows_of("\"\"\"\"\"\"\n"), (Rows{{"\"\""}}));
}

TEST(CsvScanner, KeepsTheTextsOfSeveralCellsWithDoubledQuotesApart) {
  EXPECT_EQ(rows_of("\"1\"\"\",\"22\"\"\",\"a long one, longer than any text kept in place \"\"\",\"4\"\"\"\n"),
            (Rows{{"1\"", "22\"", "a long one, longer than any text kept in place \"", "4\""}}));
}

TEST(CsvScanner, TellsAnEmptyQuotedCellFromNoCell) { EXPECT_EQ(rows_of("\"\",\"\"\n\"\"\n"), (Rows{{"", ""}, {""}})); }

TEST(CsvScanner, TakesAQuoteInsideABareCellAsItself) {
  EXPECT_EQ(rows_of("5\" tube,a\"\"b\n"), (Rows{{"5\" tube", "a\"\"b"}}));
  EXPECT_EQ(rows_of(" \"a\",b\n"), (Rows{{" \"a\"", "b"}})) << "blanks are part of a field: section 2, rule 4";
  EXPECT_EQ(rows_of("\"x\",5\" tube\n"), (Rows{{"x", "5\" tube"}}));
}

TEST(CsvScanner, SplitsAtSemicolonsAndTabsWhenAskedTo) {
  EXPECT_EQ(rows_of("a,1;b\n\"c;d\";\"e\"\"\"\n", ';'), (Rows{{"a,1", "b"}, {"c;d", "e\""}}));
  EXPECT_EQ(rows_of("a,1\tb;2\t\n", '\t'), (Rows{{"a,1", "b;2", ""}}));
}

TEST(CsvScanner, ReadsNulBytesAsText) {
  const std::string text("a\0b,\"c\0\"\n", 9);
  EXPECT_EQ(rows_of(text), (Rows{{std::string("a\0b", 3), std::string("c\0", 2)}}));
}

TEST(CsvScanner, ReadsAFileOfOneColumn) {
  EXPECT_EQ(rows_of("name\nP-1\n\nP-2"), (Rows{{"name"}, {"P-1"}, {""}, {"P-2"}}));
}

TEST(CsvScanner, CallsARowOfNothingButSeparatorsBlank) {
  const PaddedText text("\n\r\n,,\n,,\r\n, ,\n\"\"\na");
  CsvScanner scanner(text, ',');
  std::vector<bool> blank;
  while (scanner.next()) blank.push_back(scanner.is_blank());
  EXPECT_EQ(blank, (std::vector<bool>{true, true, true, true, false, false, false}));
}

TEST(CsvScanner, CountsTheLineEndsInsideARow) {
  const PaddedText text("a,b\n\"c\nd\r\n\",\"\n\"\ne");
  CsvScanner scanner(text, ',');
  std::vector<std::uint32_t> extra;
  while (scanner.next()) extra.push_back(scanner.extra_lines());
  EXPECT_EQ(extra, (std::vector<std::uint32_t>{0, 3, 0}));
}

TEST(CsvScanner, GivesThePlaceOfEachCellAlsoOfQuotedOnes) {
  const PaddedText text("ab,\"c\",,\"d\"\"\"");
  CsvScanner scanner(text, ',');
  ASSERT_TRUE(scanner.next());
  std::vector<std::ptrdiff_t> at;
  for (std::size_t i = 0; i < scanner.cell_count(); ++i) at.push_back(scanner.raw(i) - scanner.row_begin());
  EXPECT_EQ(at, (std::vector<std::ptrdiff_t>{0, 3, 7, 8}));
}

TEST(CsvScanner, KnowsWhereTheNextRowBegins) {
  const PaddedText text("a,b\r\n\"c\"\r\nd");
  CsvScanner scanner(text, ',');
  std::vector<std::ptrdiff_t> behind;
  while (scanner.next()) behind.push_back(scanner.position() - std::string_view(text).data());
  EXPECT_EQ(behind, (std::vector<std::ptrdiff_t>{5, 10, 11}));
}

TEST(CsvScanner, FindsAQuoteThatNobodyCloses) {
  EXPECT_EQ(fault_of("a,\"b\nc,d\n"), "open quote at 2");
  EXPECT_EQ(rows_of("a,\"b\nc,d\n"), (Rows{{"a", "b\nc,d\n"}})) << "all that follows is inside";
  EXPECT_EQ(fault_of("\""), "open quote at 0");
  EXPECT_EQ(fault_of("\"a\"\""), "open quote at 0") << "the last two are a doubled quote";
}

TEST(CsvScanner, FindsTextBehindAClosingQuote) {
  EXPECT_EQ(fault_of("a,\"b\"c,d\n"), "text after quote at 5");
  EXPECT_EQ(rows_of("a,\"b\"c,d\ne,f,g\n"), (Rows{{"a", "b", "d"}, {"e", "f", "g"}})) << "the row goes on";
  EXPECT_EQ(fault_of("\"a\" ,b\n"), "text after quote at 3");
}

TEST(CsvScanner, TellsTheFirstTextBehindAQuoteOfSeveral) {
  EXPECT_EQ(fault_of("\"a\"x,\"b\"y\n"), "text after quote at 3");
}

TEST(CsvScanner, ForgetsTheFaultOfTheRowBefore) {
  const PaddedText text("\"a\"x\nb\n");
  CsvScanner scanner(text, ',');
  ASSERT_TRUE(scanner.next());
  ASSERT_EQ(scanner.fault(), CsvFault::text_after_quote);
  ASSERT_TRUE(scanner.next());
  EXPECT_EQ(scanner.fault(), CsvFault::none);
  EXPECT_FALSE(scanner.next());
}

// The scanner looks at 64 bytes at a time: cells and rows of every length around that, and one beyond a megabyte.
TEST(CsvScanner, ReadsCellsOfEveryLengthAroundItsStep) {
  for (const std::size_t length :
       {0U, 1U, 15U, 16U, 17U, 31U, 32U, 62U, 63U, 64U, 65U, 127U, 128U, 129U, 1U << 20U, (1U << 20U) + 3}) {
    const std::string x(length, 'x');
    EXPECT_EQ(rows_of(x + "," + x + "\n" + x + "\n" + "y"), (Rows{{x, x}, {x}, {"y"}})) << length;
    EXPECT_EQ(rows_of("\"" + x + "\n\"\"\",\"" + x + "\"\r\n" + x + "z"), (Rows{{x + "\n\"", x}, {x + "z"}})) << length;
  }
}

TEST(CsvScanner, AgreesWithASlowReaderOnAnyText) {
  constexpr std::string_view letters =
      "ab,;\"\"\n\r\0 "
      "\xC3\xA9,\n";
  std::mt19937 random(20260501);
  for (int round = 0; round < 40000; ++round) {
    std::string text(random() % 150, ' ');
    // Seldom quotes in some rounds, so that long rows without any come, too.
    const std::size_t kinds = round % 3 == 0 ? 4 : letters.size();
    for (char& c : text) c = letters[random() % kinds];
    const char separator = round % 2 == 0 ? ',' : ';';
    ASSERT_EQ(rows_of(text, separator), read_slowly(text, separator)) << testing::PrintToString(text);
  }
}

// input: rows of which one ends where the one above, of another number of words, has a separator, and the other way
// round.
TEST(CsvScanner, TellsALineEndFromASeparatorThatStoodThere) {
  for (const std::size_t length : {63U, 64U, 127U, 128U, 192U, 255U}) {
    const std::string x(length, 'x');
    const std::string far(100, 'y');
    const Rows rows{{x, far}, {x}, {x, far}, {x}, {x}};
    EXPECT_EQ(rows_of(x + "," + far + "\n" + x + "\n" + x + "," + far + "\n" + x + "\n" + x + "\n"), rows) << length;
  }
}

// Rows of a table whose cells mostly have one width and often repeat what stands above, among them rows with a carriage
// return, with quotes, with cells of another width, and rows longer than what is compared.
std::string random_table(std::mt19937& random, char separator) {
  std::vector<std::string> cells(1 + random() % 12);
  for (std::string& cell : cells) cell = std::string(random() % (random() % 5 == 0 ? 150 : 20), 'a');
  std::string text;
  for (int row = 0; row < 30; ++row) {
    for (std::size_t c = 0; c < cells.size(); ++c) {
      std::string& cell = cells[c];
      if (!cell.empty() && random() % 3 == 0) cell[random() % cell.size()] = static_cast<char>('a' + random() % 3);
      if (random() % 60 == 0) cell += 'd';
      const bool has_quotes = random() % 80 == 0;
      text += has_quotes ? '"' + cell + '"' : cell;
      if (c + 1 < cells.size()) text += separator;
    }
    text += random() % 20 == 0 ? "\r\n" : "\n";
  }
  if (random() % 2 == 0) text.pop_back();
  return text;
}

TEST(CsvScanner, SaysOfACellThatItRepeatsTheOneAboveOnlyWhereItDoes) {
  std::mt19937 random(20261130);
  std::size_t repeated = 0;
  for (int round = 0; round < 3000; ++round) {
    const char separator = round % 2 == 0 ? ',' : ';';
    const std::string text = random_table(random, separator);
    ASSERT_EQ(rows_of(text, separator), read_slowly(text, separator)) << testing::PrintToString(text);
    const PaddedText padded(text);
    CsvScanner scanner(padded, separator);
    CsvScanner behind;  // one row each, as where rows are scanned ahead
    std::vector<std::string> above;
    while (scanner.next()) {
      std::vector<std::string> row;
      for (std::size_t c = 0; c < scanner.cell_count(); ++c) {
        row.emplace_back(scanner.text(c));
        if (!scanner.repeats(c)) continue;
        ++repeated;
        ASSERT_LT(c, above.size());
        ASSERT_EQ(above[c], row[c]) << testing::PrintToString(text);
      }
      CsvScanner next = behind;
      if (!above.empty()) {
        next.go_on_behind(behind);
      } else {
        next = CsvScanner(padded, separator);
      }
      ASSERT_TRUE(next.next());
      for (std::size_t c = 0; c < row.size(); ++c) {
        ASSERT_EQ(next.text(c), row[c]);
        ASSERT_EQ(next.repeats(c), scanner.repeats(c));
      }
      behind = next;
      above = row;
    }
  }
  EXPECT_GT(repeated, 100000U);
}

TEST(PlaceInRow, CountsCharactersAndTheLinesOfQuotedCells) {
  const PaddedText text("é漢,\"a\né\",x\n");
  CsvScanner scanner(text, ',');
  ASSERT_TRUE(scanner.next());
  EXPECT_EQ(to_text(place_in_row(scanner, scanner.raw(0), "f.csv", 7)), "f.csv:7:1");
  EXPECT_EQ(to_text(place_in_row(scanner, scanner.raw(1), "f.csv", 7)), "f.csv:7:4");
  EXPECT_EQ(to_text(place_in_row(scanner, scanner.raw(2), "f.csv", 7)), "f.csv:8:4");
}

TEST(CsvFault, IsToldWhereItStands) {
  const PaddedText open("a,\"b");
  CsvScanner scanner(open, ',');
  ASSERT_TRUE(scanner.next());
  EXPECT_EQ(to_text(csv_fault(scanner, "f.csv", 3)),
            "f.csv:3:3: error: the quoted cell that begins here never ends; close it with a quote, and double the "
            "quotes inside it [csv/open-quote]");
  const PaddedText behind("\"a\nb\" c,d");
  scanner = CsvScanner(behind, ',');
  ASSERT_TRUE(scanner.next());
  EXPECT_EQ(
      to_text(csv_fault(scanner, "f.csv", 3)),
      "f.csv:4:3: error: text stands between a closing quote and the separator; double the quotes inside a quoted "
      "cell [csv/text-after-quote]");
}

TEST(CountLineEnds, CountsThoseOfTextsOfAnyLength) {
  for (std::size_t length = 0; length < 200; ++length) {
    std::string text(length, 'x');
    std::size_t expected = 0;
    for (std::size_t i = 0; i < length; i += 3) {
      text[i] = '\n';
      ++expected;
    }
    EXPECT_EQ(count_line_ends(text), expected) << length;
  }
}

}  // namespace
}  // namespace driftwarden::csv_scanner_test
