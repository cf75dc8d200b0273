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

constexpr Day a_day = 20717;
constexpr const char* a_sample = "sample,pump,started,stopped\nS2,P2,2026-09-21T08:00,2026-09-21T16:00\n";
constexpr const char* its_reading = "taken,stage,sample,calibrator,reading [L/min]\n2026-09-21T07:40,pre,S2,V1,2.010\n";

std::vector<Receipt> receipts_of(const BookWithRows& with) {
  std::vector<Receipt> receipts;
  for (const std::string& file : with.files)
    receipts.push_back({1790000000, "the keeper", file, {}, {}, {}, {}, missing, no_moment, no_moment, {}});
  return receipts;
}

TEST(BookWithRows, ReadsTheBookWithTheRowsAndWritesNothing) {
  const ScratchFolder folder;
  BookText().write(folder.path());
  const Result<BookWithRows> with = book_with_rows(
      *read_book(folder.path(), 1), {rows_of(folder.path(), a_sample), rows_of(folder.path(), its_reading)}, a_day, 1);
  ASSERT_TRUE(with);
  EXPECT_EQ(with->book.samples.size(), 2U);
  EXPECT_EQ(with->book.readings.size(), 3U);
  EXPECT_TRUE(with->book.problems.empty());
  EXPECT_EQ(with->book.folder, folder.path());
  EXPECT_EQ(with->files, (std::vector<std::string>{with->rows[0].name_on(a_day), with->rows[1].name_on(a_day)}));
  EXPECT_FALSE(fs::exists(folder.path() / "samples"));
}

// What it leads to would be written over, wherever that is.
TEST(BookWithRows, IsNoneWhereTheNoteOfTheFilesIsALink) {
  const ScratchFolder folder;
  const ScratchFolder elsewhere;
  BookText().write(folder.path());
  const Book before = *read_book(folder.path(), 1);
  fs::create_symlink(elsewhere.path() / "letter", folder.path() / receiving_note);
  const Result<BookWithRows> with = book_with_rows(before, {rows_of(folder.path(), a_sample)}, a_day, 1);
  ASSERT_FALSE(with);
  EXPECT_EQ(to_text(with.faults().front()),
            ".driftwarden-receiving: error: this is a link, and what it leads to would be written over; delete it: "
            "receive makes a file of this name, and no link [receive/link]");
}

TEST(BookWithRows, WritesThemSoThatTheyCountTogether) {
  const ScratchFolder folder;
  BookText().write(folder.path());
  const Book before = *read_book(folder.path(), 1);
  const BookWithRows with =
      *book_with_rows(before, {rows_of(folder.path(), a_sample), rows_of(folder.path(), its_reading)}, a_day, 1);
  const std::vector<Receipt> receipts = receipts_of(with);
  EXPECT_TRUE(write_received(before, with, receipts, {}).empty());
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
  const Book before = *read_book(folder.path(), 1);
  const BookWithRows with = *book_with_rows(before, {rows_of(folder.path(), a_sample)}, a_day, 1);
  EXPECT_TRUE(write_received(before, with, receipts_of(with), {}).empty());
  EXPECT_EQ(names_being_received(folder.path()), (std::set<std::string>{left, with.files[0]}));
  const Book after = *read_book(folder.path(), 1);
  ASSERT_EQ(after.problems.size(), 1U);
  EXPECT_EQ(after.problems[0].id, "receive/unfinished");
}

