// SPDX-License-Identifier: MIT
#include "doubt/read_twice.hpp"

#include <gtest/gtest.h>

#include "doubt/honest_book.hpp"

namespace driftwarden::read_twice_test {
namespace {

constexpr std::string_view heading = "taken,stage,sample,calibrator,reading [L/min],replicate\n";

// S1 and S2 on P1, with these readings. Invented data.
BookText book_with(const std::string& readings) {
  BookText text;
  text.samples =
      "sample,pump,started,stopped\nS1,P1,2026-09-21T08:00,2026-09-21T12:00\n"
      "S2,P1,2026-09-22T08:00,2026-09-22T12:00\n";
  text.readings = std::string(heading) + readings;
  return text;
}

// Three readings of one minute without numbers, two of them equal: a display with coarse steps.
const std::string one_run =
    "2026-09-21T07:30,pre,S1,V1,2.000,\n2026-09-21T07:30,pre,S1,V1,2.005,\n2026-09-21T07:30,pre,S1,V1,2.000,\n";

TEST(ReadTwice, IsNotWhatIsEqualInOneRun) {
  EXPECT_EQ(ids(book_with(one_run)), Ids());
  EXPECT_EQ(ids(book_with(one_run + "2026-09-21T07:31,pre,S1,V1,2.000,\n")), Ids());
  // Two pumps read in turn within the minute.
  const std::string other = "2026-09-21T07:30,pre,S2,V1,2.000,\n";
  const std::string reading = "2026-09-21T07:30,pre,S1,V1,2.000,\n";
  EXPECT_EQ(ids(book_with(reading + other + reading + other)), Ids());
}

TEST(ReadTwice, IsABlockPastedAgainAndToldOnceForItsSet) {
  const std::string block = one_run + "2026-09-21T07:31,pre,S1,V1,2.002,\n";
  const Diagnostics doubts = doubts_of(book_of(book_with(block + block)));
  ASSERT_EQ(doubts.size(), 1U);
  EXPECT_EQ(to_text(doubts[0]),
            "readings.csv:6: remark: 4 readings of the pre set of S1 stand twice, alike in every cell, the first here "
            "and in readings.csv:2; written down twice, a reading counts twice; ask whether it was read again; if not, "
            "leave the copy out, or strike it out with a note [doubt/read-twice]");
}

TEST(ReadTwice, IsARowBehindOneOfAnotherSet) {
  const std::string reading = "2026-09-21T07:30,pre,S1,V1,2.000,\n";
  const Diagnostics doubts = doubts_of(book_of(book_with(reading + "2026-09-22T07:30,pre,S2,V1,2.001,\n" + reading)));
  ASSERT_EQ(doubts.size(), 1U);
  EXPECT_EQ(doubts[0].place.line, 4U);
  EXPECT_EQ(doubts[0].message,
            "1 reading of the pre set of S1 stands twice, alike in every cell, here and in readings.csv:2; written "
            "down twice, a reading counts twice");
}

// No calibrator shows two readings within a second.
TEST(ReadTwice, IsAReadingOfTheSameSecond) {
  const std::string first = "2026-09-21T07:30:23,pre,S1,V1,2.000,\n";
  EXPECT_EQ(ids(book_with(first + first)), Ids{"doubt/read-twice"});
  EXPECT_EQ(ids(book_with(first + "2026-09-21T07:30:24,pre,S1,V1,2.000,\n")), Ids());
}

TEST(ReadTwice, IsAReplicateNumberThatComesAgain) {
  const std::string first = "2026-09-21T07:30,pre,S1,V1,2.000,1\n";
  EXPECT_EQ(ids(book_with(first + "2026-09-21T07:30,pre,S1,V1,2.000,2\n")), Ids());
  EXPECT_EQ(ids(book_with(first + first)), Ids{"doubt/read-twice"});
}

TEST(ReadTwice, IsToldOfEachSet) {
  const std::string both = "2026-09-21T07:30,pre,S1,V1,2.000,1\n2026-09-21T12:30,post,S1,V1,2.000,1\n";
  EXPECT_EQ(ids(book_with(both + both)), (Ids{"doubt/read-twice", "doubt/read-twice"}));
}

TEST(ReadTwice, IsAFileUnderAnotherName) {
  const BookText text = book_with(one_run);
  const ScratchFolder folder;
  text.write(folder.path());
  std::filesystem::create_directory(folder.path() / "readings");
  std::filesystem::copy_file(folder.path() / "readings.csv", folder.path() / "readings/copy.csv");
  const Result<Book> book = read_book(folder.path(), 1);
  ASSERT_TRUE(book);
  const Diagnostics doubts = doubts_of(*book);
  ASSERT_EQ(doubts.size(), 1U);
  EXPECT_EQ(to_text(doubts[0].place), "readings/copy.csv:2");
  EXPECT_NE(doubts[0].message.find("3 readings of the pre set of S1 stand twice"), std::string::npos);
}

TEST(ReadTwice, IsNotWhatDiffersInACellOrWasStruckOut) {
  EXPECT_EQ(ids(book_with("2026-09-21T07:30,pre,S1,V1,2.000,1\n2026-09-21T07:30,pre,S1,V1,2.001,1\n")), Ids());
  BookText text = book_with("");
  text.readings =
      "taken,stage,sample,calibrator,reading [L/min],replicate,void,note\n2026-09-21T07:30,pre,S1,V1,2.000,1,,\n"
      "2026-09-21T07:30,pre,S1,V1,2.000,1,yes,pasted twice\n";
  EXPECT_EQ(ids(text), Ids());
}

TEST(ReadTwice, IsLookedForInReadingsThatNameOnlyThePump) {
  BookText text = book_with("");
  const std::string reading = "2026-09-21T07:30,pre,P1,V1,2.000\n";
  text.readings =
      "taken,stage,pump,calibrator,reading [L/min]\n" + reading + "2026-09-21T07:31,pre,P1,V1,2.001\n" + reading;
  const Diagnostics doubts = doubts_of(book_of(text));
  ASSERT_EQ(doubts.size(), 1U);
  EXPECT_EQ(doubts[0].message.substr(0, 40), "1 reading of the pre set of P1 stands tw");
}

TEST(ReadTwice, IsNotWhatTwoPumpsOrSamplesShowed) {
  // The same figure of the same minute, in two places of the file.
  EXPECT_EQ(ids(book_with("2026-09-21T07:30,pre,S1,V1,2.000,\n2026-09-21T07:29,pre,S1,V1,2.001,\n"
                          "2026-09-21T07:30,pre,S2,V1,2.000,\n")),
            Ids());
  BookText text = book_with("");
  text.readings =
      "taken,stage,pump,calibrator,reading [L/min]\n2026-09-21T07:30,pre,P1,V1,2.000\n"
      "2026-09-21T07:29,pre,P1,V1,2.001\n2026-09-21T07:30,pre,P2,V1,2.000\n";
  EXPECT_EQ(ids(text), Ids());
}

TEST(ReadTwice, IsNoHumidityBesideOneOfAHundredPercent) {
  BookText text = book_with("");
  text.readings =
      "taken,stage,sample,calibrator,reading [L/min],humidity [%],replicate\n"
      "2026-09-21T07:30,pre,S1,V1,2.000,100,1\n2026-09-21T07:30,pre,S1,V1,2.000,,1\n";
  EXPECT_EQ(ids(text), Ids());
}

// A file has its own runs: three readings of one minute are as good in the second file as in the first.
TEST(ReadTwice, IsNotWhatIsEqualInOneRunOfAFurtherFile) {
  const BookText text = book_with("2026-09-21T07:20,pre,S2,V1,2.000,\n");
  const ScratchFolder folder;
  text.write(folder.path());
  std::filesystem::create_directory(folder.path() / "readings");
  std::ofstream(folder.path() / "readings/more.csv") << heading << one_run;
  const Result<Book> book = read_book(folder.path(), 1);
  ASSERT_TRUE(book);
  EXPECT_TRUE(doubts_of(*book).empty());
}

TEST(ReadTwice, IsNotWhatIsEqualInOneRunWithoutNumbers) {
  BookText text = book_with("");
  text.readings =
      "taken,stage,sample,calibrator,reading [L/min]\n2026-09-21T07:30,pre,S1,V1,2.000\n"
      "2026-09-21T07:30,pre,S1,V1,2.005\n2026-09-21T07:30,pre,S1,V1,2.000\n";
  EXPECT_EQ(ids(text), Ids());
}

// Half an hour apart readings are of one set, longer of two; where the book names its sets, they are as it says.
TEST(ReadTwice, IsToldOncePerSetHoweverSetsAreKnown) {
  const auto told = [](const std::string& second, const std::string& set) {
    BookText text = book_with("");
    const std::string rows =
        "2026-09-21T05:00,pre,S1,V1,2.000,1," + set + "\n2026-09-21T" + second + ",pre,S1,V1,2.001,2," + set + "\n";
    text.readings = "taken,stage,sample,calibrator,reading [L/min],replicate,set\n" + rows + rows;
    return ids(text).size();
  };
  EXPECT_EQ(told("05:30", ""), 1U);
  EXPECT_EQ(told("05:31", ""), 2U);
  EXPECT_EQ(told("07:00", "A"), 1U);
  BookText unnamed = book_with("");
  const std::string rows = "2026-09-21T05:00,pre,S1,V1,2.000,1\n2026-09-21T05:31,pre,S1,V1,2.001,2\n";
  unnamed.readings = std::string(heading) + rows + rows;
  EXPECT_EQ(ids(unnamed).size(), 2U);
}

TEST(ReadTwice, CopiesAreLeftOutOfTheirSetsAndNothingElse) {
  std::vector<Replicates> sets(2);
  sets[0].rows = {3, 7, 5};
  sets[0].indicated_l_min = {2.1, 2.2, 2.3};
  sets[1].rows = {8, 9};
  sets[1].indicated_l_min = {1.1, 1.2};
  leave_out_copies({}, sets);
  EXPECT_EQ(sets[0].rows, (std::vector<Row>{3, 7, 5}));
  leave_out_copies({{9, 8}, {3, 7}}, sets);
  EXPECT_EQ(sets[0].rows, (std::vector<Row>{7, 5}));
  EXPECT_EQ(sets[0].indicated_l_min, (std::vector<double>{2.2, 2.3}));
  EXPECT_EQ(sets[1].rows, std::vector<Row>{8});
  EXPECT_EQ(sets[1].indicated_l_min, std::vector<double>{1.1});
}

// Pasted twice, the copied day would look like no other, and equal readings like a display's habit.
TEST(ReadTwice, HidesNoCopyOfAnotherSample) {
  BookText text = honest_book(1);
  const auto original = lines_of(text.readings, "D3");
  const auto copy = lines_of(text.readings, "D20");
  for (std::size_t i = 0; i < original.size(); ++i) set_flow(text.readings, copy[i], flow_in(original[i]));
  text.readings += text.readings.substr(text.readings.find('\n') + 1);
  Ids found = ids(text);
  std::erase(found, "doubt/read-twice");
  EXPECT_EQ(found, Ids{"doubt/copied"});
}

}  // namespace
}  // namespace driftwarden::read_twice_test
