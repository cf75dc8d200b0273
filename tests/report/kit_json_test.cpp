// SPDX-License-Identifier: MIT
#include "report/kit_json.hpp"

#include <gtest/gtest.h>

#include <nlohmann/json.hpp>

#include "report/kit_book.hpp"
#include "verdict/cautions.hpp"

namespace driftwarden::kit_json_test {
namespace {

using Json = nlohmann::json;

Json all(const BookText& text, const std::string& as_of) {
  const ReviewedBook book(text, {}, as_of);
  return Json::parse(kits_json(book.screening().book(), book.review().kits, day(as_of), "0.1.0"));
}

TEST(KitsJson, TellsWhatIsOutOverdueMissingAndUnfit) {
  const Json json = all(kit_text(), "2026-10-02");
  EXPECT_EQ(json["tool"]["version"], "0.1.0");
  EXPECT_EQ(json["as_of"], "2026-10-02");
  EXPECT_EQ(json["kit"], nullptr);
  EXPECT_EQ(json["cautions"], cautions);
  EXPECT_EQ(json["kits"]["being_put_together"], Json::array());
  EXPECT_EQ(json["kits"]["out"], Json::parse(R"([{"kit": "K-2", "kind_of_kit": "dust", "out": "2026-09-23",
      "to": "south crew", "due_back": "2026-09-30", "days_overdue": 2, "things": [{"instrument": "V2",
      "serial": "C-2", "item": "calibrator", "charged": null, "not_fit_because": null, "at": "issues.csv:7"}]}])"));
  EXPECT_EQ(json["kits"]["missing"], Json::parse(R"([{"kit": "K-1", "kind_of_kit": "dust", "out": "2026-09-20",
      "to": null, "due_back": null, "back": "2026-09-24", "instrument": null, "serial": null, "item": "hose",
      "at": "issues.csv:4"}])"));
  EXPECT_EQ(json["kits"]["not_fit_to_go"], Json::parse(R"([{"instrument": "V1", "serial": "C-1",
      "because": ["past due: it was due on 2026-09-22, 10 days ago"], "where": "in the store",
      "at": "instruments.csv:4"}])"));
}

TEST(KitsJson, SaysOfAThingWhetherItIsChargedAndWhyItMustNotGo) {
  BookText text;
  text.issues = "kit,instrument,item,charged\nK-1,P1,,no\nK-1,P2,,yes\nK-1,,hose,\n";
  const Json things = all(text, "2026-09-24")["kits"]["being_put_together"][0]["things"];
  ASSERT_EQ(things.size(), 3U);
  EXPECT_EQ(things[0]["charged"], false);
  EXPECT_EQ(things[0]["not_fit_because"], "not charged");
  EXPECT_EQ(things[1]["charged"], true);
  EXPECT_EQ(things[1]["not_fit_because"], nullptr);
  EXPECT_EQ(things[2]["item"], "hose");
}

TEST(KitsJson, SaysWhatIsNotKnown) {
  EXPECT_EQ(all(kit_text(), "2026-10-02")["kits"]["not_known"], nullptr);
  EXPECT_TRUE(all(BookText(), "2026-10-02")["kits"]["not_known"].get<std::string>().starts_with("The book has no"));
}

TEST(KitJson, IsTheListOfOneKit) {
  const Json json = Json::parse(kit_json(*kit_sheet("K-1", "2026-09-23")));
  EXPECT_EQ(json["kits"], nullptr);
  const Json& kit = json["kit"];
  EXPECT_EQ(kit["kit"], "K-1");
  EXPECT_EQ(kit["checked_out_by"], "store");
  EXPECT_EQ(kit["due_back"], "2026-09-22");
  EXPECT_EQ(kit["days_overdue"], 1);
  EXPECT_EQ(kit["back"], nullptr);
  ASSERT_EQ(kit["things"].size(), 6U);
  EXPECT_EQ(kit["things"][0], Json::parse(R"({"item": "pump", "number": 1, "is_instrument": true, "instrument": "P2",
      "serial": "T-8", "note": "charged", "charged": true, "came_back": null, "missing": false,
      "not_fit_because": null, "beyond_the_list": false})"));
  EXPECT_EQ(kit["things"][2]["not_fit_because"], "past due: it was due on 2026-09-22, 1 day ago");
  EXPECT_EQ(kit["things"][5]["beyond_the_list"], true);
}

TEST(KitJson, SaysWhatCameBackAndWhatIsMissing) {
  const Json kit = Json::parse(kit_json(*kit_sheet("K-1")))["kit"];
  EXPECT_EQ(kit["back"], "2026-09-24");
  EXPECT_EQ(kit["checked_back_by"], "workshop");
  EXPECT_EQ(kit["things"][0]["came_back"], "good");
  EXPECT_EQ(kit["things"][3]["came_back"], "missing");
  EXPECT_EQ(kit["things"][3]["missing"], true);
}

TEST(KitJson, OfAKindHasNoKit) { EXPECT_EQ(Json::parse(kit_json(*kit_sheet("dust")))["kit"]["kit"], nullptr); }

}  // namespace
}  // namespace driftwarden::kit_json_test
