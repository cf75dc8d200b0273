// SPDX-License-Identifier: MIT
#include "workshop/spare_minutes.hpp"

#include <gtest/gtest.h>

#include "verdict/ahead_book.hpp"

namespace driftwarden::spare_minutes_test {
namespace {

constexpr Day a_day = 20717;  // 2026-09-21

// Certificates that state 0.7 % with k = 2, and sets of two readings.
struct Opened {
  explicit Opened(const RulesText& rules) {
    BookText text;
    text.certificates = certificates_with_uncertainty;
    text.readings = two_readings_each;
    text.write(folder.path());
    Diagnostics found;
    opened = put_together(*read_book(folder.path(), 1), rules.rule_set(), a_day, 1, found);
  }

  VolumeAhead volume(const VolumeAsked& asked) const {
    return volume_ahead(*opened->screening, asked, rules_ahead(*opened->screening, asked.sample, no_row));
  }
  double spare(const VolumeAsked& asked, double minutes = missing) const {
    return spare_minutes(*opened, {asked.sample, minutes, asked.air, 1}, volume(asked));
  }
  // The volume without its uncertainty after so many minutes, L.
  double certain_l(const VolumeAsked& asked, double minutes) const {
    const auto rehearsal = Rehearsal::of(*opened, {asked.sample, minutes, asked.air, 1});
    const SampleResult& result = (*rehearsal)->result();
    return result.figures->measured_volume_l - result.budget.about(BudgetFigure::volume).expanded;
  }

  ScratchFolder folder;
  std::unique_ptr<OpenedBook> opened;
};

VolumeAsked with_pump(VolumeAsked asked) {
  asked.sample.pump = 1;
  asked.sample.calibrator = 2;
  return asked;
}

TEST(SpareMinutes, AreTheFewestThatDrawTheLeastVolumeWithoutItsUncertainty) {
  const Opened book(ahead_rules());
  const VolumeAsked asked = with_pump(asked_for(0.5, 1));
  const double spare = book.spare(asked);
  EXPECT_GT(spare, 100) << "200 L at 2 L/min";
  EXPECT_GE(book.certain_l(asked, spare), 200);
  EXPECT_LT(book.certain_l(asked, spare - 1), 200);
}

TEST(SpareMinutes, DontHangOnTheMinutesThatAreMeant) {
  const Opened book(ahead_rules());
  const VolumeAsked asked = with_pump(asked_for(0.5, 1));
  EXPECT_EQ(book.spare(asked, 30), book.spare(asked, 480));
}

TEST(SpareMinutes, AreNoFewerThanTheLeastTime) {
  const Opened book(ahead_rules());
  EXPECT_EQ(book.spare(with_pump(asked_for(5, 1))), 45) << "20 L take 10 min, and the clock has no U to spare";
}

TEST(SpareMinutes, AreNoneWhereNoVolumeIsAskedForOrNoUncertaintyIsStated) {
  RulesText rules = ahead_rules();
  rules.rules.erase(rules.rules.begin());
  const Opened book(rules);
  EXPECT_TRUE(is_missing(book.spare(with_pump(asked_for(missing, missing)))));
}

}  // namespace
}  // namespace driftwarden::spare_minutes_test
