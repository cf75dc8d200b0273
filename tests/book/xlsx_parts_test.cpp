// SPDX-License-Identifier: MIT
#include "book/xlsx_parts.hpp"

#include <gtest/gtest.h>

#include "book/written_workbook.hpp"

namespace driftwarden::xlsx_parts_test {
namespace {

XlsxParts read(const Parts& parts) {
  const std::string bytes = zipped(parts);
  Result<ZippedFile> file = ZippedFile::open(bytes, "f.xlsx");
  Result<XlsxParts> read = read_xlsx_parts(*file);
  EXPECT_TRUE(read);
  return read ? *std::move(read) : XlsxParts{};
}

TEST(XlsxParts, AreFoundByTheirRelations) {
  const XlsxParts parts = read(xlsx_parts(""));
  ASSERT_EQ(parts.sheets.size(), 1U);
  EXPECT_EQ(parts.sheets[0].name, "week 46");
  EXPECT_EQ(parts.sheets[0].part, "xl/worksheets/sheet1.xml");
  ASSERT_EQ(parts.looks.size(), 6U);
  EXPECT_EQ(parts.looks[2].kind, NumberLook::Kind::date_time);
  EXPECT_EQ(parts.looks[3].digits, 3);
  EXPECT_EQ(parts.strings[0], "PUMP-1");
  EXPECT_EQ(parts.strings[1], "two pieces");
  EXPECT_FALSE(parts.is_1904 || parts.is_not_worked_out);
}

TEST(XlsxParts, SayFromWhenDaysAreCountedAndWhetherFormulasCount) {
  for (const char* yes : {"1", "true"})
    EXPECT_TRUE(read(xlsx_parts("", "<workbookPr date1904=\"" + std::string(yes) + "\"/>")).is_1904);
  EXPECT_FALSE(read(xlsx_parts("", "<workbookPr date1904=\"0\"/>")).is_1904);
  EXPECT_TRUE(read(xlsx_parts("", "<calcPr fullCalcOnLoad=\"1\"/>")).is_not_worked_out);
}

TEST(XlsxParts, SpellCharactersByTheirNumbers) {
  EXPECT_EQ(unescaped_xlsx("a_x0041_b"), "aAb");
  EXPECT_EQ(unescaped_xlsx("_x00B0_C _x2013_"), "°C –");
  EXPECT_EQ(unescaped_xlsx("_x005F_x0041_"), "_x0041_");
  EXPECT_EQ(unescaped_xlsx("a_x000D__x0001_\n"), "a\n");
  EXPECT_EQ(unescaped_xlsx("_x00_ _xD800_ _x12"), "_x00_ _xD800_ _x12");
}

}  // namespace
}  // namespace driftwarden::xlsx_parts_test
