// SPDX-License-Identifier: MIT
#include <gtest/gtest.h>

#include "command/called.hpp"

namespace driftwarden::ahead_test {
namespace {

bool has(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }

BookText dust_book() {
  BookText text;
  text.settings += "[rules]\npacks = [\"nmam-respirable-dust\"]\n";
  text.samples =
      "sample,pump,sampler,method,started,stopped\nS1,P1,nylon-cyclone-10mm,NMAM "
      "0600,2026-09-21T08:00,2026-09-21T16:00\n";
  text.plan =
      "sample,batch,kind,pump,calibrator,sampler,method,target [µg/m3],expected [mg/m3],day\n"
      "N1,B1,,P2,V1,nylon-cyclone-10mm,NMAM 0600,500,1,2026-11-18\n"
      "N2,B1,,P2,V1,nylon-cyclone-10mm,NMAM 0600,50,1,2026-11-19\n"
      "K1,B1,blank,,,,NMAM 0600,,,\n";
  return text;
}

Called ahead(const CalledBook& book, std::vector<std::string> more) {
  more.insert(more.begin(), {"ahead", book.path()});
  return call(more);
}

TEST(Ahead, TellsOfASampleThatOnlyTheCommandLineDescribes) {
  const CalledBook book(dust_book());
  const Called called = ahead(book, {"--method", "NMAM 0600", "--sampler", "higher-flow-metal-cyclone", "--target",
                                     "0.5 mg/m3", "--expected", "1 mg/m3", "--samples", "24"});
  EXPECT_EQ(called.status, 0) << called.err;
  EXPECT_TRUE(has(called.out, "Air: at least 91 min (200 L), at most 480 min (1056 L)\n")) << called.out;
  EXPECT_TRUE(has(called.out, "Blanks: 5 for 24 samples\n"));
  EXPECT_FALSE(has(called.out, "Flow:")) << "no pump is said";
}

TEST(Ahead, TellsOfAPlannedSampleWhatItsFiguresWillBe) {
  const CalledBook book(dust_book());
  const Called called = ahead(book, {"--sample", "N1"});
  EXPECT_EQ(called.status, 0) << called.err;
  EXPECT_TRUE(has(called.out, "N1, NMAM 0600 with nylon-cyclone-10mm at 1.7 L/min: 0.5 mg/m3 has to be found"))
      << called.out;
  EXPECT_TRUE(has(called.out, "Blanks: 2 for 2 samples\n"));
  EXPECT_TRUE(has(called.out, "Flow: P2 with V1\n"));
  EXPECT_TRUE(has(called.out, "Uncertainty (GUM, first order;"));
  EXPECT_TRUE(has(ahead(book, {"--sample", "N1", "--pump", "P1"}).out, "Flow: P1 with V1\n")) << "the line wins";
}

TEST(Ahead, AnswersOneWhereNoVolumeFits) {
  const CalledBook book(dust_book());
  EXPECT_EQ(ahead(book, {"--sample", "N2"}).status, 1);
  const Called batch = ahead(book, {"--batch", "B1"});
  EXPECT_EQ(batch.status, 1);
  EXPECT_TRUE(has(batch.out, "  no volume fits: at least 1177 min (2000 L) and at most 480 min (816 L)\n"))
      << batch.out;
  EXPECT_EQ(ahead(book, {"--sample", "N1", "--minutes", "1 h"}).status, 1);
  EXPECT_EQ(ahead(book, {"--sample", "N1", "--minutes", "2 h"}).status, 0);
}

TEST(Ahead, LeavesOutOfABatchWhatIsRecordedAlready) {
  BookText text = dust_book();
  text.samples =
      "sample,batch,pump,sampler,method,started,stopped\nN1,B1,P1,nylon-cyclone-10mm,NMAM "
      "0600,2026-09-21T08:00,2026-09-21T16:00\n";
  text.readings = "taken,stage,sample,calibrator,reading [L/min]\n2026-09-21T07:30,pre,N1,V1,1.7\n";
  const CalledBook book(text);
  const Called called = ahead(book, {"--batch", "B1"});
  EXPECT_FALSE(has(called.out, "N1,")) << called.out;
  EXPECT_TRUE(has(called.out, "N2, NMAM 0600"));
  EXPECT_TRUE(has(called.out, "Blanks: 2 for 2 samples\n")) << "it is one of those that the blanks are for";
  text.plan = "sample,batch\nN1,B1\n";
  const CalledBook taken(text);
  const Called all = ahead(taken, {"--batch", "B1"});
  EXPECT_EQ(all.status, 0) << all.err;
  EXPECT_TRUE(has(all.out, "  every sample of it is recorded already\n")) << all.out;
  EXPECT_TRUE(has(ahead(taken, {"--sample", "N1"}).out, "not foretold: it is recorded already"));
}

TEST(Ahead, PlansNoAirOfBlanks) {
  BookText text = dust_book();
  const CalledBook mixed(text);
  const Called blank = ahead(mixed, {"--sample", "K1"});
  EXPECT_EQ(blank.status, 2);
  EXPECT_TRUE(has(blank.err, "the planned sample 'K1' is a blank, and no air is planned of a blank; '--batch B1' says"))
      << blank.err;
  text.plan = "sample,batch,kind\nK1,B1,blank\n";
  const CalledBook blanks(text);
  const Called batch = ahead(blanks, {"--batch", "B1"});
  EXPECT_EQ(batch.status, 0) << batch.err;
  EXPECT_TRUE(has(batch.out, "  it has nothing but blanks, of which no air is planned\n")) << batch.out;
}

TEST(Ahead, SaysOfAPlannedSampleThatItsNameIsTaken) {
  BookText text = dust_book();
  text.samples = "sample,batch,pump,started,stopped\nN1,B7,P1,2026-09-21T08:00,2026-09-21T16:00\n";
  text.readings = "taken,stage,sample,calibrator,reading [L/min]\n2026-09-21T07:30,pre,N1,V1,1.7\n";
  const CalledBook book(text);
  const Called called = ahead(book, {"--sample", "N1"});
  EXPECT_EQ(called.status, 2);
  EXPECT_TRUE(has(called.err, "the planned sample 'N1' stands in samples.csv:2 already, in the batch 'B7'"))
      << called.err;
}

// NMAM 0600 says that ten blanks are enough; the house's own method that seven are, and one says nothing.
TEST(Ahead, TakesAsManyBlanksForEnoughInWhateverOrderTheSamplesStand) {
  BookText text = dust_book();
  text.settings +=
      "[method.House]\ntitle = \"Own\"\n[method.House.blanks]\nmost = 7\nsource = \"s\"\nstanding = \"house\"\n"
      "[method.Bare]\ntitle = \"Bare\"\n";
  const std::string nmam = "N1,B1,,NMAM 0600\n";
  const auto blanks = [&](const std::string& rows) {
    text.plan = "sample,batch,kind,method\n" + rows;
    const CalledBook book(text);
    const std::string out = ahead(book, {"--batch", "B1", "--samples", "100"}).out;
    return out.substr(std::min(out.size(), out.find("Blanks: ")), 10);
  };
  EXPECT_EQ(blanks(nmam + "N2,B1,,House\n"), "Blanks: 10");
  EXPECT_EQ(blanks("N2,B1,,House\n" + nmam), "Blanks: 10");
  EXPECT_EQ(blanks(nmam + "N2,B1,,Bare\n"), "Blanks: 20");
  EXPECT_EQ(blanks("N2,B1,,Bare\n" + nmam), "Blanks: 20");
}

TEST(Ahead, SaysTheSameSpareMinutesWhateverMinutesAreSaid) {
  BookText text = dust_book();
  text.certificates = certificates_with_uncertainty;
  text.readings = two_readings_each;
  const CalledBook book(text);
  const auto spare = [&](const std::string& minutes) {
    const std::string out = ahead(book, {"--sample", "N1", "--minutes", minutes, "--format", "json"}).out;
    const std::size_t at = out.find("\"spare_minutes\":");
    return at == std::string::npos ? "none" : out.substr(at, 19);
  };
  EXPECT_EQ(spare("8 h"), spare("20 min"));
  EXPECT_EQ(spare("8 h"), "\"spare_minutes\":120");
}

TEST(Ahead, WritesJson) {
  const CalledBook book(dust_book());
  const Called called = ahead(book, {"--sample", "N1", "--format", "json"});
  EXPECT_TRUE(called.out.starts_with("{\"tool\":")) << called.out;
  EXPECT_TRUE(has(called.out, "\"rehearsed\":{\"volume_l\":200.6,"));
}

TEST(Ahead, TakesTheBooksOwnLimitOfTheLaboratory) {
  BookText text = dust_book();
  text.settings +=
      "[method.\"NMAM 0600\"]\ntitle = \"Dust\"\n[method.\"NMAM 0600\".quantification]\nmass = \"20 µg\"\nsource = "
      "\"Laboratory's report\"\nstanding = \"house\"\n";
  const CalledBook book(text);
  EXPECT_EQ(ahead(book, {"--sample", "N2"}).status, 0);
  EXPECT_TRUE(has(ahead(book, {"--sample", "N2"}).out, "0.02 mg to be quantified: 1000 · 0.02 mg / 0.05 mg/m3"));
}

TEST(Ahead, RefusesWhatItCantUse) {
  const CalledBook book(dust_book());
  EXPECT_TRUE(has(ahead(book, {"--method", "NMAM 0600", "--target", "0.5"}).err,
                  "command line: error: --target is '0.5', which is no concentration above 0; write a figure with its "
                  "unit, as in \"--target '0.05 mg/m3'\" [command/refused]"));
  EXPECT_TRUE(
      has(ahead(book, {"--method", "NMAM 600"}).err, "the book has no method 'NMAM 600'; did you mean 'NMAM 0600'?"));
  EXPECT_TRUE(
      has(ahead(book, {"--method", "NMAM 0600", "--analysis", "quarz"}).err, "the book has no analysis 'quarz'"));
  EXPECT_TRUE(has(ahead(book, {"--method", "NMAM 0600", "--minutes", "1e300 h"}).err,
                  "--minutes is '1e300 h', which can't be; between 0 min and 1000000 min is plausible; is the unit "
                  "right? [command/refused]"));
  EXPECT_TRUE(has(ahead(book, {"--method", "NMAM 0600", "--target", "1e308 mg/m3"}).err,
                  "--target is '1e308 mg/m3', which can't be;"));
  EXPECT_EQ(ahead(book, {"--method", "NMAM 0600", "--flow", "1e300 L/min"}).status, 2);
  EXPECT_TRUE(has(ahead(book, {"--sample", "N3"}).err, "the book has no planned sample 'N3'"));
  EXPECT_TRUE(has(ahead(book, {"--sample", "N1", "--pump", "P9"}).err, "the book has no pump 'P9'"));
  EXPECT_EQ(ahead(book, {"--sample", "N1", "--pump", "V1"}).status, 2) << "no pump";
  EXPECT_EQ(ahead(book, {}).status, 2);
}

}  // namespace
}  // namespace driftwarden::ahead_test
