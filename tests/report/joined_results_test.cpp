// SPDX-License-Identifier: MIT
#include "report/joined_results.hpp"

#include <gtest/gtest.h>

#include <sstream>
#include <vector>

namespace driftwarden::joined_results_test {
namespace {

// Texts with what has to be readable behind them.
struct Joined {
  Joined(std::string_view order, const std::vector<std::string>& texts) {
    for (const std::string& text : texts) padded.push_back(text + std::string(64, '\0'));
    for (std::size_t i = 0; i < texts.size(); ++i) {
      parts.push_back({"p" + std::to_string(i + 1) + ".csv", std::string_view(padded[i]).substr(0, texts[i].size())});
    }
    const Result<std::size_t> result = join_results(order, "order", parts, out);
    rows = result ? *result : 0;
    for (const Diagnostic& fault : result.faults()) faults += to_text(fault);
  }

  std::vector<std::string> padded;
  std::vector<PartResult> parts;
  std::ostringstream out;
  std::size_t rows = 0;
  std::string faults;
};

TEST(JoinedResults, TakeEachRowFromThePartThatTheOrderNames) {
  const Joined joined("2\n1\n2\n", {"sample,x\nB,2\n", "sample,x\nA,1\nC,3\n"});
  EXPECT_EQ(joined.faults, "");
  EXPECT_EQ(joined.rows, 3U);
  EXPECT_EQ(joined.out.str(), "sample,x\nA,1\nB,2\nC,3\n");
}

TEST(JoinedResults, KeepRowsWhoseCellsHoldLineEndsWhole) {
  const Joined joined("1\n2\n", {"sample,x\n\"A\nB\",1\n", "sample,x\nC,3\n"});
  EXPECT_EQ(joined.out.str(), "sample,x\n\"A\nB\",1\nC,3\n");
}

TEST(JoinedResults, OfNothingAreTheHeadings) {
  const Joined joined("", {"sample,x\n", "sample,x\n"});
  EXPECT_EQ(joined.out.str(), "sample,x\n");
}

TEST(JoinedResults, AreRefusedWhereTheOrderNamesAnotherPart) {
  const Joined joined("1\n3\n", {"s\nA\n", "s\nB\n"});
  EXPECT_EQ(joined.faults,
            "order:2:1: error: '3' is none of the 2 parts; give the file 'order' of the split, and the results of all "
            "its parts [join/order]");
  EXPECT_EQ(joined.out.str(), "");
}

TEST(JoinedResults, AreRefusedWhereAPartHasMoreOrFewerRows) {
  const Joined joined("1\n2\n", {"s\nA\n", "s\nB\nC\n"});
  EXPECT_EQ(joined.faults,
            "p2.csv: error: the part has 2 rows, and by 'order' should have 1; give the results of all parts of one "
            "split, in their order [join/rows]");
  EXPECT_EQ(joined.out.str(), "");
}

TEST(JoinedResults, AreRefusedWhereHeadingsDiffer) {
  const Joined joined("1\n2\n", {"s\nA\n", "t\nB\n"});
  EXPECT_EQ(
      joined.faults,
      "p2.csv:1: error: the headings are not those of the other parts; give results of screen --format csv, of one "
      "version of the program [join/headings]");
}

}  // namespace
}  // namespace driftwarden::joined_results_test
