// SPDX-License-Identifier: MIT
#include "doubt/copied_blocks.hpp"

#include <gtest/gtest.h>

#include "doubt/honest_book.hpp"

namespace driftwarden::copied_blocks_test {
namespace {

// input: flows, counts of readings, and how often two readings are equal.

using Flows = std::vector<double>;

// So many different flows, from one on upwards.
Flows flows(std::size_t n, double from) {
  Flows made;
  for (std::size_t i = 0; i < n; ++i) made.push_back(from + 0.001 * static_cast<double>(i));
  return made;
}

Flows with_copy(Flows made, std::size_t at, const Flows& of, std::size_t from, std::size_t n) {
  for (std::size_t i = 0; i < n; ++i) made.at(at + i) = of.at(from + i);
  return made;
}

// What is told of samples A, B, … read in one set each, row after row, with V1 (or V2, where the second list says so),
// of whose readings two are equal as often as `equal_pairs` says.
std::vector<std::string> told(const std::vector<Flows>& samples, double equal_pairs,
                              const std::vector<Flows>& with_v2 = {}, double equal_pairs_v2 = 1) {
  BookText text;
  text.samples = "sample,pump,started,stopped\n";
  text.readings = "taken,stage,sample,calibrator,reading [L/min]\n";
  char name = 'A';
  const auto add = [&](const Flows& of, const std::string& calibrator) {
    const std::string date = "2026-09-" + two_digits(1 + name - 'A');
    text.samples += std::string(1, name) + ",P1," + date + "T08:00," + date + "T16:00\n";
    for (std::size_t i = 0; i < of.size(); ++i) {
      text.readings += date + "T07:" + two_digits(static_cast<int>(i)) + ",pre," + name + "," + calibrator + "," +
                       shown(of[i]) + "\n";
    }
    ++name;
  };
  for (const Flows& of : samples) add(of, "V1");
  for (const Flows& of : with_v2) add(of, "V2");
  const Book book = book_of(text);
  const ScatterMap scatter{{Row{2}, {0, 0, equal_pairs}}, {Row{3}, {0, 0, equal_pairs_v2}}};
  const auto name_of = [&book](Row reading) { return std::string(book.samples.name[book.readings.sample[reading]]); };
  std::vector<std::string> texts;
  for (const Alike& alike : readings_alike(replicates_of(book, {book, std::nullopt}), scatter)) {
    EXPECT_EQ(alike.copy.size(), alike.original.size());
    texts.push_back(to_text(place_of(book, alike.copy.front())) + ": from here on, " +
                    std::to_string(alike.copy.size()) + " readings of " + name_of(alike.copy.front()) +
                    " are those of " + name_of(alike.original.front()) + " from " +
                    to_text(place_of(book, alike.original.front())) + " on, in order");
  }
  return texts;
}

using Told = std::vector<std::string>;

std::string copy_of(const std::string& place, const std::string& n, const std::string& copy, const std::string& of,
                    const std::string& from) {
  return place + ": from here on, " + n + " readings of " + copy + " are those of " + of + " from " + from +
         " on, in order";
}

TEST(CopiedBlocks, TellACopiedDayAndWhereItIsFrom) {
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

TEST(CopiedBlocks, TellNoCopyOfAFewReadings) {
  BookText text = honest_book(1);
  const auto original = lines_of(text.readings, "D3");
  const auto copy = lines_of(text.readings, "D20");
  for (std::size_t i = 0; i < 3; ++i) set_flow(text.readings, copy[i], flow_in(original[i]));
  EXPECT_EQ(ids(text), Ids());
}

// derived: among n blocks are n (n - 1) / 2 pairs, each equal by chance with p^length. Of two sets of six, 8 blocks of
// three: 28 / 16^3 = 0.0068, which is less than 0.01; of two sets of seven, 10: 45 / 16^3 = 0.011, and of four readings
// 28 / 16^4.
TEST(CopiedBlocks, AreToldFromTheLengthOnThatChanceMakesInOneBookOfAHundred) {
  const Flows six = flows(6, 1);
  const Flows seven = flows(7, 1);
  EXPECT_EQ(told({six, with_copy(flows(6, 2), 1, six, 2, 3)}, 1.0 / 16),
            Told{copy_of("readings.csv:9", "3", "B", "A", "readings.csv:4")});
  EXPECT_EQ(told({six, with_copy(flows(6, 2), 1, six, 2, 2)}, 1.0 / 16), Told());
  EXPECT_EQ(told({seven, with_copy(flows(7, 2), 1, seven, 2, 3)}, 1.0 / 16), Told());
  EXPECT_EQ(told({seven, with_copy(flows(7, 2), 1, seven, 2, 4)}, 1.0 / 16).size(), 1U);
}

// derived: blocks of four readings: 36 of two sets of 21, 630 / 16^4 = 0.0096; 37 of 21 and 22, 666 / 16^4 = 0.0102.
TEST(CopiedBlocks, HoldOneInAHundredFromBothSides) {
  const Flows original = flows(21, 1);
  EXPECT_EQ(told({original, with_copy(flows(21, 2), 1, original, 2, 4)}, 1.0 / 16).size(), 1U);
  EXPECT_EQ(told({original, with_copy(flows(22, 2), 1, original, 2, 4)}, 1.0 / 16), Told());
  EXPECT_EQ(told({original, with_copy(flows(22, 2), 1, original, 2, 5)}, 1.0 / 16).size(), 1U);
  const Flows copy = with_copy(flows(21, 2), 1, original, 2, 4);
  EXPECT_EQ(told({original, copy, flows(4, 3)}, 1.0 / 16), Told()) << "one block more";
  EXPECT_EQ(told({original, with_copy(flows(22, 2), 1, original, 2, 4), flows(2, 3)}, 1.0 / 16), Told())
      << "two readings are no block of four";
}

TEST(CopiedBlocks, AreOfThreeReadingsAtLeast) {
  EXPECT_EQ(told({flows(3, 1), flows(3, 1)}, 1.0 / 16).size(), 1U);
  EXPECT_EQ(told({flows(2, 1), flows(2, 1)}, 1.0 / 1024), Told());
}

TEST(CopiedBlocks, AreFoundAtTheVeryEnd) {
  const Flows original = flows(6, 1);
  EXPECT_EQ(told({original, with_copy(flows(6, 2), 3, original, 3, 3)}, 1.0 / 16),
            Told{copy_of("readings.csv:11", "3", "B", "A", "readings.csv:5")});
}

// A chance between two halvings is taken for the greater: 28 / 8^3 is no longer rare.
TEST(CopiedBlocks, TakeTheChanceOfEqualReadingsCautiously) {
  const Flows original = flows(6, 1);
  const Flows copy = with_copy(flows(6, 2), 1, original, 2, 3);
  EXPECT_EQ(told({original, copy}, 0.04).size(), 1U);
  EXPECT_EQ(told({original, copy}, 0.07), Told());
  EXPECT_EQ(told({original, original}, 1), Told()) << "a display that always shows the same";
}

TEST(CopiedBlocks, OfOneSampleAloneAreNone) {
  const Flows original = flows(12, 1);
  EXPECT_EQ(told({with_copy(original, 6, original, 0, 6)}, 1.0 / 64), Told());
}

// Each pair of samples once, at the first reading of its copy, in the order of the book.
TEST(CopiedBlocks, AreToldOfEachPairInTheOrderOfTheBook) {
  const Flows a = flows(8, 1);
  const Flows b = flows(8, 2);
  EXPECT_EQ(told({a, b, with_copy(flows(8, 3), 2, b, 0, 6), a}, 1.0 / 64),
            (Told{copy_of("readings.csv:20", "6", "C", "B", "readings.csv:10"),
                  copy_of("readings.csv:26", "8", "D", "A", "readings.csv:2")}));
  EXPECT_EQ(told({a, a, a}, 1.0 / 64), (Told{copy_of("readings.csv:10", "8", "B", "A", "readings.csv:2"),
                                             copy_of("readings.csv:18", "8", "C", "A", "readings.csv:2")}));
}

// A copy on a fine display is as telling as if nobody had used a coarse one beside it.
TEST(CopiedBlocks, OfAFineDisplayAreLookedForAmongFineBlocks) {
  const Flows a = flows(6, 1);
  const Flows b = flows(6, 2);
  EXPECT_EQ(told({a, with_copy(b, 1, a, 2, 3)}, 1.0 / 16, {flows(30, 3), flows(30, 4)}, 0.5).size(), 1U);
  EXPECT_EQ(told({a, a}, 1.0 / 64, {b, with_copy(flows(6, 3), 0, b, 0, 3)}, 0.5).size(), 1U) << "three are few there";
  EXPECT_EQ(told({a, a}, 1.0 / 64, {flows(30, 2), flows(30, 2)}, 0.5),
            (Told{copy_of("readings.csv:8", "6", "B", "A", "readings.csv:2"),
                  copy_of("readings.csv:44", "30", "D", "C", "readings.csv:14")}));
}

}  // namespace
}  // namespace driftwarden::copied_blocks_test
