// SPDX-License-Identifier: MIT
#include "doubt/use_at_odds.hpp"

#include <gtest/gtest.h>

#include "doubt/honest_book.hpp"

namespace driftwarden::use_at_odds_test {
namespace {

using Told = std::vector<std::string>;

// input: flows and times. S1 runs on P1 on the 21st, from 08:00 to 16:00.
Told told(const BookText& text) {
  Told all;
  for (const Diagnostic& doubt : doubts_of(book_of(text)))
    all.push_back(to_text(doubt.place) + ": " + doubt.message + " [" + doubt.id + "]");
  return all;
}

BookText in_service(const std::string& pump, const std::string& calibrator) {
  BookText text;
  text.instruments = "instrument,kind,principle,in service,out of service\nP1,pump,," + pump +
                     "\nV1,calibrator,volumetric," + calibrator + "\n";
  text.certificates.clear();
  return text;
}

TEST(OutOfService, IsToldOfAnInstrumentThatIsUsedAllTheSame) {
  EXPECT_EQ(told(in_service(",", ",")), Told());
  EXPECT_EQ(told(in_service("2026-09-21,2026-09-21", "2026-09-21,2026-09-21")), Told())
      << "on the day itself it may be";
  EXPECT_EQ(told(in_service(",2026-09-20", ",")),
            Told{"samples.csv:2: P1 is out of service since 2026-09-20, and 1 sample is drawn with it at another time "
                 "[doubt/out-of-service]"});
  EXPECT_EQ(told(in_service("2026-09-22,", "2026-09-22,2027-01-01")),
            (Told{"samples.csv:2: P1 is in service from 2026-09-22 on, and 1 sample is drawn with it at another time "
                  "[doubt/out-of-service]",
                  "readings.csv:2: V1 is in service from 2026-09-22, out of service since 2027-01-01, and 2 sets are "
                  "read with it at another time, of which this is the first [doubt/out-of-service]"}));
}

TEST(OutOfService, HeedsWhatHadComeByADay) {
  const BookText text = in_service(",2026-09-20", ",");
  EXPECT_EQ(doubts_of(book_of(text), {}, 20716).size(), 0U);  // 2026-09-20
  EXPECT_EQ(doubts_of(book_of(text), {}, 20717).size(), 1U);
}

TEST(Blank, IsToldWhereItWasReadOrHadAFault) {
  BookText text;
  text.samples = "sample,kind,pump,started,stopped,fault\nS1,blank,P1,2026-09-21T08:00,2026-09-21T16:00,no\n";
  EXPECT_EQ(told(text), Told{"samples.csv:2: S1 is a blank, and its flow was read: no rule about air looks at it "
                             "[doubt/blank]"});
  text.readings = "taken,stage,sample,calibrator,reading [L/min]\n";
  EXPECT_EQ(told(text), Told());
  text.samples.replace(text.samples.rfind("no"), 2, "yes");
  EXPECT_EQ(told(text), Told{"samples.csv:2: S1 is a blank, and a fault of it is on record: no rule about air looks at "
                             "it [doubt/blank]"});
}

// Of a pump's own sets; of those that name the sample it is a fault, or a rule's.
BookText of_pump(const std::string& first, const std::string& second, const std::string& stage) {
  BookText text;
  text.readings = "taken,stage,pump,calibrator,reading [L/min]\n";
  for (const std::string& time : {first, second})
    text.readings += "2026-09-21T" + time + "," + stage + ",P1,V1,2.000\n";
  return text;
}

TEST(ReadWhileRunning, IsToldOfASetThatIsOfNoSample) {
  EXPECT_EQ(
      told(of_pump("08:01", "08:02", "pre")),
      Told{"readings.csv:2: the flow of P1 is read as 'pre' while S1 runs on it (samples.csv:2): it counts for no "
           "sample [doubt/read-while-running]"});
  EXPECT_EQ(told(of_pump("15:57", "15:58", "post")).size(), 1U);
  EXPECT_EQ(told(of_pump("12:00", "12:01", "field")), Told());
  EXPECT_EQ(told(of_pump("07:58", "08:00", "pre")), Told());
  EXPECT_EQ(told(of_pump("16:00", "16:02", "post")), Told());
}

BookText with_media(int count, const std::string& last) {
  BookText text;
  text.samples = "sample,kind,medium\n";
  for (int i = 1; i <= count; ++i) text.samples += "B" + std::to_string(i) + ",blank,C-" + std::to_string(i) + "\n";
  text.samples += "X,blank," + last + "\n";
  text.readings = "taken,stage,sample,calibrator,reading [L/min]\n";
  return text;
}

TEST(OneMedium, IsToldOfTwoSamplesWhereEachHasItsOwn) {
  EXPECT_EQ(told(with_media(10, "C-4")),
            Told{"samples.csv:12: X has the medium 'C-4', as B4 has (samples.csv:5) [doubt/one-medium]"});
  EXPECT_EQ(told(with_media(10, "C-11")), Told());
  EXPECT_EQ(told(with_media(10, "")), Told());
  EXPECT_EQ(told(with_media(9, "C-4")), Told()) << "of nine media only eight stand once: they may be kinds";
}

}  // namespace
}  // namespace driftwarden::use_at_odds_test
