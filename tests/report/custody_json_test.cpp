// SPDX-License-Identifier: MIT
#include "report/custody_json.hpp"

#include <gtest/gtest.h>

#include "report/custody_book.hpp"

namespace driftwarden::custody_json_test {
namespace {

TEST(CustodyJson, HoldsTheSamplesAndThoseThatAreVoidWithoutVolumes) {
  const std::string json = custody_json(custody_of(custody_text()));
  const auto holds = [&json](const char* part) { return json.find(part) != std::string::npos; };
  EXPECT_TRUE(
      holds(R"("sample":"S1","kind":"sample","verdict":"valid","standing":"valid","started":"2026-09-21T08:00)"))
      << json;
  EXPECT_TRUE(holds(R"("minutes":480,"flow_l_min":1.975,"volume_l":948,"volume_reference_l":948)"));
  EXPECT_TRUE(holds(R"("sample":"K1","kind":"blank")"));
  EXPECT_TRUE(holds(
      R"("sender":["Quarry office","Lane 1"],"laboratory":["Dust laboratory"],"laboratory_reference":"order 7")"));
  EXPECT_TRUE(holds(R"("pump":"P1","sampler":null,"medium":"C-1","taken_by":"day crew"})"));
  const std::string voids = json.substr(json.find("\"void\":["));
  EXPECT_EQ(voids.find(R"("sample":"S2")") == std::string::npos, false);
  EXPECT_NE(voids.find(R"("flow_l_min":null,"volume_l":null)"), std::string::npos);
  EXPECT_NE(voids.find(R"("void_because":["The flow fell 10.0 %)"), std::string::npos);
}

}  // namespace
}  // namespace driftwarden::custody_json_test