// Of readings without a number there may be two alike in a minute; and what a run left that was ended is no file yet.
TEST(BookWithRows, LeavesAFileOfTheBookThatHasTheSameRowsAlone) {
  const ScratchFolder folder;
  BookText().write(folder.path());
  const std::vector<RowsReceived> rows{rows_of(folder.path(), a_sample)};
  fs::create_directory(folder.path() / "samples");
  std::ofstream(folder.path() / rows[0].name_on(a_day)) << "half a r";
  std::ofstream(folder.path() / receiving_note) << rows[0].name_on(a_day) << '\n';
  const Book before = *read_book(folder.path(), 1);
  const BookWithRows with = *book_with_rows(before, rows, a_day, 1);
  EXPECT_EQ(with.files[0], rows[0].name_on(a_day));
  EXPECT_EQ(with.book.samples.size(), 2U);
  ASSERT_TRUE(write_received(before, with, receipts_of(with), {}).empty());
  const BookWithRows again = *book_with_rows(*read_book(folder.path(), 1), rows, a_day, 1);
  EXPECT_EQ(again.files[0], rows[0].name_on(a_day + 1));
  EXPECT_EQ(again.book.samples.size(), 3U);
}

// Its receipt was cut out, and a reading struck out in it before: that must not be lost.
TEST(BookWithRows, LeavesAFileThatNoReceiptNamesAlone) {
  const ScratchFolder folder;
  BookText().write(folder.path());
  const std::vector<RowsReceived> rows{rows_of(folder.path(), a_sample)};
  fs::create_directory(folder.path() / "samples");
  std::ofstream(folder.path() / rows[0].name_on(a_day)) << "by hand";
  const Book before = *read_book(folder.path(), 1);
  EXPECT_EQ(book_with_rows(before, rows, a_day, 1)->files[0], rows[0].name_on(a_day + 1));
  std::ofstream(folder.path() / rows[0].name_on(a_day)) << rows[0].text();
  EXPECT_EQ(book_with_rows(before, rows, a_day, 1)->files[0], rows[0].name_on(a_day)) << "the same rows";
}

TEST(BookWithRows, SaysWhereAThingStoodInTheFileThatCame) {
  const ScratchFolder folder;
  BookText().write(folder.path());
  const BookWithRows with =
      *book_with_rows(*read_book(folder.path(), 1), {rows_of(folder.path(), "\n\n" + std::string(a_sample))}, a_day, 1);
  const std::string came = with.rows[0].came_as;
  EXPECT_EQ(to_text(with.as_it_came(Place{with.files[0], 2, 4})), came + ":4:4");
  EXPECT_EQ(to_text(with.as_it_came(Place{"samples.csv", 2, 4})), "samples.csv:2:4");
  EXPECT_EQ(with.as_it_came("see " + with.files[0] + ":2 and " + with.files[0]), "see " + came + ":4 and " + came);
}

// A folder stands where the receipts would be written.
TEST(BookWithRows, LeavesNothingBehindWhereItCannotBeFinished) {
  const ScratchFolder folder;
  BookText().write(folder.path());
  const Book before = *read_book(folder.path(), 1);
  const BookWithRows with = *book_with_rows(before, {rows_of(folder.path(), a_sample)}, a_day, 1);
  fs::create_directory(folder.path() / "received.csv");
  EXPECT_FALSE(write_received(before, with, receipts_of(with), {}).empty());
  EXPECT_FALSE(fs::exists(folder.path() / with.files[0]));
  EXPECT_FALSE(fs::exists(folder.path() / receiving_note));
}

// The first file is there by then; the second one's folder can't be.
TEST(BookWithRows, TakesTheFirstFileAwayWhereTheSecondCannotBeWritten) {
  const ScratchFolder folder;
  BookText().write(folder.path());
  const Book before = *read_book(folder.path(), 1);
  const BookWithRows with =
      *book_with_rows(before, {rows_of(folder.path(), a_sample), rows_of(folder.path(), its_reading)}, a_day, 1);
  std::ofstream(folder.path() / "readings") << "no folder";
  const Diagnostics faults = write_received(before, with, receipts_of(with), {});
  ASSERT_EQ(faults.size(), 1U);
  EXPECT_EQ(faults[0].id, "output/unwritable");
  EXPECT_TRUE(fs::is_empty(folder.path() / "samples"));
  EXPECT_FALSE(fs::exists(folder.path() / "received.csv"));
}

}  // namespace
}  // namespace driftwarden::book_with_rows_test
