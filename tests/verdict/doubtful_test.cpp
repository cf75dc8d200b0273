// SPDX-License-Identifier: MIT
#include "driftwarden/verdict/doubtful.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "statistics/random_numbers.hpp"
#include "support/book_text.hpp"

namespace driftwarden {
namespace {

constexpr int days = 28;

std::string two_digits(int number) { return (number < 10 ? "0" : "") + std::to_string(number); }

std::string shown(double flow) {
  const auto thousandths = static_cast<int>(std::lround(1000 * flow));
  const std::string digits = std::to_string(10000 + thousandths % 1000).substr(2);
  return std::to_string(thousandths / 1000) + "." + digits;
}

// A sample a day in September on P1 and P2 in turn, five readings of V1 before and after; spread 0.0025 L/min on a
// display of 0.001. Nothing is planted. Invented data.
BookText honest_book(std::uint64_t seed) {
  test::RandomNumbers random(seed);
  BookText text;
  text.settings += "[site]\naltitude = \"1500 m\"\n";
  text.instruments =
      "instrument,kind,principle,resolution [L/min]\nP1,pump,,\nP2,pump,,\nV1,calibrator,volumetric,0.001\n";
  text.certificates = "";
  text.samples = "sample,pump,started,stopped\n";
  text.readings = "taken,stage,sample,calibrator,reading [L/min],pressure [kPa]\n";
  for (int day = 1; day <= days; ++day) {
    const std::string date = "2026-09-" + two_digits(day);
    const std::string name = "D" + std::to_string(day);
    text.samples += name + ",P" + std::to_string(1 + day % 2) + "," + date + "T08:00," + date + "T16:00\n";
    const double level = 2 + 0.01 * random.normal();
    for (const auto& [stage, hour] : {std::pair("pre", "T07:3"), std::pair("post", "T16:1")}) {
      for (int i = 0; i < 5; ++i) {
        text.readings += date + hour + std::to_string(i) + "," + stage + "," + name + ",V1," +
                         shown(level + 0.0025 * random.normal()) + ",84.5\n";
      }
    }
  }
  return text;
}

std::vector<std::string> ids(const BookText& text) {
  std::vector<std::string> found;
  for (const Diagnostic& doubt : doubts_of(book_of(text))) {
    EXPECT_EQ(doubt.severity, Severity::remark);
    found.push_back(doubt.id);
  }
  return found;
}

using Ids = std::vector<std::string>;

// The lines of a sample's readings, from the first on.
std::vector<std::string> lines_of(const std::string& text, const std::string& sample) {
  std::vector<std::string> lines;
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t end = text.find('\n', at);
    if (text.substr(at, end - at).find("," + sample + ",") != std::string::npos)
      lines.push_back(text.substr(at, end - at));
    at = end + 1;
  }
  return lines;
}

std::string flow_in(const std::string& line) {
  const std::size_t begin = line.find(",V1,") + 4;
  return line.substr(begin, line.find(',', begin) - begin);
}

void set_flow(std::string& text, const std::string& line, const std::string& flow) {
  std::string changed = line;
  changed.replace(line.find(",V1,") + 4, flow_in(line).size(), flow);
  text.replace(text.find(line), line.size(), changed);
}

TEST(Doubts, AreNoneOfAnHonestBook) { EXPECT_EQ(ids(honest_book(1)), Ids()); }

TEST(Doubts, TellASetOfFiveEqualReadings) {
  BookText text = honest_book(1);
  const auto lines = lines_of(text.readings, "D9");
  for (std::size_t i = 0; i < 5; ++i) set_flow(text.readings, lines[i], "2.003");
  const Diagnostics doubts = doubts_of(book_of(text));
  ASSERT_EQ(doubts.size(), 1U);
  EXPECT_EQ(doubts[0].id, "doubt/identical");
  EXPECT_EQ(doubts[0].place.line, 82U);  // after the heading and eight samples of ten readings
  EXPECT_NE(doubts[0].message.find("all 5 readings of a set of D9 are the same"), std::string::npos);
}

TEST(Doubts, TellACopiedDayAndWhereItIsFrom) {
  BookText text = honest_book(1);
  const auto original = lines_of(text.readings, "D3");
  const auto copy = lines_of(text.readings, "D20");
  for (std::size_t i = 0; i < original.size(); ++i) set_flow(text.readings, copy[i], flow_in(original[i]));
  const Diagnostics doubts = doubts_of(book_of(text));
  ASSERT_EQ(doubts.size(), 1U);
  EXPECT_EQ(doubts[0].id, "doubt/copied");
  EXPECT_EQ(doubts[0].place.line, 192U);
  EXPECT_NE(doubts[0].message.find("10 readings of D20 are those of D3 from readings.csv:22 on"), std::string::npos)
      << doubts[0].message;
}

TEST(Doubts, TellNoCopyOfAFewReadings) {
  BookText text = honest_book(1);
  const auto original = lines_of(text.readings, "D3");
  const auto copy = lines_of(text.readings, "D20");
  for (std::size_t i = 0; i < 3; ++i) set_flow(text.readings, copy[i], flow_in(original[i]));
  EXPECT_EQ(ids(text), Ids());
}

TEST(Doubts, TellACalibratorInTwoPlaces) {
  BookText text = honest_book(1);
  text.samples += "X,P2,2026-09-05T08:00,2026-09-05T16:00\nY,P1,2026-09-06T08:00,2026-09-06T16:00\n";
  text.readings +=
      "2026-09-05T07:32,pre,X,V1,2.001,84.5\n2026-09-05T07:36,pre,X,V1,2.004,84.5\n"
      "2026-09-06T07:34,pre,Y,V1,2.001,84.5\n2026-09-06T07:36,pre,Y,V1,2.004,84.5\n";  // after the other was done
  // D5 is read on P2, too; D4 and D6 on P1.
  EXPECT_EQ(ids(text), Ids());
  text.samples.replace(text.samples.find("X,P2"), 4, "X,P1");
  EXPECT_EQ(ids(text), Ids{"doubt/two-places"});
}

TEST(Doubts, TellPressuresOfSeaLevelAtAHighSiteOnce) {
  BookText text = honest_book(1);
  const auto at = text.readings.find(",84.5");
  text.readings.replace(at, 5, ",101.6");
  EXPECT_EQ(ids(text), Ids{"doubt/sea-level"});
  text.readings.replace(text.readings.find(",84.5"), 5, ",101.2");
  EXPECT_EQ(ids(text), Ids{"doubt/sea-level"});
  text.settings.replace(text.settings.find("1500 m"), 6, "200 m");
  EXPECT_EQ(ids(text), Ids());  // 98.9 kPa by altitude: the weather may do it
}

TEST(Doubts, KnowNoSeaLevelWithoutAnAltitude) {
  BookText text = honest_book(1);
  text.settings = BookText().settings;
  text.readings.replace(text.readings.find(",84.5"), 5, ",101.6");
  EXPECT_EQ(ids(text), Ids());
}

TEST(Doubts, OfABookWithoutReadingsAreNone) {
  BookText text;
  text.readings = "";
  EXPECT_EQ(ids(text), Ids());
}

// The rates told in docs/uncertainty.md. Identical: fewer than one in 1000 sets, 56 sets a book. Copied: fewer than one
// book in 100. Sixty books; three standard errors (of a Poisson count) are allowed above.
TEST(Doubts, AreRaisedByChanceAsSeldomAsStated) {
  constexpr int books = 60;
  std::ptrdiff_t identical = 0;
  std::ptrdiff_t copied = 0;
  for (std::uint64_t seed = 100; seed < 100 + books; ++seed) {
    const Ids found = ids(honest_book(seed));
    identical += std::count(found.begin(), found.end(), "doubt/identical");
    copied += std::count(found.begin(), found.end(), "doubt/copied");
  }
  EXPECT_LE(static_cast<double>(identical), 0.001 * 2 * days * books + 3 * std::sqrt(0.001 * 2 * days * books));
  EXPECT_LE(static_cast<double>(copied), 0.01 * books + 3 * std::sqrt(0.01 * books));
}

// The demo book plants both, and nothing else looks doubtful in it.
TEST(Doubts, FindWhatTheDemoBookPlants) {
  const Result<Book> demo = read_book(std::filesystem::path(PROJECT_FOLDER) / "docs/demo", 1);
  ASSERT_TRUE(demo);
  const Diagnostics doubts = doubts_of(*demo);
  ASSERT_EQ(doubts.size(), 2U);
  EXPECT_NE(doubts[0].message.find("TF43B-5"), std::string::npos);
  EXPECT_NE(doubts[1].message.find("10 readings of TF45B-4 are those of TF43A-2"), std::string::npos)
      << doubts[1].message;
}

}  // namespace
}  // namespace driftwarden
