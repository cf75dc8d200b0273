// SPDX-License-Identifier: MIT
#include "command/example_rows.hpp"

#include <gtest/gtest.h>

#include "book/book_table.hpp"
#include "command/called.hpp"

namespace driftwarden::example_rows_test {
namespace {

std::vector<std::string> lines_of_text(const std::string& text) {
  std::vector<std::string> lines;
  std::istringstream in(text);
  for (std::string line; std::getline(in, line);) lines.push_back(line);
  return lines;
}

TEST(ExampleRows, AreThereOfEveryTableAndAreClearlyExamples) {
  for (const BookTable& table : book_tables()) {
    const std::string rows = example_rows(*table.spec);
    EXPECT_EQ(rows.empty(), table.is_kept_by_few) << table.name();
    for (const std::string& row : lines_of_text(rows)) {
      EXPECT_NE(row.find("EXAMPLE"), std::string::npos) << row;
      EXPECT_NE(row.find("an example: delete this row"), std::string::npos) << row;
      EXPECT_EQ(std::count(row.begin(), row.end(), ',') + 1, static_cast<std::ptrdiff_t>(table.spec->fields.size()))
          << row;
    }
  }
}

TEST(ExampleRows, AreOneSampleThatStands) {
  const ScratchFolder scratch;
  const std::string folder = (scratch.path() / "new").string();
  ASSERT_EQ(call({"new", folder}).status, 0);
  const Called checked = call({"check", folder});
  EXPECT_EQ(checked.status, 0);
  EXPECT_EQ(checked.err, "");
  const Called screened = call({"screen", folder, "--format", "csv"});
  EXPECT_EQ(screened.status, 0) << screened.out;
  EXPECT_NE(screened.out.find("EXAMPLE-1,EXAMPLE,valid,EXAMPLE-PUMP,480,"), std::string::npos) << screened.out;
}

}  // namespace
}  // namespace driftwarden::example_rows_test
