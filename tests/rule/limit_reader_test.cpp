// SPDX-License-Identifier: MIT
#include "rule/limit_reader.hpp"

#include <gtest/gtest.h>

#include "rule/pack_text.hpp"

namespace driftwarden::limit_reader_test {
namespace {

using Form = Limit::Form;

struct Read {
  FoundLimit found;
  std::string faults;
};

Read read(std::string_view text) {
  TomlFile file{"p.toml", {}};
  const auto table = toml_of(text, file);
  EXPECT_TRUE(table) << text;
  if (!table) return {};
  TableReader reader(*table, file, "rule 'r'");
  Read result{read_limit(reader, file), {}};
  result.faults = lines_of(file.faults);
  return result;
}

TEST(LimitReader, ReadsEachFormUnderItsKey) {
  const std::pair<std::string_view, Form> forms[] = {
      {"within = \"5 %\"", Form::within},      {"strictly_within = \"5 %\"", Form::strictly_within},
      {"at_most = \"5 %\"", Form::at_most},    {"less_than = \"5 %\"", Form::less_than},
      {"at_least = \"5 %\"", Form::at_least},  {"more_than = \"5 %\"", Form::more_than},
      {"between = [\"1\", 2]", Form::between}, {"is = \"no\"", Form::is},
      {"one_of = [\"centre\"]", Form::one_of},
  };
  for (const auto& [text, form] : forms) {
    const Read result = read(text);
    ASSERT_TRUE(result.found.limit) << text << result.faults;
    EXPECT_EQ(result.found.limit->form, form) << text;
  }
}

TEST(LimitReader, KeepsTheTextAndPlaceOfEachValue) {
  const Read result = read("between = [\"1.5 L/min\", 3]");
  ASSERT_TRUE(result.found.limit);
  ASSERT_EQ(result.found.limit->values.size(), 2U);
  EXPECT_EQ(result.found.limit->values[0].text, "1.5 L/min");
  EXPECT_EQ(result.found.limit->values[1].text, "3");
  EXPECT_EQ(to_text(result.found.limit->values[1].place), "p.toml:1:25");
  EXPECT_EQ(to_text(result.found.limit->place), "p.toml:1:1");
}

TEST(LimitReader, ReadsTrueAndFalseAsYesAndNo) {
  EXPECT_EQ(read("is = false").found.limit->values[0].text, "no");
  EXPECT_EQ(read("is = true").found.limit->values[0].text, "yes");
}

TEST(LimitReader, FindsNoLimitWhereThereIsNone) {
  const Read result = read("a = 1");
  EXPECT_FALSE(result.found.has_limit);
  EXPECT_EQ(result.faults, "");
}

TEST(LimitReader, ReportsEveryLimitAfterTheFirstWritten) {
  EXPECT_EQ(read("more_than = 1\nat_most = 3\nat_least = 2").faults,
            "p.toml:2:1: error: rule 'r' has a second limit, 'at_most'; its limit 'more_than' is on line 1; write two "
            "rules [rule/two-limits]\n"
            "p.toml:3:1: error: rule 'r' has a second limit, 'at_least'; its limit 'more_than' is on line 1; write two "
            "rules [rule/two-limits]\n");
}

TEST(LimitReader, ReportsValuesThatDoNotFitTheForm) {
  EXPECT_EQ(read("between = [\"1 %\"]").faults,
            "p.toml:1:11: error: 'between' of rule 'r' is not written as it should be; write two amounts, as in "
            "[\"1.5 L/min\", \"2.5 L/min\"] [toml/wrong-type]\n");
  EXPECT_EQ(read("one_of = \"top\"").faults,
            "p.toml:1:10: error: 'one_of' of rule 'r' is not written as it should be; write a list of words, as in "
            "[\"centre\", \"top\"] [toml/wrong-type]\n");
  EXPECT_EQ(read("within = [\"5 %\"]").faults,
            "p.toml:1:10: error: 'within' of rule 'r' is not written as it should be; write an amount or a word in "
            "quotes [toml/wrong-type]\n");
  EXPECT_FALSE(read("one_of = []").found.limit);
  EXPECT_FALSE(read("one_of = [\"a\", {}]").found.limit);
  EXPECT_TRUE(read("one_of = []").found.has_limit);
}

}  // namespace
}  // namespace driftwarden::limit_reader_test
