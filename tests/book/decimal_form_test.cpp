// SPDX-License-Identifier: MIT
#include "book/decimal_form.hpp"

#include <gtest/gtest.h>

#include "book/written_book.hpp"

namespace driftwarden::decimal_form_test {
namespace {

// echo: figures written and read back.

TableFile file_of(const WrittenBook& book, const std::string& name) {
  const std::filesystem::path path = book.folder() / name;
  Result<PiecedFile> bytes = PiecedFile::open(path, name, *stamp_of(path));
  Diagnostics problems;
  std::optional<TableLayout> layout = read_layout({bytes->bytes(), name}, readings_spec, {}, problems);
  if (!layout) throw std::runtime_error(told(problems));
  return {name, 0, *std::move(bytes), *std::move(layout), {}};
}

constexpr int reading_field = 5;

std::optional<DecimalForm> form_of(const std::string& cells, char sign = '.', const std::string& unit = "L/min",
                                   const std::string& other_unit = "") {
  WrittenBook book;
  std::string rows = "taken;stage;sample;calibrator;reading [" + unit + "]\n";
  for (std::size_t begin = 0; begin < cells.size();) {
    const std::size_t end = std::min(cells.find(' ', begin), cells.size());
    rows += "2026-05-01T07:30;pre;S-1;VOL-1;" + cells.substr(begin, end - begin) + "\n";
    begin = end + 1;
  }
  book.file("readings.csv", rows);
  std::vector<TableFile> files;
  files.push_back(file_of(book, "readings.csv"));
  if (!other_unit.empty()) {
    book.file("other.csv", "taken;stage;sample;calibrator;reading [" + other_unit + "]\n");
    files.push_back(file_of(book, "other.csv"));
  }
  for (TableFile& file : files) file.manner.decimal = sign;
  return decimal_form_of(files, reading_field);
}

TEST(DecimalForm, HasTheMostDecimalsAndLeavesRoomOnBothSides) {
  const std::optional<DecimalForm> form = form_of("2.01 1.9 2");
  ASSERT_TRUE(form);
  EXPECT_EQ(form->decimals, 2);
  EXPECT_EQ(form->lowest, 190 - 32762);  // 65534 less 11, halved
  EXPECT_EQ(form->unit.name, "L/min");
}

TEST(DecimalForm, ReadsTheOwnersDecimalSign) { EXPECT_EQ(form_of("2,015 1,9", ',')->decimals, 3); }

TEST(DecimalForm, IsNoneWhereNumbersLieFarApart) { EXPECT_FALSE(form_of("0.0001 4.0000")); }

TEST(DecimalForm, IsNoneWhereNothingIsANumber) {
  EXPECT_FALSE(form_of("two"));
  EXPECT_FALSE(form_of(""));
}

TEST(DecimalForm, IsNoneWhereFilesHaveTwoUnits) {
  EXPECT_TRUE(form_of("2.0", '.', "L/min", "L/min"));
  EXPECT_FALSE(form_of("2.0", '.', "L/min", "mL/min"));
}

// The first thousand readings promise one decimal, the others have five: the table is read again.
TEST(DecimalForm, ThatWasPromisedWronglyLosesNothing) {
  WrittenBook book;
  std::string rows = "taken,stage,sample,calibrator,reading [L/min]\n";
  for (int i = 0; i < 1000; ++i) rows += "2026-05-01T07:30,pre,S-1,VOL-1,2.0\n";
  for (int i = 0; i < 3000; ++i) rows += "2026-05-01T07:30,pre,S-1,VOL-1,2.0" + std::to_string(1000 + i) + "\n";
  rows += "2026-05-01T07:30,pre,S-1,VOL-1,two\n";
  book.file("readings.csv", rows);
  for (const unsigned threads : {1U, 3U}) {
    const Book read = book.read(threads);
    ASSERT_EQ(read.readings.size(), 4001U);
    EXPECT_EQ(read.readings.indicated_l_min[999], 2.0);
    EXPECT_EQ(read.readings.indicated_l_min[1000], 2.01);
    EXPECT_EQ(read.readings.indicated_l_min[3999], 2.03999);
    EXPECT_EQ(told(read.problems),
              "readings.csv:4002:32: error: 'two' is not a number; write digits with '.' as decimal sign; the unit "
              "belongs in the heading [cell/not-a-number]\n");
  }
}

}  // namespace
}  // namespace driftwarden::decimal_form_test
