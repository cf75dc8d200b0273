// SPDX-License-Identifier: MIT
#include "workshop/rehearsal.hpp"

#include <gtest/gtest.h>

#include <filesystem>

#include "support/book_text.hpp"

namespace driftwarden::rehearsal_test {
namespace {

constexpr Day a_day = 20717;  // 2026-09-21

struct Opened {
  explicit Opened(const BookText& text) {
    text.write(folder.path());
    const RulesText rules{.rules = {}, .samplers = {sampler("cowl", 2.0)}};
    Diagnostics found;
    opened = put_together(*read_book(folder.path(), 1), rules.rule_set(), a_day, 1, found);
  }
  ScratchFolder folder;
  std::unique_ptr<OpenedBook> opened;
};

// Certificates that state 0.7 % with k = 2, and sets of two readings that lie 0.001 L/min to either side of 2.000.
BookText known_book() {
  BookText text;
  text.certificates = certificates_with_uncertainty;
  text.readings = two_readings_each;
  return text;
}

RehearsalAsked asked_for(double minutes = 480) {
  RehearsalAsked asked;
  asked.sample.name = "N1";
  asked.sample.pump = 1;
  asked.sample.calibrator = 2;
  asked.sample.sampler = "cowl";
  asked.sample.nominal_l_min = 2;
  asked.sample.day = a_day + 1;
  asked.minutes = minutes;
  return asked;
}

TEST(Rehearsal, WorksOutTheVolumeAsItWillBe) {
  const Opened book(known_book());
  const auto rehearsal = Rehearsal::of(*book.opened, asked_for());
  ASSERT_TRUE(rehearsal) << to_text(rehearsal.faults().front());
  const SampleAssessment& figures = *(*rehearsal)->result().figures;
  EXPECT_NEAR(figures.volume_l, 960, 1e-9);
  EXPECT_NEAR(figures.drift, 0, 1e-12);
  EXPECT_EQ(figures.minutes, 480);
}

// derived: u of the mean flow, L/min, from the readings' pooled scatter, with s of each set of two readings that lie
// 0.001 to either side sqrt(2) * 0.001, relative to 2.000 and 1.950, each with one degree of freedom; of the
// certificate 0.35 % of 2; of the flow between the checks 1 % of 2 / sqrt(3), for P2 was not used before. The clock
// adds 2 * 0.5 / sqrt(3) L for each end.
TEST(Rehearsal, LeansOnTheCalibratorsScatterAndCertificate) {
  const Opened book(known_book());
  const auto rehearsal = Rehearsal::of(*book.opened, asked_for());
  ASSERT_TRUE(rehearsal);
  const double pooled =
      std::sqrt((std::pow(std::sqrt(2) * 0.001 / 2, 2) + std::pow(std::sqrt(2) * 0.001 / 1.95, 2)) / 2);
  const double u_flow = std::sqrt(2 * std::pow(pooled * 2 / 2, 2) + std::pow(0.0035 * 2, 2) + std::pow(0.02, 2) / 3);
  const double u_clock = 2 * 0.5 / std::sqrt(3);
  const Budget& budget = (*rehearsal)->result().budget;
  EXPECT_NEAR(budget.about(BudgetFigure::flow).u, u_flow, 1e-9);
  EXPECT_NEAR(budget.about(BudgetFigure::volume).u, std::hypot(480 * u_flow, u_clock * std::sqrt(2)), 1e-6);
}

TEST(Rehearsal, WritesNothingIntoTheBook) {
  const Opened book(known_book());
  const auto before = std::distance(std::filesystem::directory_iterator(book.folder.path()), {});
  ASSERT_TRUE(Rehearsal::of(*book.opened, asked_for()));
  EXPECT_EQ(std::distance(std::filesystem::directory_iterator(book.folder.path()), {}), before);
  EXPECT_EQ(read_book(book.folder.path(), 1)->samples.size(), 1U);
}

TEST(Rehearsal, TakesANameThatIsFreeAndTheBooksDecimalSign) {
  BookText text = known_book();
  text.settings += "decimal = \",\"\n";
  text.samples = "sample;pump;started;stopped\nS1;P1;2026-09-21T08:00;2026-09-21T16:00\n";
  text.readings = "taken;stage;sample;calibrator;reading [L/min]\n2026-09-21T07:30;pre;S1;V1;2,001\n";
  text.certificates =
      "certificate;instrument;calibrated;nominal [L/min];reference [L/min];as left [L/min]\nC1;V1;2026-01-05;2;2;2\n";
  text.instruments = "instrument;kind;principle\nP1;pump;\nP2;pump;\nV1;calibrator;volumetric\n";
  const Opened book(text);
  RehearsalAsked asked = asked_for(90);
  asked.sample.name = "S1";
  asked.sample.nominal_l_min = 2.5;
  const auto rehearsal = Rehearsal::of(*book.opened, asked);
  ASSERT_TRUE(rehearsal);
  EXPECT_NEAR((*rehearsal)->result().figures->volume_l, 225, 1e-9);
}

TEST(Rehearsal, IsRefusedWhereNobodyKnowsWhatTheCalibratorShows) {
  BookText text;
  text.instruments = "instrument,kind,principle\nP1,pump,\nP2,pump,\nV1,calibrator,rotameter\n";
  text.certificates =
      "certificate,instrument,calibrated,nominal [L/min],reference [L/min],as left [L/min]\nC1,V1,2026-01-05,2,2,2\n";
  const Opened book(text);
  EXPECT_EQ(
      to_text(Rehearsal::of(*book.opened, asked_for()).faults().front()),
      "error: what the calibrator should show can't be worked out; say the air with --temperature, --pressure and "
      "--humidity [rehearsal/no-flow]");
}

TEST(Rehearsal, SaysWhereTheBookLeavesThePlannedSampleOut) {
  BookText text = known_book();
  text.settings += "[files.\"samples/*\"]\nignore_rows = [\"N*\"]\n";
  const Opened book(text);
  const auto rehearsal = Rehearsal::of(*book.opened, asked_for());
  ASSERT_FALSE(rehearsal);
  EXPECT_EQ(to_text(rehearsal.faults().front()),
            "error: the book leaves the planned sample out when it is read with it; an 'ignore_rows' of book.toml may "
            "mean rows that begin with its name [rehearsal/no-sample]");
}

TEST(StartAhead, IsAtEightInTheBooksZone) {
  Settings settings = *parse_settings("time_zone = \"MST7\"\n", "book.toml");
  EXPECT_EQ(start_ahead(settings, a_day), a_day * Moment{86400} + 15 * 3600);
}

}  // namespace
}  // namespace driftwarden::rehearsal_test
