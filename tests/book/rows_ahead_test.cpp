// SPDX-License-Identifier: MIT
#include "book/rows_ahead.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <string>
#include <vector>

#include "book/padded_text.hpp"

namespace driftwarden::rows_ahead_test {
namespace {

struct Heard {
  std::vector<std::string> read;
  std::vector<std::string> expected;
  std::size_t farthest_ahead = 0;
};

Heard heard_of(RowsAhead& ahead, std::string_view text, std::size_t end, char separator = ',') {
  const PaddedText padded(text);
  Heard heard;
  ahead.start(padded, separator, std::string_view(padded).data() + end);
  const auto expect = [&](const CsvScanner& row) { heard.expected.emplace_back(row.text(0)); };
  while (const CsvScanner* row = ahead.next(expect)) {
    heard.read.emplace_back(row->text(0));
    heard.farthest_ahead = std::max(heard.farthest_ahead, heard.expected.size() - heard.read.size());
  }
  return heard;
}

std::string numbered_rows(int rows) {
  std::string text;
  for (int i = 0; i < rows; ++i) text += std::to_string(i) + (i % 7 == 0 ? ",\"a \"\"quoted\"\" cell\"\n" : ",b\n");
  return text;
}

TEST(RowsAhead, TellsOfEachRowOnceBeforeItIsRead) {
  RowsAhead ahead;
  for (const int rows : {0, 1, 15, 16, 17, 200}) {
    const std::string text = numbered_rows(rows);
    const Heard heard = heard_of(ahead, text, text.size());
    ASSERT_EQ(heard.read.size(), static_cast<std::size_t>(rows));
    for (int i = 0; i < rows; ++i) EXPECT_EQ(heard.read[static_cast<std::size_t>(i)], std::to_string(i));
    EXPECT_EQ(heard.expected, heard.read);
    EXPECT_LT(heard.farthest_ahead, RowsAhead::most);
  }
}

TEST(RowsAhead, IsFarAheadWhereThereAreRows) {
  RowsAhead ahead;
  const std::string text = numbered_rows(100);
  EXPECT_GT(heard_of(ahead, text, text.size()).farthest_ahead, 10U);
}

TEST(RowsAhead, ReadsToTheLastRowThatBeginsBeforeTheEnd) {
  RowsAhead ahead;
  const std::string text = "1,b\n2,b\n3,b\n";
  EXPECT_EQ(heard_of(ahead, text, 4).read, (std::vector<std::string>{"1"}));
  EXPECT_EQ(heard_of(ahead, text, 5).read, (std::vector<std::string>{"1", "2"}));
}

TEST(RowsAhead, KeepsARowWhileThoseBehindItAreScanned) {
  RowsAhead ahead;
  std::string text;
  for (int i = 0; i < 40; ++i) text += "\"say \"\"" + std::to_string(i) + "\"\"\"\n";
  const Heard heard = heard_of(ahead, text, text.size());
  for (std::size_t i = 0; i < 40; ++i) EXPECT_EQ(heard.read[i], "say \"" + std::to_string(i) + "\"");
}

// The first cell of every row, of those scanned ahead, too.
TEST(RowsAhead, SplitsEveryRowAtTheSeparatorItWasGiven) {
  RowsAhead ahead;
  std::string text;
  for (int i = 0; i < 40; ++i) text += std::to_string(i) + ",5;b\n";
  const Heard heard = heard_of(ahead, text, text.size(), ';');
  ASSERT_EQ(heard.read.size(), 40U);
  for (std::size_t i = 0; i < 40; ++i) EXPECT_EQ(heard.read[i], std::to_string(i) + ",5");
}

}  // namespace
}  // namespace driftwarden::rows_ahead_test
