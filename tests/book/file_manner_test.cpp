// SPDX-License-Identifier: MIT
#include "book/file_manner.hpp"

#include <gtest/gtest.h>

#include "book/written_book.hpp"

namespace driftwarden::file_manner_test {
namespace {

constexpr const char* settings_text = R"(time_zone = "UTC"
dates = "month first"
[files."readings/*"]
decimal = ","
dates = "day first"
[files."W46.xlsx"]
decimal = "."
time_zone = "America/Denver"
heading = 3
sheet = "week 46"
ignore_rows = ["5", "Total*"]
)";

TEST(FileManner, IsWhatIsSaidOfTheFileElseOfTheBook) {
  const Result<Settings> settings = parse_settings(settings_text, "book.toml");
  ASSERT_TRUE(settings);
  const FileManner samples = manner_of(*settings, "samples.csv");
  EXPECT_EQ(samples.decimal, '.');
  EXPECT_EQ(samples.dates, DateOrder::month_first);
  EXPECT_EQ(manner_of(*settings, "readings/W45.csv").decimal, ',');
  const FileManner week = manner_of(*settings, "readings/W46.xlsx:week 46");
  EXPECT_EQ(week.decimal, '.') << "the later pattern is right";
  EXPECT_EQ(week.dates, DateOrder::day_first) << "and leaves what it does not speak of";
  EXPECT_EQ(week.heading_line, 3U);
  EXPECT_EQ(week.sheet, "week 46");
  EXPECT_TRUE(week.ignored.hold(5, ""));
  EXPECT_EQ(week.zone->offset_at(1794700800), -7 * 3600) << "2026-11-15, MST";
}

TEST(FileManner, IsRemarkedOnWhereNoFileIsOfThePattern) {
  const Result<Settings> settings = parse_settings(settings_text, "book.toml");
  const Diagnostics idle = idle_patterns(*settings, {"readings/W45.csv"});
  ASSERT_EQ(idle.size(), 1U);
  EXPECT_EQ(to_text(idle[0]),
            "book.toml:6:8: remark: no file of the book is called 'W46.xlsx'; write its path from the book's folder, * "
            "for any letters [settings/no-such-file]");
}

}  // namespace
}  // namespace driftwarden::file_manner_test
