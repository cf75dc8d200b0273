// SPDX-License-Identifier: MIT
#include "assessment/standard_index.hpp"

#include <gtest/gtest.h>

#include "support/book_text.hpp"

namespace driftwarden::standard_index_test {
namespace {

// V1 is the standard of V2, by name, by certificate, and twice by something the book doesn't know.
BookText chain() {
  BookText text;
  text.certificates =
      "certificate,instrument,calibrated,standard,nominal [L/min],reference [L/min],as left [L/min]\n"
      "A,V1,2026-01-05,,2,2,2\n"
      "B,V1,2026-03-05,,2,2,2\n"
      "by-name,V2,2026-02-01,V1,2,2,2\n"
      "too-early,V2,2026-01-04,V1,2,2,2\n"
      "by-certificate,V2,2026-04-01,A,2,2,2\n"
      "outside,V2,2026-04-02,prover of an outside laboratory,2,2,2\n";
  return text;
}

TEST(StandardIndex, FindsAnInstrumentWithTheCertificateOfTheDay) {
  const Book book = book_of(chain());
  const CalibratorKnowledge knowledge(book);
  const Standard standard = StandardIndex(book).of(book.certificates[2], knowledge);
  EXPECT_EQ(book.instruments[standard.instrument].name, "V1");
  EXPECT_EQ(standard.certificate, 0);
}

TEST(StandardIndex, FindsNoCertificateBeforeTheFirst) {
  const Book book = book_of(chain());
  const CalibratorKnowledge knowledge(book);
  const Standard standard = StandardIndex(book).of(book.certificates[3], knowledge);
  EXPECT_EQ(book.instruments[standard.instrument].name, "V1");
  EXPECT_EQ(standard.certificate, -1);
}

TEST(StandardIndex, TakesANamedCertificateAsItIs) {
  const Book book = book_of(chain());
  const CalibratorKnowledge knowledge(book);
  EXPECT_EQ(StandardIndex(book).of(book.certificates[4], knowledge).certificate, 0) << "though B was in force";
}

TEST(StandardIndex, KnowsNothingOfWhatTheBookDoesNotHave) {
  const Book book = book_of(chain());
  const CalibratorKnowledge knowledge(book);
  const StandardIndex standards(book);
  EXPECT_EQ(standards.of(book.certificates[5], knowledge).instrument, no_row);
  EXPECT_EQ(standards.of(book.certificates[0], knowledge).instrument, no_row);
}

TEST(StandardIndex, FindsTheBooksFirstInstrument) {
  BookText text = chain();
  text.instruments = "instrument,kind,principle\nV1,calibrator,volumetric\nV2,calibrator,volumetric\nP1,pump,\n";
  const Book book = book_of(text);
  const CalibratorKnowledge knowledge(book);
  EXPECT_EQ(StandardIndex(book).of(book.certificates[2], knowledge).instrument, 0U);
}

}  // namespace
}  // namespace driftwarden::standard_index_test
