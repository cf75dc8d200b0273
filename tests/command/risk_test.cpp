// SPDX-License-Identifier: MIT
#include <gtest/gtest.h>

#include <nlohmann/json.hpp>

#include "command/called.hpp"
#include "support/drifting_book.hpp"

namespace driftwarden::risk_test {
namespace {

bool has(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }

// One drift in five is beyond the 5 % of the rule.
class Risk : public ::testing::Test {
 protected:
  static BookText text() {
    std::vector<double> drifts;
    for (int i = 0; i < 30; ++i) drifts.push_back(0.4 * i - 6);
    BookText text = test::drifting_book(drifts);
    const BookText judged = judged_text("5 %");
    text.settings = judged.settings;
    text.rules = judged.rules;
    return text;
  }
  CalledBook book_{text()};
};

TEST_F(Risk, PrintsWhatAYearBringsAndWhatWouldChangeIt) {
  const Called called = call({"risk", book_.path(), "--guard", "0.5", "--more", "3"});
  EXPECT_EQ(called.status, 0) << called.err;
  EXPECT_TRUE(has(called.out, "own/drift: drift within 5 %, else void\n")) << called.out;
  EXPECT_TRUE(has(called.out, "\n  guard band 0.50 U ")) << called.out;
  EXPECT_TRUE(has(called.out, "\n  3 more readings ")) << called.out;
  EXPECT_TRUE(has(called.out, "\n  both ")) << called.out;
  EXPECT_TRUE(has(called.out, "\noccupational hygienist")) << called.out;
}

TEST_F(Risk, PrintsJson) {
  const Called called = call({"risk", book_.path(), "--format", "json"});
  const auto all = nlohmann::json::parse(called.out);
  EXPECT_EQ(all["rules"][0]["samples"], 30);
  EXPECT_EQ(all["rules"][0]["years"].size(), 4U);
  EXPECT_EQ(all["as_of"], "2026-11-16");
}

TEST_F(Risk, WritesIntoAFileAndNeverOverTheBook) {
  const ScratchFolder folder;
  const std::string file = folder.path() / "risk.txt";
  EXPECT_EQ(call({"risk", book_.path(), "--out", file}).status, 0);
  EXPECT_TRUE(has(text_of_file(file), "own/drift"));
  EXPECT_EQ(call({"risk", book_.path(), "--out", book_.file("samples.csv")}).status, 2);
}

TEST_F(Risk, RefusesAGuardBandBelowNothing) {
  EXPECT_EQ(call({"risk", book_.path(), "--guard", "-1"}).status, 2);
  EXPECT_EQ(call({"risk", "no-such-book"}).status, 2);
}

}  // namespace
}  // namespace driftwarden::risk_test
