// SPDX-License-Identifier: MIT
#include "book/heading_guess.hpp"

#include <gtest/gtest.h>

#include "book/book_table.hpp"

namespace driftwarden::heading_guess_test {
namespace {

const TableSpec& spec_of(std::string_view name) {
  for (const BookTable& table : book_tables()) {
    if (table.name() == name) return *table.spec;
  }
  throw std::runtime_error("no such table");
}

std::string guessed(std::string_view table, const std::vector<UnknownColumn>& columns,
                    const std::set<std::string>& there = {}) {
  const TableSpec& spec = spec_of(table);
  std::set<std::size_t> taken;
  for (const std::string& name : there) taken.insert(field_named(spec, name)->number);
  std::string lines;
  for (const HeadingGuess& one : guessed_headings(spec, taken, columns)) lines += one.table_line() + '\n';
  return lines;
}

TEST(HeadingGuess, KnowsDatesAndTimesByTheirLookAndOrder) {
  EXPECT_EQ(guessed("samples",
                    {{"Day", {"3.11.2026", "n/a", "4.11.2026", "5.11.26"}}, {"On", {"6:16"}}, {"Off", {"2:05 pm"}}}),
            "\"Day\" = \"started date\"\n\"On\" = \"started time\"\n\"Off\" = \"stopped time\"\n");
  EXPECT_EQ(guessed("readings", {{"When", {"2026-11-03T06:16"}}}), "\"When\" = \"taken\"\n");
  EXPECT_EQ(guessed("certificates", {{"Day of calibration", {"3.11.2026"}}}),
            "\"Day of calibration\" = \"calibrated\"\n");
  EXPECT_EQ(guessed("readings", {{"Batch", {"17-4", "18"}}}), "");
}

TEST(HeadingGuess, KnowsFiguresByTheirUnit) {
  EXPECT_EQ(guessed("readings", {{"Flow (L/min)", {}}, {"Bench temperature, °F", {}}}),
            "\"Flow\" = \"reading\"\n\"Bench temperature\" = \"temperature\"\n");
  EXPECT_EQ(guessed("readings", {{"Flow (L/min)", {}}}, {"reading"}), "");
  EXPECT_EQ(guessed("readings", {{"Something (kg)", {}}}), "");
}

TEST(HeadingGuess, KnowsOthersByANearNameAWordOfItOrWhatPeopleCallThem) {
  EXPECT_EQ(guessed("readings", {{"Sample ID", {}}, {"calibratr", {}}, {"Remarks", {}}, {"Colour", {}}}),
            "\"Sample ID\" = \"sample\"\n\"calibratr\" = \"calibrator\"\n\"Remarks\" = \"note\"\n");
  EXPECT_EQ(guessed("instruments", {{"S/N", {}}}), "\"S/N\" = \"serial\"\n");
  EXPECT_EQ(guessed("readings", {{"Sample \"1\"", {}}}), "");  // can't be written in book.toml as it is
}

TEST(HeadingGuess, TellsTheOneOrderThatReadsAllDates) {
  EXPECT_EQ(only_order_of({"3.11.2026", "13.11.2026"}), "day first");
  EXPECT_EQ(only_order_of({"11/13/26"}), "month first");
  EXPECT_EQ(only_order_of({"3.11.2026"}), "");
  EXPECT_EQ(only_order_of({"2026-11-13"}), "");
  EXPECT_EQ(only_order_of({"13.13.2026"}), "");
  EXPECT_EQ(only_order_of({}), "");
}

}  // namespace
}  // namespace driftwarden::heading_guess_test
