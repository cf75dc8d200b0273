// SPDX-License-Identifier: MIT
#include "verdict/cautions.hpp"

#include <gtest/gtest.h>

namespace driftwarden::cautions_test {
namespace {

// That each output has them is tested by tests/golden/cautions_test.sh.
TEST(Cautions, SayWhoWinsAndWhatAVerdictIsNot) {
  for (const std::string_view said :
       {"sampling method", "law", "local codes", "licensed practice", "qualified occupational hygienist", "they win",
        "its air", "what the laboratory found", "not about anyone's safety", "never evidence that exposure was low"}) {
    EXPECT_NE(cautions.find(said), std::string_view::npos) << said;
  }
}

TEST(Cautions, FitTheirPlace) {
  EXPECT_LE(cautions_in_a_line.size(), 60U);  // the foot of the narrowest page of charts
  for (const std::string_view text : {cautions, cautions_in_a_line, caution_on_overruling, caution_on_advice})
    EXPECT_EQ(text.find_first_of("\"<>&\n"), std::string_view::npos) << "would need escaping: " << text;
}

}  // namespace
}  // namespace driftwarden::cautions_test
