// SPDX-License-Identifier: MIT
#include "verdict/slips.hpp"

#include <gtest/gtest.h>

#include <algorithm>

#include "assessment/worked_budget.hpp"
#include "verdict/honest_book.hpp"

namespace driftwarden::slips_test {
namespace {

// An honest book whose sets are of three readings.
BookText sets_of_three(std::uint64_t seed) {
  BookText text = honest_book(seed);
  std::string kept;
  for (std::size_t at = 0; at < text.readings.size();) {
    const std::size_t end = text.readings.find('\n', at) + 1;
    const std::string line = text.readings.substr(at, end - at);
    if (line.find("3,p") == std::string::npos && line.find("4,p") == std::string::npos) kept += line;
    at = end;
  }
  text.readings = kept;
  return text;
}

// The first doubt of a book in which one reading of a set of three of a sample shows something else.
Diagnostics doubts_with(std::uint64_t seed, const std::string& sample,
                        const std::function<std::string(double)>& shows) {
  BookText text = sets_of_three(seed);
  const std::string line = lines_of(text.readings, sample).at(1);
  set_flow(text.readings, line, shows(std::stod(flow_in(line))));
  return doubts_of(book_of(text));
}

TEST(Slips, AreToldOfOneReadingInThreeThatIsThreePercentOff) {
  for (const double share : {1.03, 0.97}) {
    const Diagnostics doubts = doubts_with(1, "D9", [=](double flow) { return shown(share * flow); });
    ASSERT_EQ(doubts.size(), 1U) << share;
    EXPECT_EQ(doubts[0].id, "doubt/slip");
    EXPECT_EQ(doubts[0].place.line, 51U);  // after the heading and eight samples of six readings, the second
    EXPECT_NE(doubts[0].message.find("of a set of D9 lies"), std::string::npos) << doubts[0].message;
    EXPECT_NE(doubts[0].message.find("readings of V1 on P2 scatter by 0.1"), std::string::npos) << doubts[0].message;
    EXPECT_NE(doubts[0].hint.find("strike it out with a note"), std::string::npos);
  }
}

TEST(Slips, AreFoundInSetsThatNameAPumpAlone) {
  BookText text = sets_of_three(1);
  const std::string line = lines_of(text.readings, "D9").at(1);
  set_flow(text.readings, line, shown(1.03 * std::stod(flow_in(line))));
  replace_all(text.readings, "taken,stage,sample,", "taken,stage,pump,");
  for (int day = 1; day <= days; ++day) {
    const std::string sample = "D" + std::to_string(day);
    const std::string pump = day % 2 == 0 ? "P1" : "P2";
    replace_all(text.readings, "," + sample + ",", "," + pump + ",");
  }
  const Diagnostics doubts = doubts_of(book_of(text));
  ASSERT_EQ(doubts.size(), 1U);
  EXPECT_EQ(doubts[0].id, "doubt/slip");
  EXPECT_NE(doubts[0].message.find("of a set of P2 lies"), std::string::npos) << doubts[0].message;
}

TEST(Slips, AreFoundInEveryBook) {
  int found = 0;
  for (std::uint64_t seed = 1; seed <= 50; ++seed) {
    const Diagnostics doubts = doubts_with(seed, "D9", [](double flow) { return shown(1.03 * flow); });
    found += std::any_of(doubts.begin(), doubts.end(), [](const Diagnostic& doubt) {
      return doubt.id == "doubt/slip" && doubt.message.find("of a set of D9 lies") != std::string::npos;
    });
  }
  EXPECT_GE(found, 49);
}

TEST(Slips, AskWhetherTwoDigitsChangedPlaces) {
  BookText text = sets_of_three(1);
  const auto lines = lines_of(text.readings, "D9");
  for (const auto& [line, flow] : {std::pair(lines[0], "2.013"), {lines[1], "2.103"}, {lines[2], "2.015"}})
    set_flow(text.readings, line, flow);
  const Diagnostics doubts = doubts_of(book_of(text));
  ASSERT_EQ(doubts.size(), 1U);
  EXPECT_EQ(doubts[0].hint, "did two digits change places: 2.013?");
}

TEST(Slips, DoNotHideEachOther) {
  BookText text = sets_of_three(1);
  for (const char* sample : {"D9", "D11", "D13", "D15"}) {
    const std::string line = lines_of(text.readings, sample).at(1);
    set_flow(text.readings, line, shown(1.03 * std::stod(flow_in(line))));
  }
  EXPECT_EQ(ids(text), (Ids{"doubt/slip", "doubt/slip", "doubt/slip", "doubt/slip"}));
}

// Too few sets to know how the readings scatter.
TEST(Slips, AreNotToldOfALittleKnownCalibrator) {
  BookText text;
  text.readings =
      "taken,stage,sample,calibrator,reading [L/min]\n"
      "2026-09-21T07:30,pre,S1,V1,2.000\n2026-09-21T07:31,pre,S1,V1,2.060\n2026-09-21T07:32,pre,S1,V1,2.001\n";
  EXPECT_EQ(ids(text), Ids());
}

// input: the rate told in docs/uncertainty.md, of 56 sets a book; three standard errors are allowed above.
TEST(Slips, AreToldByChanceInAtMostOneSetOfAThousand) {
  constexpr int books = 100;
  int told = 0;
  for (std::uint64_t seed = 1; seed <= books; ++seed) {
    for (const std::string& id : ids(seed % 2 == 0 ? honest_book(seed) : sets_of_three(seed)))
      told += id == "doubt/slip" ? 1 : 0;
  }
  const double expected = 0.001 * 2 * days * books;
  EXPECT_LE(told, expected + 3 * std::sqrt(expected));
}

}  // namespace
}  // namespace driftwarden::slips_test
