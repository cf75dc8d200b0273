// SPDX-License-Identifier: MIT
#include "report/review_json.hpp"

#include <gtest/gtest.h>

#include "history/reviewed_book.hpp"

namespace driftwarden::review_json_test {
namespace {

bool holds(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }

// Whether it is what the schema says is asked by tests/golden/json_schema_test.sh.
TEST(ReviewJson, HoldsTheActionsWithWhoSeesToThem) {
  BookText text;
  text.actions =
      "written,by,action,about,name,who,due\n2026-09-22T10:00,hygienist,Sample again,sample,S1,workshop,2026-09-30\n"
      "2026-09-22T10:00,hygienist,Watch,instrument,P1,workshop,\n";
  const ReviewedBook book(text, {{{Subject::sample, "minutes", "at_most", {"400 min"}}}});
  const std::string json = review_json(book.screening(), book.review(), day("2026-09-24"), "0.1.0");
  EXPECT_TRUE(holds(json, R"("action":"Sample again","about":"sample","name":"S1","what":)")) << json;
  EXPECT_TRUE(holds(json, R"("assigned":{"who":"workshop","due":"2026-09-30","done":null,"note":null,)"
                          R"("written_by":"hygienist","at":"actions.csv:2"})"))
      << json;
  EXPECT_TRUE(holds(json, R"("lapsed":[)"
                          "\n"
                          R"({"action":"Watch","about":"instrument","name":"P1")"))
      << json;
  EXPECT_TRUE(holds(json, R"("sample":"S1","verdict":"void","day":"2026-09-21","recent":true,"settled":false)"));
}

}  // namespace
}  // namespace driftwarden::review_json_test
