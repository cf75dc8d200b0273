// SPDX-License-Identifier: MIT
#include "doubt/doubtful.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <utility>

#include "book/stamp_text.hpp"
#include "doubt/honest_book.hpp"
#include "doubt/replicates.hpp"
#include "support/doubt_book.hpp"
#include "support/project_folder.hpp"

namespace driftwarden::doubtful_test {
namespace {

TEST(Doubts, AreNoneOfAnHonestBook) { EXPECT_EQ(ids(honest_book(1)), Ids()); }

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

TEST(Doubts, TellOfReadingsTakenWithAnotherSamplerOnce) {
  BookText text;
  text.samples = "sample,pump,sampler,started,stopped\nS1,P1,cyclone,2026-09-21T08:00,2026-09-21T16:00\n";
  text.readings =
      "taken,stage,sample,calibrator,reading [L/min],sampler\n"
      "2026-09-21T07:30,pre,S1,V1,2.000,cyclone\n2026-09-21T07:31,pre,S1,V1,2.001,\n"
      "2026-09-21T16:10,post,S1,V1,1.950,cowl\n2026-09-21T16:11,post,S1,V1,1.951,cowl\n";
  const Diagnostics doubts = doubts_of(book_of(text));
  ASSERT_EQ(doubts.size(), 1U);
  EXPECT_EQ(
      to_text(doubts[0]),
      "readings.csv:4: remark: 2 readings, here the first, were taken with the sampler 'cowl', and the sample was "
      "drawn with 'cyclone'; the flow with another sampler in line is another; correct the one that is wrong "
      "[doubt/other-sampler]");
}

TEST(Doubts, TellOfTheVeryFirstReadingTakenWithAnotherSampler) {
  BookText text;
  text.samples = "sample,pump,sampler,started,stopped\nS1,P1,cyclone,2026-09-21T08:00,2026-09-21T16:00\n";
  text.readings =
      "taken,stage,sample,calibrator,reading [L/min],sampler\n"
      "2026-09-21T07:30,pre,S1,V1,2.000,cowl\n2026-09-21T16:10,post,S1,V1,1.950,cyclone\n";
  const Diagnostics doubts = doubts_of(book_of(text));
  ASSERT_EQ(doubts.size(), 1U);
  EXPECT_EQ(doubts[0].place.line, 2U);
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

// A small piece of tests/reference/load/doubt_load, whose table stands in docs/uncertainty.md: one book in 100 at most
// for each kind. Pumps that differ in steadiness by 2.7 are set to a flow, so that their readings are as alike as they
// get, on a fine display, on one that hides their scatter, and on one that shows it in a step or three; of 120 books
// three standard errors of a Poisson count are allowed above.
TEST(Doubts, AreRaisedByChanceAsSeldomAsStated) {
  constexpr int books = 40;
  std::map<std::string, int> told;
  for (const auto& [decimals, steadiest] : {std::pair(3, 0.08), {2, 0.08}, {2, 0.5}}) {
    test::RandomNumbers random(7);
    test::DoubtBook of;
    of.weeks = 8;
    of.decimals = decimals;
    of.steadiest = steadiest;
    of.from_use_to_use = 5 * steadiest;
    of.are_unequal = of.is_set_each_time = true;
    for (int i = 0; i < books; ++i) {
      for (const std::string& id : ids(test::doubt_book(of, random))) ++told[id];
    }
  }
  for (const char* id : {"doubt/identical", "doubt/copied", "doubt/last-digits"}) {
    const double expected = 3 * books * false_doubts_a_book;
    EXPECT_LE(told[id], expected + 3 * std::sqrt(expected)) << id;
  }
}

TEST(Doubts, FindWhatIsMadeUpAmongPumpsThatDiffer) {
  for (const auto& [made_up, id] : {std::pair(test::MadeUp::one_set_alike, "doubt/identical"),
                                    std::pair(test::MadeUp::a_sample_copied, "doubt/copied")}) {
    test::RandomNumbers random(8);
    test::DoubtBook of;
    of.are_unequal = true;
    of.made_up = made_up;
    const Ids found = ids(test::doubt_book(of, random));
    EXPECT_EQ(std::ranges::count(found, id), 1) << id;
  }
}

// A text of readings with the lines emptied that begin with a later day: the others keep their numbers.
std::string without_later(const std::string& readings, const std::string& day) {
  std::string kept;
  for (std::size_t at = 0, end = 0; at < readings.size(); at = end + 1) {
    end = readings.find('\n', at);
    const std::string line = readings.substr(at, end - at);
    kept += (at > 0 && line.substr(0, day.size()) > day ? "" : line) + "\n";
  }
  return kept;
}

TEST(Doubts, KnowNothingOfWhatWasReadAfterTheDayThatStandsForToday) {
  std::size_t told = 0;
  for (const test::MadeUp made_up :
       {test::MadeUp::one_set_alike, test::MadeUp::a_sample_copied, test::MadeUp::rounded_readings}) {
    test::RandomNumbers random(8);
    test::DoubtBook of;
    of.made_up = made_up;
    const BookText whole = test::doubt_book(of, random);
    for (const Day day : {20638 + 7 * 7, 20638 + 8 * 7 + 4, 20638 + 12 * 7}) {  // before what is made up, and after
      BookText cut = whole;
      cut.readings = without_later(whole.readings, date_text(day));
      const Diagnostics known = doubts_of(book_of(whole), {}, day);
      const Diagnostics of_cut = doubts_of(book_of(cut));
      ASSERT_EQ(known.size(), of_cut.size()) << date_text(day);
      for (std::size_t i = 0; i < known.size(); ++i) EXPECT_EQ(to_text(known[i]), to_text(of_cut[i]));
      told += known.size();
    }
  }
  EXPECT_GE(told, 4U);  // each of the two sets on the two later days
}

TEST(Doubts, OfPlacesAndNamesKnowNothingOfWhatWasReadLaterEither) {
  BookText text = honest_book(1);
  text.readings.replace(text.readings.rfind(",84.5"), 5, ",101.6");
  const Book book = book_of(text);
  EXPECT_EQ(doubts_of(book).size(), 1U);
  EXPECT_TRUE(doubts_of(book, {}, 20000).empty());
}

// The demo book plants these five, and nothing else looks doubtful in it.
TEST(Doubts, FindWhatTheDemoBookPlants) {
  const Result<Book> demo = read_book(std::filesystem::path(project_folder()) / "docs/demo", 1);
  ASSERT_TRUE(demo);
  const Diagnostics doubts = doubts_of(*demo);
  ASSERT_EQ(doubts.size(), 5U);
  EXPECT_NE(doubts[0].message.find("TF43B-5"), std::string::npos);
  EXPECT_NE(doubts[1].message.find("of a set of TF43B-3 lies -3.8 %"), std::string::npos) << doubts[1].message;
  EXPECT_NE(doubts[2].message.find("of a set of ST44C-5 lies -5.5 %"), std::string::npos) << doubts[2].message;
  EXPECT_NE(doubts[3].message.find("10 readings of TF45B-4 are those of TF43A-2"), std::string::npos)
      << doubts[3].message;
  EXPECT_NE(doubts[4].message.find("read before TF42B-7, while it is still in use for TF42B-2"), std::string::npos);
}

// At 1500 m the standard atmosphere has 84.56 kPa (computed by the formula of correction/altitude).
TEST(Doubts, TellThePressureAndThatOfTheAltitude) {
  BookText text = honest_book(1);
  const std::string told_first = ", 101.60 kPa; the site's altitude has about 84.6 kPa; ";
  text.readings.replace(text.readings.find(",84.5"), 5, ",101.6");
  const Diagnostics one = doubts_of(book_of(text));
  ASSERT_EQ(one.size(), 1U);
  EXPECT_NE(to_text(one[0]).find("a reading states a pressure of sea level" + told_first), std::string::npos)
      << to_text(one[0]);
  text.readings.replace(text.readings.find(",84.5"), 5, ",101.2");
  EXPECT_NE(to_text(doubts_of(book_of(text))[0])
                .find("2 readings, here the first, state pressures of sea level" + told_first),
            std::string::npos);
}

TEST(Doubts, TakeForSeaLevelWhatLiesBetween97And105KPa) {
  for (const auto& [pressure, is_told] :
       {std::pair{",97.0", false}, std::pair{",97.1", true}, std::pair{",104.9", true}, std::pair{",105.0", false},
        std::pair{",105.1", false}}) {
    BookText text = honest_book(1);
    text.readings.replace(text.readings.find(",84.5"), 5, pressure);
    EXPECT_EQ(ids(text).size(), is_told ? 1U : 0U) << pressure;
  }
}

// The standard atmosphere has 98.95 kPa at 200 m; 5 % more is 103.9 kPa.
TEST(Doubts, LeaveToTheWeatherFivePercent) {
  for (const auto& [pressure, is_told] : {std::pair{",103.8", false}, std::pair{",104.0", true}}) {
    BookText text = honest_book(1);
    text.settings.replace(text.settings.find("1500 m"), 6, "200 m");
    text.readings.replace(text.readings.find(",84.5"), 5, pressure);
    EXPECT_EQ(ids(text).size(), is_told ? 1U : 0U) << pressure;
  }
}

TEST(Doubts, KnowNoSeaLevelWithoutAPressure) {
  BookText text;
  text.settings += "[site]\naltitude = \"1500 m\"\n";
  EXPECT_EQ(ids(text), Ids());
}

TEST(Doubts, DoNotCompareASamplerWithNone) {
  BookText text;
  text.samples = "sample,pump,sampler,started,stopped\nS1,P1,,2026-09-21T08:00,2026-09-21T16:00\n";
  text.readings =
      "taken,stage,sample,calibrator,reading [L/min],sampler\n"
      "2026-09-21T07:30,pre,S1,V1,2.000,cyclone\n2026-09-21T16:10,post,S1,V1,1.950,cowl\n";
  EXPECT_EQ(ids(text), Ids());
  text.samples = BookText().samples;
  EXPECT_EQ(ids(text), Ids()) << "no sample says its sampler";
  text.readings =
      "taken,stage,pump,calibrator,reading [L/min],sampler\n"
      "2026-09-21T07:30,pre,P1,V1,2.000,cyclone\n2026-09-21T16:10,post,P1,V1,1.950,cowl\n";
  EXPECT_EQ(ids(text), Ids()) << "of no sample";
}

}  // namespace
}  // namespace driftwarden::doubtful_test
