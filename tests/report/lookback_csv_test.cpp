// SPDX-License-Identifier: MIT
#include "report/lookback_csv.hpp"

#include <gtest/gtest.h>

#include "report/looked_back.hpp"

namespace driftwarden::lookback_csv_test {
namespace {

TEST(LookbackCsv, HasALineASampleWithThreeBlocks) {
  const LookedBack looked;
  const std::string csv = lookback_csv(looked.judged.screening(), looked.lookback);
  EXPECT_EQ(csv.substr(0, csv.find('\n') + 1), lookback_csv_headings());
  EXPECT_EQ(times(csv, "\n"), 5U);
  EXPECT_NE(csv.find("\nS3,,P3,pre,drift and volume,yes,2.2,0,1056,"), std::string::npos) << csv;
  EXPECT_NE(csv.find(",valid,,2.1"), std::string::npos) << csv;
  EXPECT_NE(csv.find(",void,own/drift,"), std::string::npos) << csv;
  EXPECT_NE(csv.find("\nS2,,P2,pre via V2;post via V2,volume,no,"), std::string::npos) << csv;
  for (std::size_t at = 0, end; at < csv.size(); at = end + 1) {
    end = csv.find('\n', at);
    EXPECT_EQ(times(csv.substr(at, end - at), ","), 34U);
  }
}

TEST(LookbackCsv, LeavesUnknownBlocksEmpty) {
  const LookedBack looked(open_window_text());
  const std::string csv = lookback_csv(looked.judged.screening(), looked.lookback);
  EXPECT_EQ(times(csv, ",,,,,,,"), 4U) << csv;         // of the linear block
  EXPECT_EQ(times(csv, ",,,,figures,\n"), 2U) << csv;  // and of what was measured
}

TEST(LookbackCsv, SaysWhoHadTheCalibrators) {
  const LookedBack looked(held_text());
  const std::string csv = lookback_csv(looked.judged.screening(), looked.lookback);
  EXPECT_TRUE(lookback_csv_headings().ends_with(",change,had_by\n"));
  EXPECT_EQ(times(csv, ",north crew (kit K-1)\n"), 2U) << csv;
  EXPECT_EQ(times(csv, ",crew (kit K-2)\n"), 1U) << csv;
  EXPECT_EQ(times(csv, ",north crew (kit K-1);crew (kit K-2)\n"), 1U) << csv;
}

TEST(LookbackCsv, SaysWhatChanges) {
  const LookedBack looked(incomplete_text());
  const std::string csv = lookback_csv(looked.judged.screening(), looked.lookback);
  EXPECT_NE(csv.find("\nS3,,P3,pre,incomplete,no,"), std::string::npos) << csv;
  EXPECT_EQ(times(csv, ",open before,\n"), 1U) << csv;
  EXPECT_EQ(times(csv, ",figures,\n"), 2U) << csv;
  EXPECT_EQ(times(csv, ",nothing,\n"), 1U) << csv;
}

}  // namespace
}  // namespace driftwarden::lookback_csv_test
