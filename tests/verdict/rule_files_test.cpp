// SPDX-License-Identifier: MIT
#include "verdict/rule_files.hpp"

#include <gtest/gtest.h>

#include "rule/pack_text.hpp"
#include "support/book_text.hpp"
#include "system/digest.hpp"

namespace driftwarden::rule_files_test {
namespace {

namespace fs = std::filesystem;

void write(const fs::path& file, const std::string& text) { std::ofstream(file, std::ios::binary) << text; }

// A book in a folder beside a folder of shipped packs.
class RuleFiles : public ::testing::Test {
 protected:
  RuleFiles() {
    fs::create_directory(shipped);
    fs::create_directory(folder);
  }
  Result<RuleSet> rules(const std::string& more_settings) {
    BookText text;
    text.settings += more_settings;
    text.write(folder);
    return read_rules(*read_book(folder, 1), shipped);
  }
  std::string faults(const std::string& more_settings) { return lines_of(rules(more_settings).faults()); }

  ScratchFolder scratch;
  const fs::path shipped = scratch.path() / "shipped";
  const fs::path folder = scratch.path() / "book";
};

TEST_F(RuleFiles, ReadsShippedPacksByNameAndOwnOnesByFile) {
  write(shipped / "trade.toml", PackText().heading("pack = \"trade\"\ntitle = \"T\"\nedition = \"1\"\n").text());
  write(folder / "own.toml", PackText().heading("pack = \"own\"\ntitle = \"T\"\nedition = \"1\"\n").text());
  const Result<RuleSet> set = rules("[rules]\npacks = [\"trade\", \"own.toml\"]\n");
  ASSERT_TRUE(set) << lines_of(set.faults());
  ASSERT_EQ(set->rules.size(), 2U);
  EXPECT_EQ(set->rules[0].full_name(), "trade/r");
  EXPECT_EQ(set->rules[1].full_name(), "own/r");
}

TEST_F(RuleFiles, KeepTheDigestOfThePacksBytes) {
  const std::string text = PackText().text();
  write(shipped / "trade.toml", text);
  const Result<Pack> pack = read_pack(shipped / "trade.toml", "trade.toml");
  ASSERT_TRUE(pack);
  EXPECT_EQ(pack->sha256, sha256_of(text));
  EXPECT_EQ(pack->file, "trade.toml");
}

TEST_F(RuleFiles, TellTheNearestNameOfAPackThatIsNotShipped) {
  write(shipped / "common-practice.toml", PackText().text());
  EXPECT_EQ(faults("[rules]\npacks = [\"common-practise\"]\n"),
            "book.toml:4:10: error: no pack 'common-practise' is shipped; did you mean 'common-practice'?; a pack of "
            "your own is "
            "named by its file, as in \"house.toml\" [rules/unknown-pack]\n");
}

TEST_F(RuleFiles, TellOfAFileThatIsNotThere) {
  const std::string told = faults("[rules]\npacks = [\"mine.toml\"]\n");
  EXPECT_NE(told.find("mine.toml"), std::string::npos) << told;
  EXPECT_NE(told.find("error"), std::string::npos) << told;
}

TEST_F(RuleFiles, TellAllFaultsOfAllPacksAndOfTheBookAtOnce) {
  write(folder / "a.toml", PackText().without("source").text());
  write(folder / "b.toml", PackText().without("reason").text());
  const std::string told =
      faults("[rules]\npacks = [\"a.toml\", \"b.toml\", \"none\"]\n[[override]]\nrule = \"p/r\"\n");
  for (const char* place : {"a.toml:", "b.toml:", "book.toml:4:", "book.toml:5:"}) {
    EXPECT_NE(told.find(place), std::string::npos) << place << " is not in\n" << told;
  }
}

TEST_F(RuleFiles, ApplyTheBooksOverridesWithTheirReason) {
  write(folder / "own.toml", PackText().text());
  const Result<RuleSet> set = rules(
      "[rules]\npacks = [\"own.toml\"]\n[[override]]\nrule = \"p/r\"\nwithin = \"10 %\"\nreason = \"The client's.\"\n");
  ASSERT_TRUE(set) << lines_of(set.faults());
  EXPECT_EQ(set->rules[0].limit.text, "within 10 %");
  EXPECT_EQ(set->rules[0].overridden->limit_before, "within 5 %");
  EXPECT_EQ(set->rules[0].overridden->reason, "The client's.");
  EXPECT_EQ(to_text(set->rules[0].overridden->place), "book.toml:5:1");
}

TEST_F(RuleFiles, OfABookThatNamesNoPackAreNone) {
  const Result<RuleSet> set = rules("");
  ASSERT_TRUE(set);
  EXPECT_TRUE(set->rules.empty());
}

TEST_F(RuleFiles, ShippedPacksAreListedByNameInOrder) {
  for (const char* name : {"q", "b", "z", "a", "m", "c", "y"}) write(shipped / (std::string(name) + ".toml"), "");
  write(shipped / "README.md", "");
  EXPECT_EQ(shipped_packs(shipped), (std::vector<std::string>{"a", "b", "c", "m", "q", "y", "z"}));
  EXPECT_TRUE(shipped_packs(shipped / "nowhere").empty());
}

}  // namespace
}  // namespace driftwarden::rule_files_test
