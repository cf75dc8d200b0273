// SPDX-License-Identifier: MIT
#include "workshop/book_with_rows.hpp"

#include <gtest/gtest.h>

#include <filesystem>
#include <fstream>
#include <set>

#include "support/book_text.hpp"

namespace driftwarden::book_with_rows_test {
namespace {

namespace fs = std::filesystem;

RowsReceived rows_of(const fs::path& folder, const std::string& text) {
  const fs::path file = folder / "came.txt";
  std::ofstream(file, std::ios::binary) << text;
  const Result<RowsReceived> rows = rows_received(file, *parse_settings("time_zone = \"UTC\"\n", "book.toml"));
  if (!rows) throw std::runtime_error(to_text(rows.faults().front()));
  fs::remove(file);
  return *rows;
}

constexpr const char* a_sample = "sample,pump,started,stopped\nS2,P2,2026-09-21T08:00,2026-09-21T16:00\n";
constexpr const char* its_reading = "taken,stage,sample,calibrator,reading [L/min]\n2026-09-21T07:40,pre,S2,V1,2.010\n";

TEST(BookWithRows, ReadsTheBookWithTheRowsAndWritesNothing) {
  const ScratchFolder folder;
  BookText().write(folder.path());
  const Result<BookWithRows> with =
      book_with_rows(folder.path(), {rows_of(folder.path(), a_sample), rows_of(folder.path(), its_reading)}, 1);
  ASSERT_TRUE(with);
  EXPECT_EQ(with->book.samples.size(), 2U);
  EXPECT_EQ(with->book.readings.size(), 3U);
  EXPECT_TRUE(with->book.problems.empty());
  EXPECT_EQ(with->book.folder, folder.path());
  EXPECT_EQ(with->files, (std::vector<std::string>{"samples/incoming-1.csv", "readings/incoming-2.csv"}));
  EXPECT_FALSE(fs::exists(folder.path() / "samples"));
}

TEST(BookWithRows, WritesThemSoThatTheyCountTogether) {
  const ScratchFolder folder;
  BookText().write(folder.path());
  const std::vector<RowsReceived> rows{rows_of(folder.path(), a_sample), rows_of(folder.path(), its_reading)};
  const Book before = *read_book(folder.path(), 1);
  std::vector<Receipt> receipts(2);
  for (Receipt& receipt : receipts) {
    receipt.received = 1790000000;
    receipt.by = "the keeper";
  }
  EXPECT_TRUE(write_received(before, rows, receipts, {}).empty());
  const Book after = *read_book(folder.path(), 1);
  EXPECT_EQ(after.samples.size(), 2U);
  EXPECT_EQ(after.readings.size(), 3U);
  ASSERT_EQ(after.receipts.size(), 2U);
  EXPECT_EQ(after.receipts[1].file, receipts[1].file);
  EXPECT_TRUE(after.receipts[1].file.starts_with("readings/received-2026-09-21-"));
  EXPECT_TRUE(names_being_received(folder.path()).empty());
}

// The note of a run that was ended: what it left stays known as such, and what is there no more is forgotten.
TEST(BookWithRows, KeepsInMindWhatAnEndedRunHasLeft) {
  const ScratchFolder folder;
  BookText().write(folder.path());
  const std::string left = "readings/received-2026-09-20-0123456789ab.csv";
  fs::create_directory(folder.path() / "readings");
  std::ofstream(folder.path() / left) << its_reading;
  std::ofstream(folder.path() / receiving_note) << left << "\nreadings/received-2026-09-20-ba9876543210.csv\n";
  std::vector<Receipt> receipts(1);
  receipts[0].received = 1790000000;
  receipts[0].by = "the keeper";
  const Book before = *read_book(folder.path(), 1);
  EXPECT_TRUE(write_received(before, {rows_of(folder.path(), a_sample)}, receipts, {}).empty());
  EXPECT_EQ(names_being_received(folder.path()), (std::set<std::string>{left, receipts[0].file}));
  const Book after = *read_book(folder.path(), 1);
  ASSERT_EQ(after.problems.size(), 1U);
  EXPECT_EQ(after.problems[0].id, "receive/unfinished");
}

// A folder stands where the receipts would be written.
TEST(BookWithRows, LeavesNothingBehindWhereItCannotBeFinished) {
  const ScratchFolder folder;
  BookText().write(folder.path());
  const std::vector<RowsReceived> rows{rows_of(folder.path(), a_sample)};
  const Book before = *read_book(folder.path(), 1);
  fs::create_directory(folder.path() / "received.csv");
  std::vector<Receipt> receipts(1);
  receipts[0].received = 1790000000;
  receipts[0].by = "the keeper";
  EXPECT_FALSE(write_received(before, rows, receipts, {}).empty());
  EXPECT_FALSE(fs::exists(folder.path() / receipts[0].file));
  EXPECT_FALSE(fs::exists(folder.path() / receiving_note));
}

// The first file is there by then; the second one's folder can't be.
TEST(BookWithRows, TakesTheFirstFileAwayWhereTheSecondCannotBeWritten) {
  const ScratchFolder folder;
  BookText().write(folder.path());
  const std::vector<RowsReceived> rows{rows_of(folder.path(), a_sample), rows_of(folder.path(), its_reading)};
  const Book before = *read_book(folder.path(), 1);
  std::ofstream(folder.path() / "readings") << "no folder";
  std::vector<Receipt> receipts(2);
  for (Receipt& receipt : receipts) receipt = {1790000000, "the keeper", {}, {}, {}, {}, {}, {}};
  const Diagnostics faults = write_received(before, rows, receipts, {});
  ASSERT_EQ(faults.size(), 1U);
  EXPECT_EQ(faults[0].id, "output/unwritable");
  EXPECT_TRUE(fs::is_empty(folder.path() / "samples"));
  EXPECT_FALSE(fs::exists(folder.path() / "received.csv"));
}

}  // namespace
}  // namespace driftwarden::book_with_rows_test
