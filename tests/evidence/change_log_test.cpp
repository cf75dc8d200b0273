// SPDX-License-Identifier: MIT
#include "evidence/change_log.hpp"

#include <gtest/gtest.h>

#include "evidence/shipped_texts.hpp"

namespace driftwarden::change_log_test {
namespace {

constexpr std::string_view log =
    "# Changes\n\n## 0.3.0, not yet released\n\n### New\n\n- A thing about drift.\n\n### Results\n\n"
    "- Drift is a share\n  of the flow before.\n* Blanks count.\n\n### Wording\n\n- `too late` is now `overdue`.\n"
    "- `a` has gone.\n\n"
    "## 0.2.0, 2026-01-02\n\n### Results\n\n- The uncertainty of a volume is larger, and its flow another.\n\n"
    "## 0.1.0, 2026-01-01\n\n### Results\n\n- The first.\n";

std::string names(const std::vector<LoggedChange>& changes) {
  std::string text;
  for (const LoggedChange& change : changes) text += "[" + name_of(change) + "]";
  return text;
}

TEST(ChangeLog, HasTheEntriesOfLaterVersions) {
  EXPECT_EQ(changes_after({0, 2, 0}, "Results", log),
            (std::vector<LoggedChange>{{{0, 3, 0}, 1, "Drift is a share of the flow before."},
                                       {{0, 3, 0}, 2, "Blanks count."}}));
  EXPECT_EQ(names(changes_after({0, 1, 0}, "Results", log)), "[0.3.0, 1][0.3.0, 2][0.2.0, 1]");
  EXPECT_EQ(names(changes_after({0, 3, 0}, "Results", log)), "");
  EXPECT_EQ(names(changes_after({9, 0, 0}, "Results", log)), "");
}

TEST(ChangeLog, KnowsWhichWordingsHaveChanged) {
  const std::vector<Rewording> rewordings = rewordings_after({0, 2, 0}, log);
  ASSERT_EQ(rewordings.size(), 1U);
  EXPECT_EQ(rewordings[0].before, "too late");
  EXPECT_EQ(rewordings[0].now, "overdue");
  EXPECT_TRUE(rewordings_after({0, 3, 0}, log).empty());
}

TEST(ChangeLog, NamesWhatMayAccountForADifference) {
  const std::vector<LoggedChange> changes = changes_after({0, 1, 0}, "Results", log);
  const auto named = [&](const std::string& about) {
    return names(may_account_for({"screen.csv", "sample 'S', " + about, "1", "2", about}, changes));
  };
  EXPECT_EQ(named("drift_percent"), "[0.3.0, 1]");
  EXPECT_EQ(named("volume_expanded_uncertainty_l"), "[0.2.0, 1]");
  EXPECT_EQ(named("minutes"), "");
  EXPECT_EQ(names(may_account_for({"S.txt", "line 3", "flow 2.0 L/min", "flow 2.1 L/min", ""}, changes)), "");
  EXPECT_EQ(names(may_account_for({"S.txt", "line 3", "volume: its flow is 2", "volume: its flow is 3", ""}, changes)),
            "[0.2.0, 1]");
}

// A log of 0.2.0 with these entries under Results.
std::vector<LoggedChange> results_of(const std::string& entries) {
  return changes_after({0, 1, 0}, "Results", "## 0.2.0, 2026-01-02\n\n### Results\n\n" + entries);
}

TEST(ChangeLog, HasNoEntryOutsideAVersionAndAHeading) {
  EXPECT_TRUE(changes_after({0, 1, 0}, "Results", "- loose\n\n### Results\n\n- of no version\n").empty());
  EXPECT_EQ(results_of("- A thing.\n\n  Of another paragraph.\n"),
            (std::vector<LoggedChange>{{{0, 2, 0}, 1, "A thing."}}));
}

TEST(ChangeLog, KnowsNoWordingOfNothing) {
  EXPECT_TRUE(rewordings_after({0, 1, 0}, "## 0.2.0, 2026-01-02\n\n### Wording\n\n- `` is now `more`.\n").empty());
}

// At most three, those first that share most words; a plural is its singular, and words of every entry tell nothing.
TEST(ChangeLog, NamesTheLikeliestEntries) {
  const auto named = [](const std::string& about, const std::string& entries) {
    return names(may_account_for({"s.csv", "", "1", "2", about}, results_of(entries)));
  };
  EXPECT_EQ(named("drift", "- drift\n- drift\n- drift\n- drift\n"), "[0.2.0, 1][0.2.0, 2][0.2.0, 3]");
  EXPECT_EQ(named("volume_uncertainty", "- The volume.\n- The uncertainty of a volume.\n"), "[0.2.0, 2][0.2.0, 1]");
  EXPECT_EQ(named("volume_uncertainty", "- Uncertainty of a volume.\n- The volume.\n- A volume.\n"),
            "[0.2.0, 1][0.2.0, 2][0.2.0, 3]");
  EXPECT_EQ(named("blanks", "- A blank counts.\n"), "[0.2.0, 1]");
  EXPECT_EQ(named("sample", "- A sample.\n"), "");
  EXPECT_EQ(named("area|zone", "- A zone.\n"), "[0.2.0, 1]");
  EXPECT_EQ(named("area", "- Its area.\n"), "[0.2.0, 1]");
}

// Figures have changed since 0.1.0, so a package of that version can be told by which entry.
TEST(ChangeLog, HasResultsSinceTheFirstVersion) {
  EXPECT_FALSE(changes_after({0, 1, 0}, "Results", change_log_text()).empty());
}

TEST(ChangeLog, IsBuiltIn) { EXPECT_FALSE(changes_after({0, 0, 9}, "Results", change_log_text()).empty()); }

}  // namespace
}  // namespace driftwarden::change_log_test
