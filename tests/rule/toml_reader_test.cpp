// SPDX-License-Identifier: MIT
#include "rule/toml_reader.hpp"

#include <gtest/gtest.h>

#include "rule/pack_text.hpp"

namespace driftwarden::toml_reader_test {
namespace {

// A text read by a function of a TableReader; its faults.
template <class F>
std::string faults_of(std::string_view text, F read) {
  TomlFile file{"p.toml", {}};
  const auto table = toml_of(text, file);
  if (table) {
    TableReader reader(*table, file, "a thing");
    read(reader);
  }
  return lines_of(in_reading_order(file.faults));
}
std::string faults_of(std::string_view text) {
  return faults_of(text, [](TableReader&) {});
}

TEST(TomlReader, SaysWhereATextIsNotToml) {
  EXPECT_EQ(faults_of("a = 1\nb = ]\n"),
            "p.toml:2:5: error: this is not TOML: Error while parsing key-value pair: expected value, saw "
            "']' [toml/syntax]\n");
}

TEST(TomlReader, ReportsEveryFaultOfATableFromTopToBottom) {
  const auto read = [](TableReader& reader) {
    reader.number("n");
    reader.yes_no("y");
    reader.text("t");
    reader.required_text("r", "write it");
    reader.refuse_other_keys();
  };
  EXPECT_EQ(faults_of("t = 3\ny = 1\nn = \"3\"\ntt = 1\n", read),
            "p.toml:1:1: error: a thing has no 'r'; write it [toml/missing-key]\n"
            "p.toml:1:5: error: 't' of a thing is a number; write text in quotes [toml/wrong-type]\n"
            "p.toml:2:5: error: 'y' of a thing is a number; write true or false, without quotes [toml/wrong-type]\n"
            "p.toml:3:5: error: 'n' of a thing is text; write a number, without quotes [toml/wrong-type]\n"
            "p.toml:4:1: error: 'tt' is no key of a thing; known are n, y, t, r [toml/unknown-key]\n");
}

TEST(TomlReader, TakesNoBlankText) {
  EXPECT_EQ(faults_of("t = \" \\n\"", [](TableReader& reader) { reader.text("t"); }),
            "p.toml:1:5: error: 't' of a thing is empty [toml/empty]\n");
}

TEST(TomlReader, TakesFiniteNumbersOnly) {
  const auto read = [](TableReader& reader) { reader.number("n"); };
  EXPECT_EQ(faults_of("n = 0.75", read), "");
  EXPECT_EQ(faults_of("n = -2", read), "");
  EXPECT_NE(faults_of("n = nan", read), "");
  EXPECT_NE(faults_of("n = inf", read), "");
  EXPECT_NE(faults_of("n = true", read), "");
}

TEST(TomlReader, TakesAWordOfAListOnly) {
  const auto read = [](TableReader& reader) { reader.word<Subject>("of"); };
  EXPECT_EQ(faults_of("of = \"pump\"", read), "");
  EXPECT_EQ(faults_of("of = \"pumps\"", read),
            "p.toml:1:6: error: 'of' can't be 'pumps'; did you mean 'pump'? [toml/unknown-word]\n");
}

TEST(TomlReader, TakesTablesAndListsOfTablesForWhatTheyAre) {
  const auto read = [](TableReader& reader) {
    reader.table("a");
    reader.tables("b");
  };
  EXPECT_EQ(faults_of("[a]\n[[b]]\n[[b]]\n", read), "");
  EXPECT_EQ(faults_of("a = []\nb = [1]\n", read),
            "p.toml:1:5: error: 'a' of a thing is a list; write a table [toml/wrong-type]\n"
            "p.toml:2:6: error: 'b' of a thing is a number; write it as [[b]] [toml/wrong-type]\n");
  EXPECT_EQ(faults_of("b = 2020-01-01\n", read),
            "p.toml:1:5: error: 'b' of a thing is a date or time; write it as [[b]] [toml/wrong-type]\n");
}

TEST(TomlReader, LetsPlainNamesPass) {
  const auto check = [](std::string_view name) {
    TomlFile file{"p.toml", {}};
    check_name(std::string(name), {"p.toml", 1, 1}, file);
    return lines_of(file.faults);
  };
  EXPECT_EQ(check("respirable-2lpm_A.1"), "");
  EXPECT_EQ(check("a/b"),
            "p.toml:1:1: error: 'a/b' can't be a name; names are of letters a to z, digits, '-', '_' and '.' "
            "[toml/not-a-name]\n");
  EXPECT_NE(check("a b"), "");
  EXPECT_NE(check("é"), "");
  EXPECT_NE(check(""), "");
}

TEST(TomlReader, ListsEntriesAsWritten) {
  TomlFile file{"p.toml", {}};
  const auto table = toml_of("z = 1\nm = 2\na = 3\n", file);
  ASSERT_TRUE(table);
  std::string order;
  for (const TomlEntry& entry : entries_of(*table)) order += std::string(entry.key->str());
  EXPECT_EQ(order, "zma");
}

TEST(TomlReader, WritesPlainValuesAsText) {
  TomlFile file{"p.toml", {}};
  const auto table = toml_of("a = 3\nb = 2.50\nc = true\nd = \"x\"\ne = []\nf = nan\ng = -inf\n", file);
  ASSERT_TRUE(table);
  const auto text = [&](std::string_view key) { return plain_text_of(*table->get(key)); };
  EXPECT_EQ(text("a"), "3");
  EXPECT_EQ(text("b"), "2.5");
  EXPECT_EQ(text("c"), "yes");
  EXPECT_EQ(text("d"), "x");
  EXPECT_EQ(text("e"), std::nullopt);
  EXPECT_EQ(text("f"), "nan");
  EXPECT_EQ(text("g"), "-inf");
}

TEST(TomlReader, ReadsAByteOrderMarkAndCarriageReturns) {
  EXPECT_EQ(faults_of("\xEF\xBB\xBF"
                      "a = 1\r\nb = 2\r\n"),
            "");
}

}  // namespace
}  // namespace driftwarden::toml_reader_test
