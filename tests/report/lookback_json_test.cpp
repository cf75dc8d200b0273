// SPDX-License-Identifier: MIT
#include "report/lookback_json.hpp"

#include <gtest/gtest.h>

#include <nlohmann/json.hpp>

#include "report/looked_back.hpp"

namespace driftwarden::lookback_json_test {
namespace {

TEST(LookbackJson, HasThePinnedShape) {
  const LookedBack looked;
  const auto json = nlohmann::json::parse(lookback_json(looked.judged.screening(), looked.lookback));
  EXPECT_EQ(json["instrument"], "V1");
  EXPECT_EQ(json["certificate"], "V1/found");
  EXPECT_EQ(json["window"], (nlohmann::json{{"from", "2026-03-01"}, {"to", "2026-03-11"}}));
  ASSERT_EQ(json["samples"].size(), 4U);
  const auto& s3 = json["samples"][2];
  EXPECT_EQ(s3["sample"], "S3");
  EXPECT_EQ(s3["before"]["verdict"], "valid");
  EXPECT_EQ(s3["sudden"]["verdict"], "void");
  EXPECT_NEAR(s3["sudden"]["drift_percent"].get<double>(), 10, 1e-9);
  EXPECT_NEAR(s3["linear"]["drift_percent"].get<double>(), 6, 1e-9);
  EXPECT_EQ(s3["sudden"]["findings"][0]["rule"], "own/drift");
  EXPECT_EQ(s3["changes"], true);
  EXPECT_EQ(json["samples"][0]["changes"], false);
  EXPECT_EQ(s3["change"], "verdict");
  EXPECT_EQ(json["samples"][0]["change"], "figures");
  for (const char* block : {"before", "sudden", "linear"}) {
    for (const char* figure : {"flow_l_min", "drift_percent", "volume_l", "volume_reference_l", "verdict"}) {
      EXPECT_TRUE(s3[block].contains(figure)) << block << ' ' << figure;
    }
  }
}

TEST(LookbackJson, SaysWhoHadTheCalibrators) {
  const LookedBack looked(held_text());
  const auto json = nlohmann::json::parse(lookback_json(looked.judged.screening(), looked.lookback));
  EXPECT_EQ(json["had_by"], nlohmann::json({"north crew (kit K-1), from 2026-03-01"}));
  EXPECT_EQ(json["samples"][2]["had_by"], nlohmann::json({"north crew (kit K-1)", "crew (kit K-2)"}));
  const LookedBack nobody;
  const auto other = nlohmann::json::parse(lookback_json(nobody.judged.screening(), nobody.lookback));
  EXPECT_EQ(other["had_by"], nlohmann::json::array());
  EXPECT_EQ(other["samples"][2]["had_by"], nlohmann::json::array());
}

TEST(LookbackJson, TellsHowItReachedASample) {
  const LookedBack looked;
  const auto json = nlohmann::json::parse(lookback_json(looked.judged.screening(), looked.lookback));
  EXPECT_EQ(json["through"][0]["certificate"], "V2/against-V1");
  EXPECT_EQ(json["through"][0]["standard_certificate"], "V1/good");
  const auto& s2 = json["samples"][1];
  EXPECT_EQ(s2["leans"][0]["calibrator"], "V2");
  EXPECT_EQ(s2["leans"][0]["through_another"], true);
  EXPECT_EQ(s2["bearing"], "volume");
}

TEST(LookbackJson, OfAnOpenWindowHasNoBeginningAndNoLinearBlock) {
  const LookedBack looked(open_window_text());
  const auto json = nlohmann::json::parse(lookback_json(looked.judged.screening(), looked.lookback));
  EXPECT_TRUE(json["window"]["from"].is_null());
  EXPECT_TRUE(json["last_good_certificate"].is_null());
  EXPECT_TRUE(json["samples"][0]["linear"].is_null());
  EXPECT_FALSE(json["remarks"].empty());
}

TEST(LookbackJson, OfNothingHasTheSameKeys) {
  const LookedBack looked;
  const Row v3 = instrument_of(looked.judged.book(), "V3");
  const auto json = nlohmann::json::parse(lookback_json_of_nothing(looked.judged.book(), v3));
  EXPECT_EQ(json["instrument"], "V3");
  EXPECT_TRUE(json["certificate"].is_null());
  EXPECT_TRUE(json["samples"].empty());
}

}  // namespace
}  // namespace driftwarden::lookback_json_test
