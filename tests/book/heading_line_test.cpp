// SPDX-License-Identifier: MIT
#include "book/heading_line.hpp"

#include <gtest/gtest.h>

#include "book/padded_text.hpp"
#include "book/table_files.hpp"

namespace driftwarden::heading_line_test {
namespace {

const std::string headings = "taken,stage,sample,calibrator,reading [L/min]\n";
const std::string row = "2026-11-03T06:16,pre,S-1,VOL-1,2.0\n";

HeadingLine found(const std::string& text, std::uint32_t said = 0, const HeadingMap& owners = {}) {
  const PaddedText padded(text);
  return heading_line_of({padded, "f.csv", 0, said}, readings_spec, owners);
}

TEST(HeadingLine, IsTheFirstWhereThatHasAllThatIsNeeded) {
  const HeadingLine line = found(headings + row);
  EXPECT_EQ(line.line, 1U);
  EXPECT_EQ(line.at, 0U);
  EXPECT_FALSE(line.was_found);
}

TEST(HeadingLine, IsFoundBelowTitlesAndBlankLines) {
  const HeadingLine line = found("Air sampling, week 45; north bench\n\n" + headings + row);
  EXPECT_EQ(line.line, 3U);
  EXPECT_EQ(line.at, 36U);
  EXPECT_TRUE(line.was_found);
}

TEST(HeadingLine, CountsTheLinesOfATitleThatHasSeveral) {
  EXPECT_EQ(found("\"Readings\nof week 45\"\n" + headings + row).line, 3U);
}

TEST(HeadingLine, IsLookedForByTheOwnersHeadings) {
  const HeadingMap owners{{"When", {"taken", {}}}, {"Flow", {"reading", {}}}};
  EXPECT_EQ(found("Title\nWhen;Flow (L/min)\n", 0, owners).line, 2U);
}

TEST(HeadingLine, IsTheFirstWhereNoneHasTwoColumnsOfTheTable) {
  EXPECT_EQ(found("Title\nstage of work\nnothing,else\n").line, 1U);
}

TEST(HeadingLine, IsNotLookedForBelowTwentyLines) {
  std::string titles;
  for (std::size_t i = 0; i < most_lines_above; ++i) titles += "title\n";
  EXPECT_EQ(found(titles + headings).line, 1U);
  EXPECT_EQ(found(titles.substr(6) + headings).line, 20U);
}

TEST(HeadingLine, IsWhereTheOwnerSays) {
  EXPECT_EQ(found(headings + headings + row, 2).at, headings.size());
  EXPECT_EQ(found(headings, 7).at, std::string_view::npos) << "there is no such line";
}

}  // namespace
}  // namespace driftwarden::heading_line_test
