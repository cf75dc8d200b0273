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

// A program that was put in place without its folder has the packs in itself.
TEST_F(RuleFiles, AreReadFromTheProgramWhereItHasNoFolder) {
  const std::string trade = PackText().heading("pack = \"trade\"\ntitle = \"T\"\nedition = \"1\"\n").text();
  const std::string other = PackText().heading("pack = \"other\"\ntitle = \"T\"\nedition = \"1\"\n").text();
  const std::vector<BuiltInPack> texts{{"other", other}, {"trade", trade}};
  BookText text;
  text.settings += "[rules]\npacks = [\"trade\"]\n";
  text.write(folder);
  const Result<RuleSet> set = read_rules(*read_book(folder, 1), ShippedPacks(texts));
  ASSERT_TRUE(set) << lines_of(set.faults());
  ASSERT_EQ(set->rules.size(), 1U);
  EXPECT_EQ(set->rules[0].full_name(), "trade/r");
  EXPECT_EQ(set->packs[0].sha256, sha256_of(trade));
  const Result<RuleSet> none = read_other_rules(*read_book(folder, 1), {"trde"}, ShippedPacks(texts));
  ASSERT_FALSE(none);
  EXPECT_EQ(lines_of(none.faults()),
            "command line: error: no pack 'trde' is shipped; did you mean 'trade'?; a pack of your own is named by its "
            "file, as in \"house.toml\" [rules/unknown-pack]\n");
}

// Rules that a book is compared by: the packs are named by hand, what the book says of its own goes on.
class OtherRules : public RuleFiles {
 protected:
  Result<RuleSet> other(const std::vector<std::string>& names, const std::string& more_settings = "") {
    BookText text;
    text.settings += more_settings;
    text.write(folder);
    return read_other_rules(*read_book(folder, 1), names, shipped);
  }
};

TEST_F(OtherRules, AreShippedOnesOrFilesHereOrInTheBook) {
  const auto pack = [](const std::string& name) {
    return PackText().heading("pack = \"" + name + "\"\ntitle = \"T\"\nedition = \"1\"\n").text();
  };
  write(shipped / "trade.toml", pack("trade"));
  write(folder / "there.toml", pack("there"));
  write(folder / "both.toml", pack("inner"));
  write(scratch.path() / "both.toml", pack("outer"));
  const fs::path before = fs::current_path();
  fs::current_path(scratch.path());
  const Result<RuleSet> set = other({"trade", "there.toml", "both.toml"});
  fs::current_path(before);
  ASSERT_TRUE(set) << lines_of(set.faults());
  std::string names;
  for (const Rule& rule : set->rules) names += rule.full_name() + " ";
  EXPECT_EQ(names, "trade/r there/r outer/r ");
}

TEST_F(OtherRules, SetAsideOverridesOfRulesThatTheyDoNotHave) {
  write(shipped / "trade.toml", PackText().heading("pack = \"trade\"\ntitle = \"T\"\nedition = \"1\"\n").text());
  const auto override_of = [](const std::string& rule, const std::string& limit = "within = \"10 %\"") {
    return "[[override]]\nrule = \"" + rule + "\"\n" + limit + "\nreason = \"The client's.\"\n";
  };
  const Result<RuleSet> set = other({"trade"}, override_of("trade/r") + override_of("gone/r"));
  ASSERT_TRUE(set) << lines_of(set.faults());
  ASSERT_EQ(set->rules.size(), 1U);
  EXPECT_EQ(set->rules[0].limit.text, "within 10 %");
  ASSERT_EQ(set->remarks.size(), 1U);
  EXPECT_EQ(
      to_text(set->remarks[0]),
      "book.toml:7:1: remark: the override of 'gone/r' is set aside: the rules compared with don't have that rule "
      "[rules/override-set-aside]");
  const Result<RuleSet> own = other({"trade"}, override_of("book/unknown-sampler", "is = \"no\""));
  ASSERT_TRUE(own) << lines_of(own.faults());
  EXPECT_TRUE(own->remarks.empty()) << "the program's own rules are the same under all packs";
}

TEST_F(OtherRules, TellWhatIsWrongWithTheBooksOwn) {
  write(shipped / "trade.toml", PackText().heading("pack = \"trade\"\ntitle = \"T\"\nedition = \"1\"\n").text());
  const Result<RuleSet> set = other({"trade"}, "[[override]]\nrule = \"p/r\"\n");
  ASSERT_FALSE(set);
  EXPECT_TRUE(lines_of(set.faults()).starts_with("book.toml:3:")) << lines_of(set.faults());
}

TEST_F(RuleFiles, ShippedPacksAreListedByNameInOrder) {
  for (const char* name : {"q", "b", "z", "a", "m", "c", "y"}) write(shipped / (std::string(name) + ".toml"), "");
  write(shipped / "README.md", "");
  EXPECT_EQ(shipped_packs(shipped), (std::vector<std::string>{"a", "b", "c", "m", "q", "y", "z"}));
  EXPECT_TRUE(shipped_packs(shipped / "nowhere").empty());
}

}  // namespace
}  // namespace driftwarden::rule_files_test
