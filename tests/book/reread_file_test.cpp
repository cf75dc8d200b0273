// SPDX-License-Identifier: MIT
#include "book/reread_file.hpp"

#include <gtest/gtest.h>

#include "book/written_book.hpp"

namespace driftwarden::reread_file_test {
namespace {

TEST(RereadFile, FindsTheColumnOfAPlace) {
  WrittenBook book;
  book.file("readings.csv",
            "Readings of week 18\ntaken,stage,sample,calibrator,reading [L/min]\n2026-05-01T07:30,pre,S-1,VOL-1,2.0\n");
  const Book read = book.read();
  const std::optional<RereadFile> file = reread(read, "readings.csv");
  ASSERT_TRUE(file);
  EXPECT_EQ(file->column_at({"readings.csv", 3, 1}), 0);
  EXPECT_EQ(file->column_at({"readings.csv", 3, 18}), 1);
  EXPECT_EQ(file->column_at({"readings.csv", 3, 32}), 4);
  EXPECT_EQ(file->column_at({"readings.csv", 3, 0}), -1) << "the row as a whole";
  EXPECT_EQ(file->heading(4), "reading [L/min]");
  std::size_t rows = 0;
  file->for_each_row([&rows](const CsvScanner&, std::uint32_t) { ++rows; });
  EXPECT_EQ(rows, 1U);
}

TEST(RereadFile, IsNoneWhereTheFileIsNoTables) {
  WrittenBook book;
  const Book read = book.read();
  EXPECT_FALSE(reread(read, "book.toml"));
}

}  // namespace
}  // namespace driftwarden::reread_file_test
