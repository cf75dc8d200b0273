// SPDX-License-Identifier: MIT
#include "report/ahead_json.hpp"

#include <gtest/gtest.h>

#include <nlohmann/json.hpp>

#include "report/ahead_outlook.hpp"
#include "verdict/cautions.hpp"

namespace driftwarden::ahead_json_test {
namespace {

using Json = nlohmann::json;

Json json_of(const VolumeAsked& asked) {
  const OutlookBook book;
  return Json::parse(ahead_json(book.book(), book.outlook(asked), 20717, "0.1.0"));
}

TEST(AheadJson, HasTheWindowItsEndsAndTheBlanks) {
  const Json json = json_of(asked_for(0.5, 4));
  EXPECT_EQ(json["tool"]["version"], "0.1.0");
  EXPECT_EQ(json["as_of"], "2026-09-21");
  EXPECT_EQ(json["batch"], nullptr);
  EXPECT_EQ(json["cautions"], cautions);
  const Json& sample = json["samples"][0];
  EXPECT_EQ(sample["method"], "M");
  EXPECT_EQ(sample["pump"], nullptr);
  EXPECT_EQ(sample["is_possible"], true);
  EXPECT_EQ(sample["minutes"], 100);
  EXPECT_EQ(sample["least"], Json::parse(R"({"end": "least", "from": "mass", "binds": true, "includes_it": true,
      "volume_l": 200, "reference_l": null, "minutes": 100, "mass_mg": 0.1, "concentration_mg_m3": 0.5, "rule": null, "limit": null, "otherwise": null,
      "source": "A source", "at": "own.toml:2:1"})"));
  EXPECT_EQ(sample["ends"].size(), 6U);
  EXPECT_EQ(sample["ends"][2]["rule"], "own/volume");
  EXPECT_EQ(sample["ends"][2]["binds"], false);
  EXPECT_EQ(sample["most"]["volume_l"], 500);
  EXPECT_EQ(sample["facts"][0]["fact"], "quantification");
  EXPECT_EQ(sample["rehearsed"], nullptr);
  EXPECT_EQ(sample["not_rehearsed"], "no pump is said");
  EXPECT_EQ(json["blanks"]["least"], 5);
  EXPECT_EQ(json["blanks"]["rules"][1]["least"], 5);
}

TEST(AheadJson, HasNullForWhatIsNotKnown) {
  const Json sample = json_of(asked_for(missing, missing, missing))["samples"][0];
  EXPECT_EQ(sample["target_mg_m3"], nullptr);
  EXPECT_EQ(sample["flow_l_min"], nullptr);
  EXPECT_EQ(sample["drift"]["within"], nullptr);
  EXPECT_EQ(sample["drift"]["rule"], nullptr) << "too few uses";
  EXPECT_EQ(sample["not_looked_at"], Json::array());
}

}  // namespace
}  // namespace driftwarden::ahead_json_test
