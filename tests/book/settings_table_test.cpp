// SPDX-License-Identifier: MIT
#include "book/settings_table.hpp"

#include <gtest/gtest.h>

#include <random>

#include "book/settings.hpp"

namespace driftwarden::settings_table_test {
namespace {

TEST(SettingsTable, TakesNoControlCharacterIntoAText) {
  TomlFile file{"book.toml", {}};
  const auto table = toml_of("title = \"\\u001b[31mred\"\n", file);
  ASSERT_TRUE(table);
  SettingsTable reader(*table, "", file);
  EXPECT_FALSE(reader.text("title"));
  ASSERT_EQ(file.faults.size(), 1U);
  EXPECT_EQ(to_text(file.faults[0]),
            "book.toml:1:9: error: 'title' holds a control character; write plain text on one line "
            "[settings/control-character]");
}

TEST(SettingsTable, GivesTheOwnersKeysInTheOrderWritten) {
  TomlFile file{"book.toml", {}};
  const auto table = toml_of("z = \"1\"\nm = \"2\"\na = \"3\"\n", file);
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
  TomlFile file{"book.toml", {}};
  const auto table = toml_of("\"é\" = 1", file);
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
