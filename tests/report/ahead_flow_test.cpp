// SPDX-License-Identifier: MIT
#include "report/ahead_flow.hpp"

#include <gtest/gtest.h>

#include "report/ahead_outlook.hpp"

namespace driftwarden::ahead_flow_test {
namespace {

bool has(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }

TEST(AheadFlow, ForetellsTheDriftAndSaysWhyNot) {
  const OutlookBook book;
  Outlook outlook = book.outlook(asked_for(0.5, 4));
  outlook.samples[0].asked.sample.pump = 0;
  EXPECT_TRUE(has(flow_section(book.book(), outlook.samples[0]),
                  "\nFlow: P1\n  drift       not foretold: 0 earlier uses of the pump say too little, five are needed\n"
                  "  volume      not foretold: no pump is said\n"));
  DriftAhead& drift = outlook.samples[0].drift;
  drift.earlier = {10, 0.02};
  drift.within = 0.045;  // input: figures of a drift, made up
  static const Rule rule = RuleText{Subject::sample, "drift", "within", {"5 %"}}.rule();
  drift.rule = &rule;
  drift.limit_low = -0.05;
  drift.limit_high = 0.05;
  drift.beyond_limits = 0.05;
  EXPECT_TRUE(
      has(flow_section(book.book(), outlook.samples[0]),
          "  drift       within ±4.5 % in 95 % of its uses: 10 earlier uses, s = 2 %; beyond ±5 %, which voids\n"
          "              (own/drift), in 5 %\n"))
      << flow_section(book.book(), outlook.samples[0]);
  drift.limit_low = -0.02;
  EXPECT_TRUE(has(flow_section(book.book(), outlook.samples[0]), "; below -2 % or above 5 %,"));
  drift.limit_high = missing;
  EXPECT_TRUE(has(flow_section(book.book(), outlook.samples[0]), "; below -2 %, which"));
}

}  // namespace
}  // namespace driftwarden::ahead_flow_test
