// SPDX-License-Identifier: MIT
#include "book/book_folder.hpp"

#include <gtest/gtest.h>

#include "book/book_table.hpp"
#include "book/own_page.hpp"
#include "book/written_book.hpp"
#include "book/written_workbook.hpp"

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
  book.file("notes.txt", "").file("reading.csv", "").file("own.toml", "").file("samples.xls", "");
  book.file("readings/week.csv", "").file("readings/week.txt", "").file("readings/week.xlsb", "");
  EXPECT_EQ(
      not_read(book),
      "notes.txt: remark: is not read: no table has this name; " + ignore +
          "own.toml: remark: is not read: it is not among the rule packs of book.toml; name it there under [rules] "
          "packs, or " +
          ignore +
          "reading.csv: remark: is not read: no table has this name; call it 'readings.csv' if it is that, or " +
          ignore + "readings/week.txt: remark: is not read: only files ending in .csv, .xlsx or .ods are; " + ignore +
          "readings/week.xlsb: remark: is not read: only files ending in .csv, .xlsx or .ods are; save it as .xlsx, "
          "or " +
          ignore +
          "samples.xls: remark: is not read: only files ending in .csv, .xlsx or .ods are; save it as .xlsx, or " +
          ignore);
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

// A sheet with a heading; the sheets of a workbook, by name.
std::string sheets(const std::vector<std::string>& names) {
  std::string tables;
  for (const std::string& name : names)
    tables += "<table:table table:name=\"" + name +
              "\"><table:table-row><table:table-cell "
              "office:value-type=\"string\"><text:p>a</text:p></table:table-cell></table:table-row></table:table>";
  return ods(tables);
}
std::string lost(const BookFolder& found) {
  std::string text;
  for (const LostFile& one : found.lost) text += to_text(one.fault) + '\n';
  return text;
}

TEST(BookFolder, TakesTheOneSheetOfAWorkbook) {
  WrittenBook book;
  book.file("readings/W46.xlsx", xlsx("<row><c><v>1</v></c></row>"))
      .without("samples.csv")
      .file("samples.ods", sheets({"x"}));
  const BookFolder found = look_into(book.folder(), {});
  EXPECT_EQ(found.files.readings, (std::vector<std::string>{"readings.csv", "readings/W46.xlsx:week 46"}));
  EXPECT_EQ(found.files.samples, (std::vector<std::string>{"samples.ods:x"}));
  EXPECT_EQ(told(found.not_read) + lost(found), "");
}

TEST(BookFolder, TakesTheSheetThatBearsTheTablesName) {
  WrittenBook book;
  book.file("readings/W46.ods", sheets({"Notes", "Readings"}));
  const BookFolder found = look_into(book.folder(), {});
  EXPECT_EQ(found.files.readings.back(), "readings/W46.ods:Readings");
  EXPECT_EQ(told(found.not_read),
            "readings/W46.ods: remark: sheets that are not read: 'Notes'; the table is read from the sheet 'Readings' "
            "[workbook/sheet-not-read]\n");
}

TEST(BookFolder, DoesNotGuessAmongSheets) {
  WrittenBook book;
  book.file("readings/W46.ods", sheets({"a", "b"})).file("readings/W47.ods", ods("<table:table table:name=\"a\"/>"));
  EXPECT_EQ(
      lost(look_into(book.folder(), {})),
      "readings/W46.ods: error: it has more than one sheet with something in it: 'a', 'b'; call the one that is the "
      "table 'readings', or say sheet = … in book.toml under [files.\"readings/W46.ods\"] [workbook/which-sheet]\n"
      "readings/W47.ods: error: no sheet that is shown has anything in it; call the one that is the table "
      "'readings', or say sheet = … in book.toml under [files.\"readings/W47.ods\"] [workbook/which-sheet]\n");
}

TEST(BookFolder, TakesTheTablesOfOneWorkbook) {
  WrittenBook book;
  book.without("samples.csv").without("instruments.csv").file("book.ods", sheets({"Instruments", "samples", "Rota"}));
  const BookFolder found = look_into(book.folder(), {});
  EXPECT_EQ(found.files.instruments, (std::vector<std::string>{"book.ods:Instruments"}));
  EXPECT_EQ(found.files.samples, (std::vector<std::string>{"book.ods:samples"}));
  EXPECT_EQ(told(found.not_read),
            "book.ods: remark: sheets that are not read: 'Rota'; no table has such a name [workbook/sheet-not-read]\n");
}

TEST(BookFolder, RefusesOneStemInTwoFormats) {
  WrittenBook book;
  book.file("readings/W46.csv", "").file("readings/W46.xlsx", "").file("book.ods", sheets({"samples"}));
  const BookFolder found = look_into(book.folder(), {});
  EXPECT_EQ(
      lost(found),
      "samples.csv: error: 'samples.csv' and 'book.ods:samples' are the same file of the table samples twice; keep one "
      "of them in the book's folder [file/two-formats]\n"
      "readings/W46.csv: error: 'readings/W46.csv' and 'readings/W46.xlsx' are the same file of the table readings "
      "twice; keep one of them in the book's folder [file/two-formats]\n");
  EXPECT_EQ(found.refused.size(), 4U);
}

TEST(BookFolder, KeepsAWorkbookThatCantBeReadAmongTheFiles) {
  WrittenBook book;
  book.file("readings/W46.xlsx", "no workbook").file("book.xlsx", "");
  const BookFolder found = look_into(book.folder(), {});
  EXPECT_EQ(found.files.readings, (std::vector<std::string>{"book.xlsx", "readings.csv", "readings/W46.xlsx"}));
  ASSERT_EQ(found.lost.size(), 2U);
  EXPECT_EQ(found.lost[0].tables.size(), book_tables().size());
  EXPECT_EQ(found.lost[1].tables, (std::vector<std::string_view>{"readings"}));
}

}  // namespace
}  // namespace driftwarden::book_folder_test
