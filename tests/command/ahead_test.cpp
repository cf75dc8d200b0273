// SPDX-License-Identifier: MIT
#include <gtest/gtest.h>

#include "command/dust_book.hpp"

namespace driftwarden::ahead_test {
namespace {

TEST(Ahead, TellsOfASampleThatOnlyTheCommandLineDescribes) {
  const CalledBook book(dust_book());
  const Called called = ahead(book, {"--method", "NMAM 0600", "--sampler", "higher-flow-metal-cyclone", "--target",
                                     "0.5 mg/m3", "--expected", "1 mg/m3", "--samples", "24"});
  EXPECT_EQ(called.status, 0) << called.err;
  EXPECT_TRUE(has_part(called.out, "Air: at least 91 min (200 L), at most 480 min (1056 L)\n")) << called.out;
  EXPECT_TRUE(has_part(called.out, "Blanks: 5 for 24 samples\n"));
  EXPECT_FALSE(has_part(called.out, "Flow:")) << "no pump is said";
}

TEST(Ahead, TellsOfAPlannedSampleWhatItsFiguresWillBe) {
  const CalledBook book(dust_book());
  const Called called = ahead(book, {"--sample", "N1"});
  EXPECT_EQ(called.status, 0) << called.err;
  EXPECT_TRUE(has_part(called.out, "N1, NMAM 0600 with nylon-cyclone-10mm at 1.7 L/min: 0.5 mg/m3 has to be found"))
      << called.out;
  EXPECT_TRUE(has_part(called.out, "Blanks: 2 for 2 samples\n"));
  EXPECT_TRUE(has_part(called.out, "Flow: P2 with V1\n"));
  EXPECT_TRUE(has_part(called.out, "Uncertainty (GUM, first order;"));
  EXPECT_TRUE(has_part(ahead(book, {"--sample", "N1", "--pump", "P1"}).out, "Flow: P1 with V1\n")) << "the line wins";
}

TEST(Ahead, AnswersOneWhereNoVolumeFits) {
  const CalledBook book(dust_book());
  EXPECT_EQ(ahead(book, {"--sample", "N2"}).status, 1);
  const Called batch = ahead(book, {"--batch", "B1"});
  EXPECT_EQ(batch.status, 1);
  EXPECT_TRUE(has_part(batch.out, "  no volume fits: at least 1177 min (2000 L) and at most 480 min (816 L)\n"))
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
  EXPECT_FALSE(has_part(called.out, "N1,")) << called.out;
  EXPECT_TRUE(has_part(called.out, "N2, NMAM 0600"));
  EXPECT_TRUE(has_part(called.out, "Blanks: 2 for 2 samples\n")) << "it is one of those that the blanks are for";
  text.plan = "sample,batch\nN1,B1\n";
  const CalledBook taken(text);
  const Called all = ahead(taken, {"--batch", "B1"});
  EXPECT_EQ(all.status, 0) << all.err;
  EXPECT_TRUE(has_part(all.out, "  every sample of it is recorded already\n")) << all.out;
  EXPECT_TRUE(has_part(ahead(taken, {"--sample", "N1"}).out, "not foretold: it is recorded already"));
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
  EXPECT_TRUE(has_part(called.out, "\"rehearsed\":{\"volume_l\":200.6,"));
}

TEST(Ahead, TakesTheBooksOwnLimitOfTheLaboratory) {
  BookText text = dust_book();
  text.settings +=
      "[method.\"NMAM 0600\"]\ntitle = \"Dust\"\n[method.\"NMAM 0600\".quantification]\nmass = \"20 µg\"\nsource = "
      "\"Laboratory's report\"\nstanding = \"house\"\n";
  const CalledBook book(text);
  EXPECT_EQ(ahead(book, {"--sample", "N2"}).status, 0);
  EXPECT_TRUE(has_part(ahead(book, {"--sample", "N2"}).out, "0.02 mg to be quantified: 1000 · 0.02 mg / 0.05 mg/m3"));
}

}  // namespace
}  // namespace driftwarden::ahead_test
