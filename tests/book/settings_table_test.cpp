// SPDX-License-Identifier: MIT
#include "book/settings_table.hpp"

#include <gtest/gtest.h>

#include <random>

#include "book/settings.hpp"

namespace driftwarden::settings_table_test {
namespace {

Diagnostic first_fault(const std::string& text) {
  SettingsFile file{"book.toml", {}};
  EXPECT_FALSE(toml_table_of(text, file));
  return file.faults.empty() ? Diagnostic{} : file.faults.front();
}

TEST(SettingsTable, SaysWhereATextStopsBeingToml) {
  const auto fault = first_fault("title = \"a\"\ntime_zone = \n");
  EXPECT_EQ(fault.id, "settings/not-toml");
  EXPECT_EQ(fault.place.line, 2U);
  EXPECT_NE(fault.message.find("this is not TOML: "), std::string::npos);
  EXPECT_EQ(first_fault("a = 1\na = 2\n").place.line, 2U);
  EXPECT_EQ(first_fault("a = \"\xff\"\n").id, "settings/not-toml");
}

TEST(SettingsTable, NamesTheQuotesOfAWordProcessor) {
  EXPECT_EQ(first_fault("a = 1\ntitle = “Bench”\n").hint,
            "the line has the quotes of a word processor, “: write straight ones, \"");
  EXPECT_EQ(first_fault("title = “Bench\n\n").place.line, 1U);
  EXPECT_EQ(first_fault("a = ‘Bench’").hint, "the line has the quotes of a word processor, ‘: write straight ones, \"");
  EXPECT_EQ(first_fault("# “so to speak”\ntitle = \n").hint, "");
}

TEST(SettingsTable, LetsNoControlCharacterIntoAMessage) {
  const auto fault = first_fault("a = 1\nb = \"\x1b[31m\n");
  for (const char c : fault.message) EXPECT_GE(static_cast<unsigned char>(c), 0x20U);
  SettingsFile file{"book.toml", {}};
  const auto table = toml_table_of("title = \"\\u001b[31mred\"\n", file);
  ASSERT_TRUE(table);
  SettingsTable reader(*table, "", file);
  EXPECT_FALSE(reader.text("title"));
  ASSERT_EQ(file.faults.size(), 1U);
  EXPECT_EQ(to_text(file.faults[0]),
            "book.toml:1:9: error: 'title' holds a control character; write plain text on one line "
            "[settings/control-character]");
}

// A dotted key of 200 000 parts overflows the stack of the TOML library; text like that must not reach it.
TEST(SettingsTable, HandsNoMonstersToTheLibrary) {
  std::string key = "a";
  for (int i = 0; i < 200'000; ++i) key += ".a";
  EXPECT_EQ(to_text(first_fault("b = 1\n" + key + " = 1\n")),
            "book.toml:2: error: the line is longer than 10000 bytes [settings/too-large]");
  EXPECT_EQ(to_text(first_fault(std::string(1'000'001, '\n'))),
            "book.toml: error: the file is larger than a megabyte; book.toml holds settings, not records "
            "[settings/too-large]");
  EXPECT_EQ(first_fault("a = " + std::string(4000, '[')).id, "settings/not-toml");
}

TEST(SettingsTable, AcceptsTheLongestLine) {
  SettingsFile file{"book.toml", {}};
  const std::string frame = "a = \"\"";
  EXPECT_TRUE(toml_table_of("a = \"" + std::string(10'000 - frame.size(), 'x') + "\"\n", file));
}

TEST(SettingsTable, GivesTheOwnersKeysInTheOrderWritten) {
  SettingsFile file{"book.toml", {}};
  const auto table = toml_table_of("z = \"1\"\nm = \"2\"\na = \"3\"\n", file);
  SettingsTable reader(*table, "headings.readings", file);
  std::string keys;
  for (const auto& [key, value] : reader.all_texts()) keys += key.text + value.text;
  EXPECT_EQ(keys, "z1m2a3");
  reader.refuse_other_keys();
  EXPECT_TRUE(file.faults.empty());
}

TEST(SettingsTable, HintsAtTheNearestKeyOrItsHome) {
  EXPECT_EQ(hint_for_unknown_key("pressrue", "reference", {"temperature", "pressure"}), "did you mean 'pressure'?");
  EXPECT_EQ(hint_for_unknown_key("guard", "", {"title"}), "it belongs under [decision]");
  EXPECT_EQ(hint_for_unknown_key("title", "site", {"altitude"}), "it belongs at the top, above the first [heading]");
}

// Columns count characters, not bytes.
TEST(SettingsTable, CountsColumnsInCharacters) {
  SettingsFile file{"book.toml", {}};
  const auto table = toml_table_of("\"é\" = 1", file);
  SettingsTable reader(*table, "", file);
  EXPECT_FALSE(reader.text("é"));
  EXPECT_EQ(file.faults[0].place, (Place{"book.toml", 1, 7}));
}

TEST(SettingsTable, SurvivesAnyText) {
  const std::string good =
      "title = \"a\"\ntime_zone = \"UTC\"\n[reference]\ntemperature = \"25 °C\"\n[headings.readings]\n"
      "\"Flow\" = \"reading [L/min]\"\n[[override]]\nrule = \"x\"\n[rules]\npacks = [\"a\"]\n";
  const std::string_view letters = "[]{}=\"'.,#\n\\ax1é\xff";
  std::mt19937_64 random(20261125);
  int refused = 0;
  for (int round = 0; round < 5000; ++round) {
    std::string text = good;
    for (std::uint64_t changes = 1 + random() % 4; changes > 0; --changes)
      text[random() % text.size()] = letters[random() % letters.size()];
    const auto settings = parse_settings(text, "book.toml");
    refused += settings ? 0 : 1;
    if (!settings) {
      ASSERT_FALSE(settings.faults().front().message.empty());
    }
  }
  EXPECT_GT(refused, 1000);
}

}  // namespace
}  // namespace driftwarden::settings_table_test
