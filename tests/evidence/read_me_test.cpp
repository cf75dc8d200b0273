// SPDX-License-Identifier: MIT
#include "evidence/read_me.hpp"

#include <gtest/gtest.h>

#include "verdict/cautions.hpp"

namespace driftwarden::read_me_test {
namespace {

ReadMe quarry() {
  ReadMe read_me;
  read_me.title = "Quarry";
  read_me.note = {"0.1.0", "2026-11-16", {}, true, true};
  read_me.totals = {8, 5, 1, 1, 1};
  read_me.asked = {{"Who took each reading",
                    "29 CFR 1910.1043",
                    "data/book/readings.csv",
                    {"time: for 1 of 2 readings"},
                    {"training"}},
                   {"The decision rule", "7.8.6*", "data/results/screen.txt", {}, {}}};
  return read_me;
}

bool says(const ReadMe& read_me, const std::string& part) {
  return read_me_text(read_me).find(part) != std::string::npos;
}

TEST(ReadMe, BeginsWithWhatThePackageIs) {
  EXPECT_TRUE(
      read_me_text(quarry()).starts_with("READ ME FIRST\n\nEvidence of air-sampling flow\n\n"
                                         "  Book      Quarry\n"
                                         "  Covers    the whole book\n"
                                         "  As of     2026-11-16\n"
                                         "  Made by   driftwarden 0.1.0\n"
                                         "  Results   8 samples and blanks: 5 valid, 1 qualified, 1 undecided, 1 "
                                         "void\n\nCautions\n"))
      << read_me_text(quarry());
  ReadMe batches = quarry();
  batches.note.batches = {"A", "B"};
  EXPECT_TRUE(says(batches, "  Covers    batch A, batch B\n"));
}

TEST(ReadMe, SaysWhatIsAmissWithTheBookAndItsPacks) {
  ReadMe read_me = quarry();
  EXPECT_FALSE(says(read_me, "Faults"));
  read_me.faults = 1;
  read_me.altered = {{"trade", "1", {"line 4: 'a', shipped: 'b'", "and more"}}};
  EXPECT_TRUE(says(read_me,
                   "void\n  Faults    1 records of the book could not be understood; what they touch is\n"
                   "            undecided. They are listed at the end of data/results/screen.json.\n"
                   "  ALTERED   the rule pack trade, edition 1, is not the one shipped under that name:\n"
                   "            line 4: 'a', shipped: 'b'\n            and more\n\n"))
      << read_me_text(read_me);
}

TEST(ReadMe, ListsWhatIsInThePackage) {
  ReadMe read_me = quarry();
  EXPECT_TRUE(says(read_me,
                   "  data/package.json    what the package was made by and of\n"
                   "  signature.ed25519    signature of tagmanifest-sha512.txt\n"
                   "  signed-by.pem        the public key it was made with\n"));
  EXPECT_TRUE(says(read_me, "  data/charts/         control charts of the instruments used\n"));
  read_me.note.charts_of = ChartsOf::all;
  EXPECT_TRUE(says(read_me, "  data/charts/         control charts of all instruments of the book\n"));
  read_me.note.is_signed = false;
  EXPECT_FALSE(says(read_me, "signature.ed25519"));
}

// Behind the label there are 64 bytes to a line of 79.
TEST(ReadMe, FillsLinesToTheLastByte) {
  ReadMe read_me = quarry();
  const std::string first(32, 'a');
  const std::string second(31, 'b');
  read_me.asked.front().place = first + " " + second + " c";
  EXPECT_TRUE(says(read_me, "     here      " + first + " " + second + "\n               c\n"))
      << read_me_text(read_me);
  read_me.asked.front().place = first + " " + second;
  EXPECT_TRUE(says(read_me, "     here      " + first + " " + second + "\n")) << read_me_text(read_me);
  read_me.asked.front().place = first + " b" + second;
  EXPECT_TRUE(says(read_me, "     here      " + first + "\n               b" + second + "\n")) << read_me_text(read_me);
}

TEST(ReadMe, CautionsWhoeverReadsIt) {
  std::string text = read_me_text(quarry());
  for (std::size_t at = text.find("\n  "); at != std::string::npos; at = text.find("\n  ", at))
    text.replace(at, 3, " ");
  EXPECT_NE(text.find(cautions), std::string::npos) << text;
}

TEST(ReadMe, SaysWhatIsAskedWhereItIsAndWhatIsMissing) {
  EXPECT_TRUE(
      says(quarry(),
           "  1. Who took each reading\n     asked by  29 CFR 1910.1043\n     here      data/book/readings.csv\n"
           "     MISSING   time: for 1 of 2 readings\n     ask for   training\n\n"
           "  2. The decision rule\n     asked by  7.8.6*\n     here      data/results/screen.txt\n\n"))
      << read_me_text(quarry());
  EXPECT_TRUE(says(quarry(), "  Missing: points 1\n"));
  ReadMe complete = quarry();
  complete.asked.front().missing.clear();
  EXPECT_TRUE(says(complete, "  Missing: nothing that a book has a place for\n"));
}

TEST(ReadMe, BreaksLongLinesAtBlanks) {
  ReadMe read_me = quarry();
  read_me.asked.front().missing = {"one two three four five six seven eight nine ten eleven twelve thirteen fourteen"};
  EXPECT_TRUE(says(read_me,
                   "     MISSING   one two three four five six seven eight nine ten eleven twelve\n"
                   "               thirteen fourteen\n"))
      << read_me_text(read_me);
  read_me.asked.front().missing = {std::string(100, 'x') + " y"};
  EXPECT_TRUE(says(read_me, "     MISSING   " + std::string(100, 'x') + "\n               y\n"));
}

TEST(ReadMe, SaysHowToCheckIt) {
  EXPECT_TRUE(says(quarry(), "sha512sum -c --quiet manifest-sha512.txt"));
  EXPECT_TRUE(says(quarry(), "openssl pkeyutl -verify -rawin -pubin -inkey KEY.pem"));
  ReadMe unsigned_one = quarry();
  unsigned_one.note.is_signed = false;
  EXPECT_FALSE(says(unsigned_one, "openssl"));
  EXPECT_FALSE(says(unsigned_one, "signed-by.pem"));
  EXPECT_TRUE(says(unsigned_one, "The package is not signed"));
}

TEST(ReadMe, SaysWhenChartsAreMissing) {
  EXPECT_FALSE(says(quarry(), "gnuplot"));
  ReadMe without = quarry();
  without.note.has_charts = false;
  EXPECT_TRUE(says(without, "data/charts/         MISSING: the program gnuplot was not there"));
}

TEST(ReadMe, SaysWhenRecordsCouldNotBeUnderstood) {
  EXPECT_FALSE(says(quarry(), "Faults"));
  ReadMe faulty = quarry();
  faulty.faults = 3;
  EXPECT_TRUE(says(faulty, "  Faults    3 records of the book could not be understood"));
}

TEST(ReadMe, ShowsNoControlCharactersOfTheBook) {
  ReadMe odd = quarry();
  odd.title = "Quarry\x1b[31m\nMISSING nothing";
  EXPECT_TRUE(says(odd, "'Quarry\\x1b[31m\\x0aMISSING nothing'"));
}

}  // namespace
}  // namespace driftwarden::read_me_test
