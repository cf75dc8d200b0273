// SPDX-License-Identifier: MIT
#include "evidence/inputs.hpp"

#include <gtest/gtest.h>

#include <fstream>

#include "support/book_text.hpp"

namespace driftwarden::inputs_test {
namespace {

std::vector<std::string> names_of(const std::vector<PackedInput>& inputs) {
  std::vector<std::string> names;
  for (const PackedInput& input : inputs) names.push_back(input.name);
  return names;
}

BookText with_packs(const std::string& packs) {
  BookText text;
  text.settings += "[rules]\npacks = [" + packs + "]\n";
  return text;
}

TEST(Inputs, AreTheBooksFilesAndThePacksItNames) {
  const Book book = book_of(with_packs("\"common-practice\", \"own.toml\""));
  const Result<std::vector<PackedInput>> inputs = inputs_of(book, "/shipped");
  ASSERT_TRUE(inputs);
  EXPECT_EQ(names_of(*inputs),
            (std::vector<std::string>{"data/book/book.toml", "data/book/instruments.csv", "data/book/certificates.csv",
                                      "data/book/samples.csv", "data/book/readings.csv",
                                      "data/rules/common-practice.toml", "data/book/own.toml"}));
  EXPECT_EQ((*inputs)[5].file, "/shipped/common-practice.toml");
  EXPECT_EQ((*inputs)[6].file, book.folder / "own.toml");
}

TEST(Inputs, ArePackedAsTheyWereReadWhateverIsAddedSince) {
  const ScratchFolder folder;
  with_packs("\"own.toml\"").write(folder.path());
  const Result<Book> book = read_book(folder.path(), 1);
  ASSERT_TRUE(book);
  const PackedInput readings{"data/book/readings.csv", folder.path() / "readings.csv", "readings.csv"};
  const std::string before(packed_bytes(*book, readings)->bytes());
  std::ofstream(folder.path() / "readings.csv", std::ios::app) << "2026-09-21T16:20,post,S1,V1,2.000\n";
  const Result<HeldFile> now = packed_bytes(*book, readings);
  ASSERT_TRUE(now);
  EXPECT_EQ(now->bytes(), before);
  std::ofstream(folder.path() / "readings.csv") << "another\n";
  const Result<HeldFile> other = packed_bytes(*book, readings);
  ASSERT_FALSE(other);
  EXPECT_EQ(other.faults().front().id, "file/changed");
}

TEST(Inputs, AreEachPackedOnce) {
  Book book = book_of(with_packs("\"a\""));
  book.settings.packs.emplace_back("a");
  book.settings.pack_places.emplace_back();
  const Result<std::vector<PackedInput>> inputs = inputs_of(book, "/shipped");
  ASSERT_TRUE(inputs);
  EXPECT_EQ(inputs->size(), 6U);
}

TEST(Inputs, LieInTheBooksFolder) {
  for (const char* pack : {"../own.toml", "/etc/own.toml", "a/../../own.toml"}) {
    const Book book = book_of(with_packs("\"" + std::string(pack) + "\""));
    const Result<std::vector<PackedInput>> inputs = inputs_of(book, "/shipped");
    ASSERT_FALSE(inputs) << pack;
    EXPECT_EQ(inputs.faults().front().id, "evidence/pack-outside");
    EXPECT_EQ(packs_outside(book.settings).size(), 1U);
  }
  EXPECT_EQ(
      to_text(packs_outside(book_of(with_packs("\"../own.toml\"")).settings).front()),
      "book.toml:4:10: error: the rule pack '../own.toml' leads out of its folder; a package holds only what lies in "
      "the book's folder; copy the pack there and name it so [evidence/pack-outside]");
}

TEST(Inputs, HaveNamesThatCanBePacked) {
  Book book = book_of({});
  book.files.readings = {"readings/50%.csv"};
  const Result<std::vector<PackedInput>> inputs = inputs_of(book, "/shipped");
  ASSERT_FALSE(inputs);
  EXPECT_EQ(
      to_text(inputs.faults().front()),
      "readings/50%.csv: error: the name 'readings/50%.csv' holds '%'; rename the file; under such a name it can't be "
      "packed safely [evidence/name]");
}

}  // namespace
}  // namespace driftwarden::inputs_test
