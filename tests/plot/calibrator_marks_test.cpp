// SPDX-License-Identifier: MIT
#include "plot/calibrator_marks.hpp"

#include <gtest/gtest.h>

#include "history/made_series.hpp"
#include "plot/shipped_theme.hpp"
#include "support/book_text.hpp"

namespace driftwarden::calibrator_marks_test {
namespace {

// input: points of a pump and the rows of their calibrators.

Series read_with(const std::vector<Row>& calibrators) {
  Series series = made_series(std::vector<double>(calibrators.size(), 1));
  for (std::size_t i = 0; i < calibrators.size(); ++i) series.points[i].calibrator = calibrators[i];
  return series;
}

TEST(CalibratorMarks, GiveEachCalibratorItsOwnInTheBooksOrder) {
  const Series series = read_with({7, 3, 7, 5});
  const CalibratorMarks marks({&series});
  ASSERT_EQ(marks.entries().size(), 3U);
  EXPECT_EQ(marks.entries()[0].calibrators, std::vector<Row>{3});
  EXPECT_EQ(marks.entries()[2].calibrators, std::vector<Row>{7});
  const Theme theme = shipped_theme();
  EXPECT_EQ(marks.mark_of(series.points[1], theme), theme.calibrators[0]);
  EXPECT_EQ(marks.mark_of(series.points[0], theme), theme.calibrators[2]);
}

TEST(CalibratorMarks, AreSharedByThoseThatReadLeastWhereThereAreMany) {
  const Series series = read_with({1, 1, 2, 2, 3, 3, 4, 4, 5, 5, 6, 7, 7, 8});
  const CalibratorMarks marks({&series});
  ASSERT_EQ(marks.entries().size(), marked_calibrators.size());
  EXPECT_EQ(marks.entries().back().calibrators, (std::vector<Row>{7, 6, 8}));
}

TEST(CalibratorMarks, AreOpenForPumpsReadForNoSample) {
  Series series = read_with({1});
  series.points[0].kind = PointKind::bench;
  const CalibratorMarks marks({&series});
  const Theme theme = shipped_theme();
  EXPECT_EQ(marks.mark_of(series.points[0], theme).shape, open(theme.calibrators[0]).shape);
  EXPECT_EQ(words_of(marks), std::vector<std::string>{"open: read for no sample"});
}

TEST(CalibratorMarks, HaveTheSecondCalibratorsAroundThem) {
  Series series = read_with({1, 1});
  series.points[0].calibrator_after = 2;
  series.points[1].calibrator_after = 1;
  const CalibratorMarks marks({&series});
  const Theme theme = shipped_theme();
  EXPECT_EQ(marks.mark_around(series.points[0], theme).shape, open(theme.calibrators[1]).shape);
  EXPECT_GT(marks.mark_around(series.points[0], theme).size, theme.calibrators[1].size);
  EXPECT_EQ(marks.mark_around(series.points[1], theme).shape, 0);
  EXPECT_TRUE(marks.has_two_on_a_point());
}

TEST(CalibratorMarks, LeaveOtherPointsTheMarkOfTheirKindAndVoidOnesTheirCross) {
  Series series = read_with({1, 1});
  series.points[0].kind = PointKind::calibration;
  series.points[1].is_void = true;
  const CalibratorMarks marks({&series});
  const Theme theme = shipped_theme();
  EXPECT_EQ(marks.mark_of(series.points[0], theme), theme.points[static_cast<std::size_t>(PointKind::calibration)]);
  EXPECT_EQ(marks.mark_of(series.points[1], theme), theme.void_);
}

TEST(CalibratorKey, NamesThemWithTheirMarks) {
  const JudgedBook book({});
  Row calibrator = 0;
  while (book.book().instruments[calibrator].kind != InstrumentKind::calibrator) ++calibrator;
  const Series series = read_with({calibrator});
  EXPECT_EQ(key_text(CalibratorMarks({&series}), book.book(), shipped_theme()),
            "● " + book.book().instruments[calibrator].name);
  EXPECT_EQ(key_text({}, book.book(), shipped_theme()), "");
}

}  // namespace
}  // namespace driftwarden::calibrator_marks_test
