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
  EXPECT_TRUE(has(ahead(book, {"--sample", "N3"}).err, "the book has no planned sample 'N3'"));
  EXPECT_TRUE(has(ahead(book, {"--sample", "N1", "--pump", "P9"}).err, "the book has no pump 'P9'"));
  EXPECT_EQ(ahead(book, {"--sample", "N1", "--pump", "V1"}).status, 2) << "no pump";
  EXPECT_EQ(ahead(book, {}).status, 2);
}

}  // namespace
}  // namespace driftwarden::ahead_test
