// SPDX-License-Identifier: MIT
#include <gtest/gtest.h>

#include "book/written_book.hpp"

namespace driftwarden::pooled_file_test {
namespace {

// input: what a split wrote for a part.
Book book_with(const std::string& rows, const std::string& settings = "") {
  return WrittenBook()
      .file("book.toml", "time_zone = \"America/Denver\"\n" + settings)
      .file("pooled.csv", "calibrator,before,s,degrees of freedom\n" + rows)
      .read();
}

// input: what is written is what is read.
TEST(PooledFile, HandsHowACalibratorHadScatteredByAReading) {
  const Book book = book_with("VOL-1,2026-05-01T07:30Z,0.0017585346460744404,12\n");
  ASSERT_EQ(book.handed_scatter.size(), 1U) << told(book.problems);
  EXPECT_EQ(book.instruments[book.handed_scatter[0].calibrator].name, "VOL-1");
  EXPECT_EQ(book.handed_scatter[0].before, day_from({2026, 5, 1}) * Moment{86400} + 27000);
  EXPECT_EQ(book.handed_scatter[0].s, 0.0017585346460744404);
  EXPECT_EQ(book.handed_scatter[0].dof, 12);
}

// input: the same.
TEST(PooledFile, IsReadWithAPointWhateverTheBooksDecimalSign) {
  const Book book = book_with("VOL-1,2026-05-01T07:30Z,0.002,3\n", "decimal = \",\"\n");
  ASSERT_EQ(book.handed_scatter.size(), 1U) << told(book.problems);
  EXPECT_EQ(book.handed_scatter[0].s, 0.002);
}

TEST(PooledFile, TellsWhatIsNoCalibratorAndNoFigure) {
  const Book book = book_with("PUMP-1,2026-05-01T07:30Z,0.002,3\nVOL-1,2026-05-01T07:30Z,-0.1,3\n");
  EXPECT_EQ(told(book.problems),
            "pooled.csv:2:1: error: 'PUMP-1' is not a calibrator of instruments.csv; add it to instruments.csv as a "
            "calibrator [pooled/unknown-calibrator]\n"
            "pooled.csv:3:25: error: '-0.1' is no such figure; split the book again [pooled/no-figure]\n");
  EXPECT_TRUE(book.handed_scatter.empty());
}

TEST(PooledFile, IsOfPartsOnly) { EXPECT_TRUE(WrittenBook().read().files.pooled.empty()); }

}  // namespace
}  // namespace driftwarden::pooled_file_test
