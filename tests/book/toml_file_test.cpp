// SPDX-License-Identifier: MIT
#include "book/toml_file.hpp"

#include <gtest/gtest.h>

namespace driftwarden::toml_file_test {
namespace {

Diagnostic first_fault(const std::string& text) {
  TomlFile file{"book.toml", {}};
  EXPECT_FALSE(toml_of(text, file));
  return file.faults.empty() ? Diagnostic{} : file.faults.front();
}

TEST(TomlFile, SaysWhereATextStopsBeingToml) {
  const auto fault = first_fault("title = \"a\"\ntime_zone = \n");
  EXPECT_EQ(fault.id, "toml/syntax");
  EXPECT_EQ(fault.place.line, 2U);
  EXPECT_NE(fault.message.find("this is not TOML: "), std::string::npos);
  EXPECT_EQ(first_fault("a = 1\na = 2\n").place.line, 2U);
  EXPECT_EQ(first_fault("a = \"\xff\"\n").id, "toml/syntax");
}

TEST(TomlFile, NamesTheQuotesOfAWordProcessor) {
  EXPECT_EQ(first_fault("a = 1\ntitle = “Bench”\n").hint,
            "the line has the quotes of a word processor, “: write straight ones, \"");
  EXPECT_EQ(first_fault("title = “Bench\n\n").place.line, 1U);
  EXPECT_EQ(first_fault("a = ‘Bench’").hint, "the line has the quotes of a word processor, ‘: write straight ones, \"");
  EXPECT_EQ(first_fault("# “so to speak”\ntitle = \n").hint, "");
}

TEST(TomlFile, LetsNoControlCharacterIntoAMessage) {
  const auto fault = first_fault("a = 1\nb = \"\x1b[31m\n");
  EXPECT_FALSE(has_controls(fault.message));
  EXPECT_EQ(without_controls("a\x1b\x7f\n"), "a   ");
  EXPECT_TRUE(has_controls("a\x7f"));
}

// A dotted key of 200 000 parts overflows the stack of the TOML library; text like that must not reach it.
TEST(TomlFile, HandsNoMonstersToTheLibrary) {
  std::string key = "a";
  for (int i = 0; i < 200'000; ++i) key += ".a";
  EXPECT_EQ(first_fault("b = 1\n" + key + " = 1\n").id, "toml/too-deep");
  EXPECT_EQ(first_fault(std::string(1'000'001, '\n')).id, "toml/too-large");
  EXPECT_EQ(first_fault("a = " + std::string(4000, '[')).id, "toml/too-deep");
}

TEST(TomlFile, GivesEntriesAsWritten) {
  TomlFile file{"book.toml", {}};
  const auto table = toml_of("z = 1\nm = 2.5\na = \"3\"\nd = []\nb = true\nc = 2026-11-30\n[t]\n", file);
  ASSERT_TRUE(table);
  std::string entries;
  for (const auto [key, value] : entries_of(*table))
    entries += std::string(key->str()) + " is " + std::string(type_of(*value)) + ", ";
  EXPECT_EQ(entries,
            "z is a number, m is a number, a is text, d is a list, b is true or false, c is a date or time, t is a "
            "table, ");
}

}  // namespace
}  // namespace driftwarden::toml_file_test
