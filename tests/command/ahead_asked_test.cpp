// SPDX-License-Identifier: MIT
#include "command/ahead_asked.hpp"

#include <gtest/gtest.h>

#include "command/dust_book.hpp"

namespace driftwarden::ahead_asked_test {
namespace {

TEST(AheadAsked, PlansNoAirOfBlanks) {
  BookText text = dust_book();
  const CalledBook mixed(text);
  const Called blank = ahead(mixed, {"--sample", "K1"});
  EXPECT_EQ(blank.status, 2);
  EXPECT_TRUE(
      has_part(blank.err, "the planned sample 'K1' is a blank, and no air is planned of a blank; '--batch B1' says"))
      << blank.err;
  text.plan = "sample,batch,kind\nK1,B1,blank\n";
  const CalledBook blanks(text);
  const Called batch = ahead(blanks, {"--batch", "B1"});
  EXPECT_EQ(batch.status, 0) << batch.err;
  EXPECT_TRUE(has_part(batch.out, "  it has nothing but blanks, of which no air is planned\n")) << batch.out;
}

TEST(AheadAsked, SaysOfAPlannedSampleThatItsNameIsTaken) {
  BookText text = dust_book();
  text.samples = "sample,batch,pump,started,stopped\nN1,B7,P1,2026-09-21T08:00,2026-09-21T16:00\n";
  text.readings = "taken,stage,sample,calibrator,reading [L/min]\n2026-09-21T07:30,pre,N1,V1,1.7\n";
  const CalledBook book(text);
  const Called called = ahead(book, {"--sample", "N1"});
  EXPECT_EQ(called.status, 2);
  EXPECT_TRUE(has_part(called.err, "the planned sample 'N1' stands in samples.csv:2 already, in the batch 'B7'"))
      << called.err;
}

TEST(AheadAsked, RefusesWhatItCantUse) {
  const CalledBook book(dust_book());
  EXPECT_TRUE(
      has_part(ahead(book, {"--method", "NMAM 0600", "--target", "0.5"}).err,
               "command line: error: --target is '0.5', which is no concentration above 0; write a figure with its "
               "unit, as in \"--target '0.05 mg/m3'\" [command/refused]"));
  EXPECT_TRUE(has_part(ahead(book, {"--method", "NMAM 600"}).err,
                       "the book has no method 'NMAM 600'; did you mean 'NMAM 0600'?"));
  EXPECT_TRUE(
      has_part(ahead(book, {"--method", "NMAM 0600", "--analysis", "quarz"}).err, "the book has no analysis 'quarz'"));
  EXPECT_TRUE(
      has_part(ahead(book, {"--method", "NMAM 0600", "--minutes", "1e300 h"}).err,
               "--minutes is '1e300 h', which can't be; between 0 min and 1000000 min is plausible; is the unit "
               "right? [command/refused]"));
  EXPECT_TRUE(has_part(ahead(book, {"--method", "NMAM 0600", "--target", "1e308 mg/m3"}).err,
                       "--target is '1e308 mg/m3', which can't be;"));
  EXPECT_EQ(ahead(book, {"--method", "NMAM 0600", "--flow", "1e300 L/min"}).status, 2);
  EXPECT_TRUE(has_part(ahead(book, {"--sample", "N3"}).err, "the book has no planned sample 'N3'"));
  EXPECT_TRUE(has_part(ahead(book, {"--sample", "N1", "--pump", "P9"}).err, "the book has no pump 'P9'"));
  EXPECT_EQ(ahead(book, {"--sample", "N1", "--pump", "V1"}).status, 2) << "no pump";
  EXPECT_EQ(ahead(book, {}).status, 2);
}

}  // namespace
}  // namespace driftwarden::ahead_asked_test
