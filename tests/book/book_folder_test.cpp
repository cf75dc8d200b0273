// SPDX-License-Identifier: MIT
#include "book/book_folder.hpp"

#include <gtest/gtest.h>

#include "book/written_book.hpp"
#include "driftwarden/book/own_page.hpp"

namespace driftwarden::book_folder_test {
namespace {

namespace fs = std::filesystem;

const std::string ignore = "name it in book.toml under [files] ignore if it need not be read [file/not-read]\n";

std::string not_read(const WrittenBook& book, const std::vector<std::string>& ignored = {},
                     const std::vector<std::string>& packs = {}) {
  Settings settings;
  settings.ignored_files = ignored;
  settings.packs = packs;
  return told(look_into(book.folder(), settings).not_read);
}

TEST(BookFolder, NamesEachFileThatNoTableTakesAndWhy) {
  WrittenBook book;
  book.file("notes.txt", "").file("reading.csv", "").file("own.toml", "").file("samples.xlsx", "");
  book.file("readings/week.csv", "").file("readings/week.txt", "").file("readings/week.ods", "");
  EXPECT_EQ(
      not_read(book),
      "notes.txt: remark: is not read: no table has this name; " + ignore +
          "own.toml: remark: is not read: it is not among the rule packs of book.toml; name it there under [rules] "
          "packs, or " +
          ignore +
          "reading.csv: remark: is not read: no table has this name; call it 'readings.csv' if it is that, or " +
          ignore +
          "readings/week.ods: remark: is not read: only files ending in .csv are; save it as CSV in UTF-8, or " +
          ignore + "readings/week.txt: remark: is not read: only files ending in .csv are; " + ignore +
          "samples.xlsx: remark: is not read: only files ending in .csv are; save it as CSV in UTF-8, or " + ignore);
}

TEST(BookFolder, NamesAFolderOnce) {
  WrittenBook book;
  book.file("photos/a.jpg", "").file("photos/b.jpg", "").file("readings/old/a.csv", "").file(".git/config", "");
  EXPECT_EQ(not_read(book), "photos: remark: is not read: no table takes this folder; " + ignore +
                                "readings/old: remark: is not read: no table takes this folder; " + ignore);
}

TEST(BookFolder, PassesOverWhatOfficeProgramsAndSystemsLeave) {
  WrittenBook book;
  for (const char* name : {"~$samples.xlsx", "._samples.csv", ".~lock.samples.csv#", ".DS_Store", "Thumbs.db",
                           ".gitignore", "readings/._week.csv", "readings/~$week.csv", "readings/.~lock.week.csv#"})
    book.file(name, "");
  book.file("readings/week.csv", "");
  EXPECT_EQ(not_read(book), "");
  EXPECT_EQ(look_into(book.folder(), {}).files.readings,
            (std::vector<std::string>{"readings.csv", "readings/week.csv"}));
}

TEST(BookFolder, PassesOverWhatTheOwnerIgnores) {
  WrittenBook book;
  book.file("README.md", "").file("planted.csv", "").file("photos/a.jpg", "").file("readings/a.txt", "");
  EXPECT_EQ(not_read(book, {"README.md", "planted*.csv", "photos", "*.txt"}), "");
  EXPECT_NE(not_read(book, {"README.md", "planted*.csv", "photos", "readings/*.md"}).find("readings/a.txt"),
            std::string::npos);
}

TEST(BookFolder, TakesTheRulePacksThatTheBookNames) {
  WrittenBook book;
  book.file("house.toml", "").file("rules/own.toml", "").file("rules/old.toml", "");
  EXPECT_EQ(not_read(book, {}, {"common-practice", "house.toml", "./rules/own.toml"}),
            "rules/old.toml: remark: is not read: it is not among the rule packs of book.toml; name it there under "
            "[rules] packs, or " +
                ignore);
}

TEST(BookFolder, PassesOverThePagesOfTheProgram) {
  WrittenBook book;
  book.file("review.html", "<!DOCTYPE html>\n" + std::string(html_mark)).file("other.html", "<!DOCTYPE html>\n");
  EXPECT_EQ(not_read(book), "other.html: remark: is not read: no table has this name; " + ignore);
}

TEST(BookFolder, TellsTwentyOfAFolderAndHowManyMore) {
  WrittenBook book;
  for (int i = 0; i < 25; ++i) book.file("readings/" + std::to_string(i) + ".txt", "");
  const std::string told_of = not_read(book);
  EXPECT_EQ(std::count(told_of.begin(), told_of.end(), '\n'), 21);
  EXPECT_NE(told_of.find("readings: remark: and 5 more here that no table takes; "), std::string::npos) << told_of;
}

// What is there by name and can't be read is told by opening it.
TEST(BookFolder, TakesATablesFolderThatLeadsNowhere) {
  WrittenBook book;
  book.without("readings.csv");
  fs::create_symlink("nowhere", book.folder() / "readings");
  EXPECT_EQ(look_into(book.folder(), {}).files.readings, std::vector<std::string>{"readings"});
  EXPECT_EQ(book.faults(),
            "readings: error: can't be read: No such file or directory; check that it is there and may be read "
            "[file/unreadable]\n");
}

TEST(BookFolder, TakesALinkToATablesFolder) {
  WrittenBook book;
  book.without("readings.csv").file("elsewhere/a.csv", "taken,stage,sample,calibrator,reading [L/min]\n");
  fs::create_symlink("elsewhere", book.folder() / "readings");
  EXPECT_EQ(look_into(book.folder(), {}).files.readings, std::vector<std::string>{"readings/a.csv"});
}

TEST(BookFolder, TakesNoFileForATablesFolder) {
  WrittenBook book;
  book.file("readings", "");
  EXPECT_EQ(
      not_read(book),
      "readings: remark: is not read: no table has this name; call it 'readings.csv' if it is that, or " + ignore);
}

TEST(BookFolder, HasTheStampsOfTheFilesThatAreThere) {
  WrittenBook book;
  fs::create_symlink("nowhere.csv", book.folder() / "service.csv");
  const BookFolder found = look_into(book.folder(), {});
  EXPECT_EQ(found.stamps.size(), 3U);
  EXPECT_EQ(found.stamps.at("samples.csv"), *stamp_of(book.folder() / "samples.csv"));
}

}  // namespace
}  // namespace driftwarden::book_folder_test
