// SPDX-License-Identifier: MIT
#include "rule/condition_reader.hpp"

#include <gtest/gtest.h>

#include "rule/pack_text.hpp"

namespace driftwarden::condition_reader_test {
namespace {

struct Read {
  std::vector<Condition> where;
  std::string faults;
};

// Reads the table `where = …`.
Read read(const std::string& where, Subject of = Subject::sample) {
  TomlFile file{"p.toml", {}};
  const auto table = toml_of("where = " + where, file);
  EXPECT_TRUE(table) << where;
  if (!table) return {};
  Read result{read_where(*table->get("where")->as_table(), of, file), {}};
  result.faults = lines_of(file.faults);
  return result;
}

TEST(ConditionReader, ReadsAWordAListAndARange) {
  const Read result = read(
      R"({ kind = "sample", method = ["A", "B"], nominal = { at_least = "1000 mL/min", at_most = "2.5 L/min" } })");
  EXPECT_EQ(result.faults, "");
  ASSERT_EQ(result.where.size(), 3U);
  EXPECT_EQ(result.where[0].field, "kind");
  EXPECT_EQ(result.where[0].words, std::vector<std::string>({"sample"}));
  EXPECT_EQ(result.where[1].words, std::vector<std::string>({"A", "B"}));
  EXPECT_EQ(result.where[2].at_least, 1.0);
  EXPECT_EQ(result.where[2].at_most, 2.5);
  EXPECT_TRUE(result.where[2].words.empty());
}

TEST(ConditionReader, ReadsAnAmountAsARangeOfOne) {
  const Read result = read(R"({ temperature = "25 °C" })");
  EXPECT_EQ(result.faults, "");
  ASSERT_EQ(result.where.size(), 1U);
  EXPECT_EQ(result.where[0].at_least, 298.15);
  EXPECT_EQ(result.where[0].at_most, 298.15);
}

TEST(ConditionReader, ReadsYesAndNo) {
  EXPECT_EQ(read("{ fault = false }").where[0].words, std::vector<std::string>({"no"}));
  EXPECT_EQ(read("{ fault = \"yes\" }").where[0].words, std::vector<std::string>({"yes"}));
}

TEST(ConditionReader, ReadsWordsThatItMustNotBe) {
  const Read one = read(R"({ method = { none_of = "A" } })");
  EXPECT_EQ(one.faults, "");
  ASSERT_EQ(one.where.size(), 1U);
  EXPECT_TRUE(one.where[0].is_none_of);
  EXPECT_EQ(one.where[0].words, std::vector<std::string>({"A"}));
  EXPECT_EQ(read(R"({ method = { none_of = ["A", "B"] } })").where[0].words, std::vector<std::string>({"A", "B"}));
  EXPECT_EQ(read("{ fault = { none_of = true } }").where[0].words, std::vector<std::string>({"yes"}));
  EXPECT_FALSE(read(R"({ method = "A" })").where[0].is_none_of);
}

TEST(ConditionReader, RefusesWhatIsNoListOfWordsThatItMustNotBe) {
  EXPECT_EQ(read("{ kind = { none_of = \"blnk\" } }").faults,
            "p.toml:1:30: error: 'blnk' is nothing that 'kind' can be; did you mean 'blank'? "
            "[condition/unknown-word]\n");
  EXPECT_EQ(read("{ kind = { none_of = [] } }").faults,
            "p.toml:1:30: error: 'kind' can't be asked for like this; an empty list suits nothing "
            "[condition/wrong-form]\n");
  EXPECT_EQ(read("{ method = {} }").faults,
            "p.toml:1:20: error: 'method' can't be asked for like this; write a word or a list of words, in quotes, or "
            "{ none_of = \"…\" } [condition/wrong-form]\n");
}

TEST(ConditionReader, KeepsTheOrderOfTheFile) {
  const Read result = read(R"({ method = "A", batch = "B" })");
  ASSERT_EQ(result.where.size(), 2U);
  EXPECT_EQ(result.where[0].field, "method");
}

TEST(ConditionReader, RefusesAnUnknownField) {
  EXPECT_EQ(read("{ kid = \"sample\" }").faults,
            "p.toml:1:11: error: 'kid' is no field of a sample; did you mean 'kind'? [condition/unknown-field]\n");
  EXPECT_EQ(read("{ kind = \"sample\" }", Subject::calibrator).faults,
            "p.toml:1:11: error: 'kind' is no field of a calibrator; known are instrument, principle, read-at "
            "[condition/unknown-field]\n");
}

TEST(ConditionReader, RefusesAWordTheFieldCannotBe) {
  EXPECT_EQ(read("{ kind = [\"sample\", \"blnk\"] }").faults,
            "p.toml:1:29: error: 'blnk' is nothing that 'kind' can be; did you mean 'blank'? "
            "[condition/unknown-word]\n");
  EXPECT_EQ(read("{ fault = 1 }").faults,
            "p.toml:1:19: error: '1' is nothing that 'fault' can be; known are yes, no [condition/unknown-word]\n");
  EXPECT_EQ(read("{ method = \"\" }").faults,
            "p.toml:1:20: error: '' is nothing that 'method' can be [condition/unknown-word]\n");
}

TEST(ConditionReader, RefusesWhatDoesNotFitTheField) {
  EXPECT_EQ(read("{ kind = { at_least = 1 } }").faults,
            "p.toml:1:18: error: 'kind' can't be asked for like this; write a word or a list of words, in quotes, or "
            "{ none_of = \"…\" } [condition/wrong-form]\n");
  EXPECT_EQ(read("{ method = [] }").faults,
            "p.toml:1:20: error: 'method' can't be asked for like this; an empty list suits nothing "
            "[condition/wrong-form]\n");
  EXPECT_EQ(read("{ nominal = [] }").faults,
            "p.toml:1:21: error: 'nominal' can't be asked for like this; write an amount or a range, as in { at_least "
            "= \"…\", at_most = \"…\" } [condition/wrong-form]\n");
  EXPECT_EQ(read("{ nominal = {} }").faults,
            "p.toml:1:21: error: 'nominal' can't be asked for like this; write at_least, at_most or both "
            "[condition/wrong-form]\n");
  EXPECT_EQ(read("{ nominal = { at_least = [] } }").faults,
            "p.toml:1:34: error: 'nominal' can't be asked for like this; write an amount [condition/wrong-form]\n");
}

TEST(ConditionReader, RefusesARangeThatCannotBeMet) {
  EXPECT_EQ(read(R"({ nominal = { at_least = "2 L/min", at_most = "1 L/min" } })").faults,
            "p.toml:1:21: error: 'at_least' of 'nominal' is more than its 'at_most' [condition/order]\n");
}

TEST(ConditionReader, ReadsAmountsWithTheirUnitOnly) {
  EXPECT_EQ(read("{ paused = { at_most = 5 } }").faults,
            "p.toml:1:32: error: '5' lacks a unit; units read are s, min, h, d [amount/no-unit]\n");
  EXPECT_EQ(read("{ paused = { at_mots = \"5 min\" } }").faults,
            "p.toml:1:22: error: 'at_mots' is no key of the range of 'paused'; did you mean 'at_most'? "
            "[toml/unknown-key]\n");
}

}  // namespace
}  // namespace driftwarden::condition_reader_test
