// SPDX-License-Identifier: MIT
#include "rule/word_reader.hpp"

#include <gtest/gtest.h>

#include "rule/pack_text.hpp"

namespace driftwarden::word_reader_test {
namespace {

const std::string heading = "pack = \"p\"\ntitle = \"T\"\nedition = \"1\"\n";

std::string faults_of(const std::string& words) { return lines_of(parse_pack(heading + words, "p.toml").faults()); }

TEST(WordReader, ReadsMethodsAndAnalysesWithBlanksInTheirNames) {
  const Pack pack = pack_of(heading +
                            "[method.\"NMAM 0600\"]\ntitle = \"Respirable dust\"\nsource = \"S\"\n"
                            "[analysis.quartz]\ntitle = \"Quartz\"\n");
  ASSERT_EQ(pack.words.size(), 2U);
  EXPECT_EQ(pack.words[0].of, Selector::method);
  EXPECT_EQ(pack.words[0].word, "NMAM 0600");
  EXPECT_EQ(pack.words[0].source, "S");
  EXPECT_EQ(pack.words[1].of, Selector::analysis);
  EXPECT_EQ(pack.words[1].title, "Quartz");
}

TEST(WordReader, ReadsThoseOfABook) {
  const Result<HouseRules> house = parse_house_rules("[method.M]\ntitle = \"T\"\n", "book.toml");
  ASSERT_TRUE(house);
  ASSERT_EQ(house->words.size(), 1U);
  EXPECT_EQ(to_text(house->words[0].place), "book.toml:1:9");
}

TEST(WordReader, RefusesWhatSaysNothing) {
  EXPECT_EQ(faults_of("[method.M]\n"),
            "p.toml:4:1: error: method 'M' has no 'title'; say what it is, in a line [toml/missing-key]\n");
  EXPECT_EQ(faults_of("[method]\nM = 1\n"),
            "p.toml:5:5: error: method 'M' is a number; write it as [method.NAME] [toml/wrong-type]\n");
  EXPECT_EQ(faults_of("[method.\" M\"]\ntitle = \"T\"\n"),
            "p.toml:4:9: error: ' M' can't be a cell's text; write it as samples.csv does, without blanks at its ends "
            "[toml/not-a-word]\n");
}

}  // namespace
}  // namespace driftwarden::word_reader_test
