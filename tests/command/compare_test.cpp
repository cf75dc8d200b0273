// SPDX-License-Identifier: MIT
#include <gtest/gtest.h>

#include <nlohmann/json.hpp>

#include "command/called.hpp"

namespace driftwarden::compare_test {
namespace {

bool has(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }

// S1 drifts by -2.5 %: within the book's 5 %, not within the other file's 2 %.
class Compare : public ::testing::Test {
 protected:
  Compare() : book_(judged_text("5 %")) { std::ofstream(book_.file("other.toml")) << judged_text("2 %").rules; }
  CalledBook book_;
};

TEST_F(Compare, AnswersOneWhereAVerdictWouldChange) {
  const Called called = call({"compare", book_.path(), "--rules", "other.toml"});
  EXPECT_EQ(called.status, 1) << called.err;
  EXPECT_TRUE(has(called.out, "S1: valid -> void\n")) << called.out;
  EXPECT_TRUE(has(called.out, "1 would change: 1 from valid to void\n")) << called.out;
}

TEST_F(Compare, AnswersZeroWhereNoneWould) {
  const Called called = call({"compare", book_.path(), "--rules", "own.toml"});
  EXPECT_EQ(called.status, 0) << called.err;
  EXPECT_TRUE(has(called.out, "no verdict would change\n"));
  EXPECT_EQ(call({"compare", book_.path(), "--guard", "0"}).status, 0);
}

TEST_F(Compare, TakesAFileFromWhereOneStandsBeforeTheBooks) {
  EXPECT_EQ(call({"compare", book_.path(), "--rules", book_.file("other.toml")}).status, 1);
}

TEST_F(Compare, TakesShippedPacksByName) {
  const Called called = call({"compare", book_.path(), "--rules", "common-practice", "--format", "json"});
  EXPECT_LE(called.status, 1) << called.err;
  const auto all = nlohmann::json::parse(called.out);
  EXPECT_EQ(all["after"]["packs"][0]["pack"], "common-practice");
  EXPECT_EQ(all["before"]["packs"][0]["pack"], "own");
}

TEST_F(Compare, OfAnUnknownPackNamesTheNearest) {
  const Called called = call({"compare", book_.path(), "--rules", "comon-practice"});
  EXPECT_EQ(called.status, 2);
  EXPECT_TRUE(has(called.err,
                  "command line: error: no pack 'comon-practice' is shipped; did you mean "
                  "'common-practice'?"))
      << called.err;
}

TEST_F(Compare, NeedsSomethingToCompareWith) {
  const Called called = call({"compare", book_.path()});
  EXPECT_EQ(called.status, 2);
  EXPECT_TRUE(has(called.err, "[compare/nothing-to-compare]")) << called.err;
}

TEST_F(Compare, KeepsAnOverrideOfARuleThatIsThereAndSetsAsideAnother) {
  BookText text = judged_text("5 %");
  text.settings += "[[override]]\nrule = \"own/drift\"\nwithin = \"3 %\"\nreason = \"the client\"\n";
  const CalledBook book(text);
  std::ofstream(book.file("other.toml")) << judged_text("2 %").rules;
  EXPECT_EQ(call({"compare", book.path(), "--rules", "other.toml"}).status, 0);  // 3 % on both sides
  const Called without = call({"compare", book.path(), "--rules", "common-practice"});
  EXPECT_TRUE(has(without.err, "book.toml:5:1: remark: the override of 'own/drift' is set aside")) << without.err;
}

TEST_F(Compare, WritesCsvToAFile) {
  const std::string file = book_.file("changes.csv");
  EXPECT_EQ(call({"compare", book_.path(), "--rules", "other.toml", "--format", "csv", "--out", file}).status, 1);
  EXPECT_TRUE(text_of_file(file).starts_with("sample,batch,verdict_before,verdict_after,"));
  EXPECT_EQ(call({"compare", book_.path(), "--guard", "1", "--out", "/no/such/folder/x"}).status, 2);
}

}  // namespace
}  // namespace driftwarden::compare_test
