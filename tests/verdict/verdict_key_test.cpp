// SPDX-License-Identifier: MIT
#include "verdict/verdict_key.hpp"

#include <gtest/gtest.h>

#include "verdict/finding.hpp"

namespace driftwarden::verdict_key_test {
namespace {

TEST(VerdictKey, HasEveryVerdictTheBestFirst) {
  const auto key = verdict_key(KeyOf::verdicts);
  ASSERT_EQ(key.size(), 4U);
  for (const Verdict verdict : {Verdict::valid, Verdict::qualified, Verdict::undecided, Verdict::void_})
    EXPECT_EQ(key[static_cast<std::size_t>(verdict)].word, to_text(verdict));
}

TEST(VerdictKey, TellsWhatElseStandsBesideASample) {
  const std::string text = verdict_key_text(KeyOf::verdicts_and_findings);
  EXPECT_TRUE(text.starts_with(
      "Key. The gravest finding gives the verdict; a decision may overrule it. valid: the sample stands. qualified: "));
  EXPECT_NE(text.find(" near: within the limit, but its uncertainty leaves a chance of 2.5 % or more"),
            std::string::npos);
  EXPECT_NE(text.find(" note, remark: "), std::string::npos);
  EXPECT_EQ(verdict_key_text(KeyOf::verdicts).find(" near: "), std::string::npos);
}

}  // namespace
}  // namespace driftwarden::verdict_key_test
