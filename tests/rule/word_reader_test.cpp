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

// input: masses and counts made up for these tests.

constexpr const char* sound_facts =
    "[method.M]\ntitle = \"T\"\n"
    "[method.M.detection]\nmass = \"30 µg\"\nsource = \"S1\"\nstanding = \"read\"\n"
    "[method.M.quantification]\nmass = \"0.1 mg\"\nsource = \"S2\"\nstanding = \"house\"\n"
    "[method.M.loading]\nmass = \"2 mg\"\nsource = \"S3\"\nstanding = \"read\"\n"
    "[method.M.blanks]\nmost = 10\nsource = \"S4\"\nstanding = \"common practice\"\n";

TEST(WordReader, ReadsWhatAMethodStatesOfMassAndBlanks) {
  const MassFacts facts = pack_of(heading + sound_facts).words.at(0).facts;
  EXPECT_EQ(facts.of(MassFactKind::detection)->value, 0.03);
  EXPECT_EQ(facts.of(MassFactKind::detection)->written, "30 µg");
  EXPECT_EQ(facts.of(MassFactKind::detection)->pack, "p");
  EXPECT_EQ(facts.of(MassFactKind::quantification)->source, "S2");
  EXPECT_EQ(facts.of(MassFactKind::quantification)->standing, Standing::house);
  EXPECT_EQ(to_text(facts.of(MassFactKind::loading)->place), "p.toml:14:1");
  EXPECT_EQ(facts.of(MassFactKind::blanks)->value, 10);
  EXPECT_EQ(facts.of(MassFactKind::blanks)->written, "10");
}

std::string faults_of_fact(const std::string& fact) {
  return faults_of("[method.M]\ntitle = \"T\"\n[method.M." + fact + "\n");
}

TEST(WordReader, RefusesAFactThatCantBeUsed) {
  const std::string sourced = "\nsource = \"S\"\nstanding = \"read\"";
  EXPECT_EQ(faults_of_fact("loading]\nmass = \"2\"" + sourced),
            "p.toml:7:8: error: '2' lacks a unit; units read are kg, g, mg, µg, ng [amount/no-unit]\n");
  EXPECT_EQ(faults_of_fact("loading]\nmass = \"0 mg\"" + sourced),
            "p.toml:7:8: error: '0 mg' is no mass; write a mass above 0 [method/no-mass]\n");
  EXPECT_EQ(faults_of_fact("loading]" + sourced),
            "p.toml:6:1: error: loading of method 'M' has no 'mass'; write it with its unit, as in \"0.1 mg\" "
            "[toml/missing-key]\n");
  EXPECT_EQ(faults_of_fact("blanks]\nmost = 2.5" + sourced),
            "p.toml:7:1: error: 'most' of blanks of method 'M' is 2.5; write a whole number of blanks, 1 or more "
            "[method/no-count]\n");
  EXPECT_EQ(faults_of_fact("loading]\nmass = \"2 mg\"\nstanding = \"read\""),
            "p.toml:6:1: error: loading of method 'M' has no 'source'; name the document and the clause, or the "
            "laboratory [toml/missing-key]\n");
  EXPECT_EQ(faults_of_fact("loading]\nmass = \"2 mg\"\nsource = \"S\"\nstanding = \"memory\""),
            "p.toml:9:1: error: loading of method 'M' is from memory; leave it out, or name where it was read "
            "[method/from-memory]\n");
}

TEST(WordReader, RefusesADetectionAboveTheQuantification) {
  EXPECT_EQ(
      faults_of_fact("detection]\nmass = \"0.2 mg\"\nsource = \"S\"\nstanding = \"read\"\n"
                     "[method.M.quantification]\nmass = \"0.1 mg\"\nsource = \"S\"\nstanding = \"read\""),
      "p.toml:6:1: error: the detection of method 'M', 0.2 mg, lies above its quantification, 0.1 mg; what can be "
      "stated as a figure can be told from nothing: one of the two is wrong [method/crossed]\n");
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
