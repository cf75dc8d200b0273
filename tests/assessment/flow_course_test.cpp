// SPDX-License-Identifier: MIT
#include "assessment/flow_course.hpp"

#include <gtest/gtest.h>

namespace driftwarden::flow_course_test {
namespace {

constexpr Moment started = 1'000'000;
Moment after(double minutes) { return started + static_cast<Moment>(60 * minutes); }

// One reading, so many minutes after the start.
ReadingSet set_at(double minutes, Stage stage, double flow, Row calibrator = 0) {
  ReadingSet set;
  set.rows = {stage, calibrator, 0, 1, after(minutes), after(minutes)};
  set.flow.n = 1;
  set.flow.mean = flow;
  return set;
}

// The pre set is the first, the post set the last.
FlowCourse course_of(const std::vector<ReadingSet>& sets, double minutes) {
  FlowCourse course;
  lay_course(sets, {0, static_cast<std::int32_t>(sets.size()) - 1, started, after(minutes)}, course);
  return course;
}

// By pocket calculator: 1.99 x 120 + 1.95 x 180 + 1.915 x 150 = 877.05 L, where the ends give 1.955 x 450 = 879.75 L.
// The form of the reckoning: 40 CFR 50 App. B §10.1.2, intervals each with its mean.
TEST(FlowCourse, IsTheMeanOfItsTrapezoids) {
  const FlowCourse course = course_of({set_at(-20, Stage::pre, 2.00), set_at(120, Stage::field, 1.98),
                                       set_at(300, Stage::field, 1.92), set_at(470, Stage::post, 1.91)},
                                      450);
  EXPECT_NEAR(course.mean_l_min * 450, 877.05, 1e-9);
  ASSERT_EQ(course.stops.size(), 4U);
  EXPECT_NEAR(course.stops[0].share, 60.0 / 450, 1e-12);
  EXPECT_NEAR(course.stops[1].share, 150.0 / 450, 1e-12);
  EXPECT_NEAR(course.stops[2].share, 165.0 / 450, 1e-12);
  EXPECT_NEAR(course.stops[3].share, 75.0 / 450, 1e-12);
  EXPECT_EQ(course.stops[0].at_min, 0);
  EXPECT_EQ(course.minutes(), 450);
}

TEST(FlowCourse, CountsAFieldSetInTheMiddleOfItsReadingsAlsoBetweenTwoSeconds) {
  ReadingSet field = set_at(120, Stage::field, 1.98);
  field.rows.last += 7;
  const FlowCourse course = course_of({set_at(-20, Stage::pre, 2), field, set_at(470, Stage::post, 1.91)}, 450);
  EXPECT_NEAR(course.stops[1].at_min, 120 + 3.5 / 60, 1e-12);
}

TEST(FlowCourse, IsEmptyWithoutAFieldSetWithinTheSample) {
  const ReadingSet pre = set_at(-20, Stage::pre, 2.00);
  const ReadingSet post = set_at(470, Stage::post, 1.91);
  EXPECT_TRUE(course_of({pre, post}, 450).empty());
  EXPECT_TRUE(course_of({pre, set_at(-5, Stage::field, 1.9), set_at(460, Stage::field, 1.9), post}, 450).empty());
  ReadingSet struck_out = set_at(100, Stage::field, missing);
  struck_out.flow.n = 0;
  struck_out.voided = 1;
  EXPECT_TRUE(course_of({pre, struck_out, post}, 450).empty());
  FlowCourse without_a_pre_set;
  lay_course(std::vector<ReadingSet>{set_at(100, Stage::field, 2), post}, {-1, 1, started, after(450)},
             without_a_pre_set);
  EXPECT_TRUE(without_a_pre_set.empty());
}

// 2.0, then 1.8 in the middle, then 2.0: 1.9. Two calibrators 20 minutes apart say 1.7 and 1.9 of one moment.
TEST(FlowCourse, TakesSetsOfTwoCalibratorsWithinHalfAnHourAsOneStop) {
  const ReadingSet pre = set_at(-60, Stage::pre, 2.0);
  const ReadingSet post = set_at(500, Stage::post, 2.0);
  const FlowCourse compared =
      course_of({pre, set_at(230, Stage::field, 1.7, 0), set_at(250, Stage::field, 1.9, 1), post}, 480);
  ASSERT_EQ(compared.stops.size(), 3U);
  EXPECT_NEAR(compared.stops[1].flow_l_min, 1.8, 1e-12);
  EXPECT_NEAR(compared.stops[1].at_min, 240, 1e-12);
  EXPECT_NEAR(compared.mean_l_min, 1.9, 1e-12);
  EXPECT_NEAR(compared.share_of(1), 0.25, 1e-12);
  EXPECT_EQ(compared.share_of(7), 0);
  // Just beyond half an hour, or of one calibrator: a course.
  EXPECT_EQ(
      course_of({pre, set_at(200, Stage::field, 1.7, 0), set_at(231, Stage::field, 1.9, 1), post}, 480).stops.size(),
      4U);
  EXPECT_EQ(
      course_of({pre, set_at(230, Stage::field, 1.7, 0), set_at(250, Stage::field, 1.9, 0), post}, 480).stops.size(),
      4U);
}

TEST(FlowCourse, ComparesAFieldSetWithAnEndThatIsNear) {
  const FlowCourse course = course_of(
      {set_at(-10, Stage::pre, 2.0, 0), set_at(10, Stage::field, 1.9, 1), set_at(490, Stage::post, 2.0, 0)}, 480);
  ASSERT_EQ(course.stops.size(), 2U);
  EXPECT_NEAR(course.stops[0].flow_l_min, 1.95, 1e-12);
  EXPECT_EQ(course.stops[0].at_min, 0);
  EXPECT_NEAR(course.mean_l_min, 1.975, 1e-12);  // derived: (1.95 + 2) / 2
}

TEST(FlowCourse, TakesAFieldSetOnTheStartAndOnTheStop) {
  const ReadingSet pre = set_at(-60, Stage::pre, 2.0);
  const ReadingSet post = set_at(540, Stage::post, 2.0);
  EXPECT_EQ(course_of({pre, set_at(0, Stage::field, 1.9), post}, 480).sets.size(), 3U);
  EXPECT_EQ(course_of({pre, set_at(480, Stage::field, 1.9), post}, 480).sets.size(), 3U);
}

TEST(FlowCourse, LeavesOutAPreSetThatWasReadOnTheWay) {
  const FlowCourse course = course_of({set_at(-60, Stage::pre, 2.0), set_at(100, Stage::pre, 3.0),
                                       set_at(240, Stage::field, 1.8), set_at(540, Stage::post, 2.0)},
                                      480);
  EXPECT_EQ(course.sets.size(), 3U);
  EXPECT_NEAR(course.mean_l_min, 1.9, 1e-12);
}

// derived: one from 100 to 400 minutes has its middle behind one at 200: 2.0, 1.9 at 200, 1.8 at 250, 2.0 at 480.
TEST(FlowCourse, GoesInTheOrderOfTheMiddles) {
  ReadingSet slow = set_at(100, Stage::field, 1.8);
  slow.rows.last = after(400);
  const FlowCourse course = course_of(
      {set_at(-60, Stage::pre, 2.0), slow, set_at(200, Stage::field, 1.9), set_at(540, Stage::post, 2.0)}, 480);
  ASSERT_EQ(course.stops.size(), 4U);
  EXPECT_NEAR(course.stops[1].flow_l_min, 1.9, 1e-12);
  EXPECT_NEAR(course.mean_l_min * 480, 1.95 * 200 + 1.85 * 50 + 1.9 * 230, 1e-9);
}

TEST(FlowCourse, OfOneCalibratorNearAnEndIsACourse) {
  EXPECT_EQ(
      course_of({set_at(-10, Stage::pre, 2.0, 0), set_at(10, Stage::field, 1.9, 0), set_at(540, Stage::post, 2, 0)},
                480)
          .stops.size(),
      3U);
}

// derived: (1.9 + 2.0) / 2 at the stop.
TEST(FlowCourse, ComparesAFieldSetWithThePostSet) {
  const FlowCourse course = course_of(
      {set_at(-60, Stage::pre, 2.0, 0), set_at(470, Stage::field, 1.9, 1), set_at(490, Stage::post, 2.0, 0)}, 480);
  ASSERT_EQ(course.stops.size(), 2U);
  EXPECT_NEAR(course.stops[1].flow_l_min, 1.95, 1e-12);
}

// Of so short a sample all sets lie within half an hour of each other; it has two ends all the same.
TEST(FlowCourse, NeverMakesOneStopOfBothEnds) {
  const FlowCourse course = course_of(
      {set_at(-5, Stage::pre, 2.0, 0), set_at(10, Stage::field, 1.9, 1), set_at(25, Stage::post, 1.8, 2)}, 20);
  ASSERT_EQ(course.stops.size(), 2U);
  EXPECT_NEAR(course.stops[0].flow_l_min, 1.95, 1e-12);
  EXPECT_NEAR(course.stops[1].flow_l_min, 1.8, 1e-12);
}

// The calibrator of the pre set is compared with another later on; half an hour is not too long.
TEST(FlowCourse, ComparesWithTheStopBeforeAndWithNoneBeforeThat) {
  EXPECT_EQ(course_of({set_at(-60, Stage::pre, 2.0, 0), set_at(230, Stage::field, 1.7, 1),
                       set_at(260, Stage::field, 1.9, 0), set_at(540, Stage::post, 2.0, 2)},
                      480)
                .stops.size(),
            3U);
}

TEST(FlowCourse, KeepsNothingOfTheCourseBefore) {
  const std::vector<ReadingSet> sets{set_at(-60, Stage::pre, 2.0), set_at(240, Stage::field, 1.8),
                                     set_at(540, Stage::post, 2.0)};
  FlowCourse course;
  lay_course(sets, {0, 2, started, after(480)}, course);
  lay_course(sets, {0, 2, started, after(480)}, course);
  EXPECT_EQ(course.sets.size(), 3U);
  for (const CourseEnds& none : {CourseEnds{-1, 2, started, after(480)}, CourseEnds{0, -1, started, after(480)},
                                 CourseEnds{0, 2, after(240), after(240)}, CourseEnds{0, 2, after(241), after(240)}}) {
    lay_course(sets, {0, 2, started, after(480)}, course);
    lay_course(sets, none, course);
    EXPECT_TRUE(course.empty());
    EXPECT_TRUE(course.sets.empty());
    EXPECT_TRUE(is_missing(course.mean_l_min));
    EXPECT_TRUE(is_missing(course.minutes()));
  }
}

}  // namespace
}  // namespace driftwarden::flow_course_test
