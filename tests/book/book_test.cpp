// SPDX-License-Identifier: MIT
#include "book/book.hpp"

#include <gtest/gtest.h>

#include "book/book_table.hpp"
#include "book/whole_book.hpp"
#include "book/written_workbook.hpp"

namespace driftwarden::book_test {
namespace {

std::string fault(const std::filesystem::path& folder) {
  const Result<Book> book = read_book(folder, 1);
  return book ? "none" : told(book.faults());
}

TEST(Book, IsReadWhole) {
  const Book book =
      WrittenBook()
          .file("book.toml", "title = \"Fold tunnel\"\ntime_zone = \"America/Denver\"\n")
          .file("certificates.csv",
                "certificate,instrument,calibrated,nominal [L/min],reference [L/min]\nK-1,VOL-1,2026-01-05,2,2\n")
          .file("readings.csv", "taken,stage,sample,calibrator,reading [L/min]\n2026-05-01T07:50,pre,S-1,VOL-1,2.0\n")
          .file("decisions.csv", "decided,by,subject,rule,ruling,reason\n2026-05-02T09:00,h,S-1,a/b,uphold,yes\n")
          .read();
  EXPECT_EQ(told(book.problems), "");
  EXPECT_EQ(book.settings.title, "Fold tunnel");
  EXPECT_EQ(book.settings_text, "title = \"Fold tunnel\"\ntime_zone = \"America/Denver\"\n");
  EXPECT_EQ(book.instruments.size(), 2U);
  EXPECT_EQ(book.certificates.size(), 1U);
  EXPECT_EQ(book.samples.size(), 1U);
  EXPECT_EQ(book.readings.size(), 1U);
  EXPECT_EQ(book.decisions.size(), 1U);
  EXPECT_EQ(book.samples.started[0], 1777622400 + 6 * 3600) << "local time of the book's zone";
  EXPECT_EQ(book.lost_readings, no_problem);
}

TEST(Book, TakesTheFilesOfATableInOrderOfTheirNames) {
  const std::string heading = "taken,stage,sample,calibrator,reading [L/min]\n";
  const auto row = [](const std::string& flow) { return "2026-05-01T07:50,pre,S-1,VOL-1," + flow + "\n"; };
  const Book book = WrittenBook()
                        .file("readings/b.csv", heading + row("3"))
                        .file("readings/a.csv", heading + row("2"))
                        .file("readings/C.CSV", heading + row("1.5"))
                        .file("readings/notes.txt", "not a table")
                        .file("readings/old/d.csv", heading + row("9"))
                        .file("readings.csv", heading + row("1"))
                        .read();
  EXPECT_EQ(
      told(book.problems),
      "readings/notes.txt: remark: is not read: only files ending in .csv, .xlsx or .ods are; name it in book.toml "
      "under [files] "
      "ignore if it need not be read [file/not-read]\n"
      "readings/old: remark: is not read: no table takes this folder; name it in book.toml under [files] ignore if "
      "it need not be read [file/not-read]\n");
  EXPECT_EQ(book.files.readings,
            (std::vector<std::string>{"readings.csv", "readings/C.CSV", "readings/a.csv", "readings/b.csv"}));
  const ReadingTable& t = book.readings;
  std::vector<double> indicated_l_min;
  for (Row at = 0; at < t.size(); ++at) indicated_l_min.push_back(t.indicated_l_min[at]);
  EXPECT_EQ(indicated_l_min, (std::vector<double>{1, 1.5, 2, 3}));
}

TEST(Book, LetsEachFileHaveItsOwnSeparatorUnitsAndOrder) {
  const Book book = WrittenBook()
                        .file("readings/a.csv",
                              "\xEF\xBB\xBFreading [cc/min];calibrator;sample;stage;taken\r\n"
                              "2000;VOL-1;S-1;pre;2026-05-01T07:50\r\n")
                        .file("readings/b.csv",
                              "stage\ttaken\treading [m3/h]\tsample\tcalibrator\n"
                              "post\t2026-05-01T16:10\t0.12\tS-1\tVOL-1")
                        .read();
  EXPECT_EQ(told(book.problems), "");
  EXPECT_EQ(book.readings.indicated_l_min[0], 2.0);
  EXPECT_EQ(book.readings.indicated_l_min[1], 2.0);
  EXPECT_EQ(book.readings.stage[1], Stage::post);
}

TEST(Book, TakesTheOwnersHeadingsDatesAndDecimalSign) {
  const Book book =
      WrittenBook()
          .file("book.toml",
                "time_zone = \"UTC\"\ndecimal = \",\"\ndates = \"day first\"\n[headings.readings]\n"
                "\"Flow LPM\" = \"reading [L/min]\"\nWhen = \"taken\"\n[headings.samples]\n"
                "Cassette = \"sample\"\n")
          .file("samples.csv", "cassette;pump;started;stopped\nS-1;PUMP-1;1/5/2026 8:00;1/5/2026 16:00\n")
          .file("readings.csv", "WHEN;stage;sample;calibrator;flow lpm\n1/5/2026 7:50;pre;S-1;VOL-1;1,95\n")
          .read();
  EXPECT_EQ(told(book.problems), "");
  EXPECT_EQ(book.readings.indicated_l_min[0], 1.95);
  EXPECT_EQ(book.readings.taken[0], 1777622400 - 600);
}

TEST(Book, TellsOnceOfAnOwnersHeadingThatLeadsNowhere) {
  const std::string heading = "taken,stage,sample,calibrator,reading [L/min]\n";
  EXPECT_EQ(WrittenBook()
                .file("book.toml", "time_zone = \"UTC\"\n[headings.readings]\n\"Flow LPM\" = \"readng [L/min]\"\n")
                .file("readings/a.csv", heading)
                .file("readings/b.csv", heading)
                .faults(),
            "book.toml:3:14: error: 'readng [L/min]' is no column of readings; did you mean 'reading'? "
            "[heading/unknown-target]\n");
}

TEST(Book, NeedsAFolder) {
  ScratchFolder scratch;
  EXPECT_EQ(fault(scratch.path() / "none"),
            (scratch.path() / "none").string() +
                ": error: there is no such folder; name the folder that holds book.toml "
                "[book/no-folder]\n");
}

TEST(Book, IsAFolderAndNotItsSettings) {
  const WrittenBook book;
  const std::filesystem::path settings = book.folder() / "book.toml";
  EXPECT_EQ(fault(settings), settings.string() +
                                 ": error: this is a file and not a folder; name the folder that holds "
                                 "book.toml [book/no-folder]\n");
}

TEST(Book, NeedsItsSettings) {
  WrittenBook book;
  book.without("book.toml");
  EXPECT_EQ(fault(book.folder()),
            (book.folder() / "book.toml").string() +
                ": error: the folder has no book.toml that can be read; 'driftwarden new' writes a "
                "sound one [book/no-settings]\n");
  book.file("book.toml", "time_zone = UTC\n");
  EXPECT_NE(fault(book.folder()).find("book.toml:1:13: error: "), std::string::npos) << fault(book.folder());
}

TEST(Book, NeedsInstrumentsSamplesAndReadings) {
  const Book book = WrittenBook().without("instruments.csv").without("samples.csv").without("readings.csv").read();
  EXPECT_EQ(told(book.problems),
            "instruments.csv: error: the book has no instruments.csv; add it; 'driftwarden new' shows its columns "
            "[book/no-table]\n"
            "readings.csv: error: the book has no readings.csv; add it; 'driftwarden new' shows its columns "
            "[book/no-table]\n"
            "samples.csv: error: the book has no samples.csv; add it; 'driftwarden new' shows its columns "
            "[book/no-table]\n");
  EXPECT_EQ(problem_text(book, book.lost_readings), to_text(book.problems[1]));
}

TEST(Book, NamesAFileThatCannotBeRead) {
  WrittenBook book;
  std::filesystem::create_symlink("nowhere.csv", book.folder() / "certificates.csv");
  std::filesystem::create_directories(book.folder() / "readings" / "week.csv");
  EXPECT_EQ(book.faults(),
            "certificates.csv: error: can't be read: No such file or directory; check that it is there and may be read "
            "[file/unreadable]\n"
            "readings/week.csv: error: can't be read: Is a directory; check that it is there and may be read "
            "[file/unreadable]\n");
}

// Reads a book while `meddle` is done to it once, as soon as its samples are being read.
Result<Book> read_meddled(const WrittenBook& book, const std::function<void()>& meddle,
                          const std::string& while_doing = "reading samples") {
  bool is_done = false;
  return read_book(book.folder(), 1, [&](std::string_view work, std::size_t, std::size_t) {
    if (!is_done && work == while_doing) is_done = true, meddle();
  });
}

const std::string change_told = ": error: the file changed while the book was read: ";
const std::string change_hint = "; run it again when nobody writes to it [file/changed]\n";

TEST(Book, LeavesRowsForAnotherRunThatAreAddedMeanwhile) {
  WrittenBook book;
  const std::string heading = "taken,stage,sample,calibrator,reading [L/min]\n";
  const std::string row = "2026-05-01T07:50,pre,S-1,VOL-1,2.0\n";
  book.file("readings.csv", heading + row);
  for (const std::string while_doing : {"reading samples", "reading readings"}) {
    book.file("readings.csv", heading + row);
    const Result<Book> read = read_meddled(
        book, [&] { book.file("readings.csv", heading + row + row); }, while_doing);
    ASSERT_TRUE(read) << told(read.faults());
    EXPECT_EQ(read->readings.size(), 1U);
    EXPECT_EQ(
        told(read->problems),
        "readings.csv: remark: rows were added while the book was read; they are not in this run; run it again to "
        "have them, too [file/grown]\n");
  }
}

TEST(Book, IsNotReadWhereAFileChangesUnderIt) {
  WrittenBook book;
  const auto fault = [&](const std::function<void()>& meddle) {
    book.file("readings.csv", "taken,stage,sample,calibrator,reading [L/min]\n2026-05-01T07:50,pre,S-1,VOL-1,2.0\n");
    const Result<Book> read = read_meddled(book, meddle);
    return read ? "" : told(read.faults());
  };
  EXPECT_EQ(fault([] {}), "");
  const auto readings = book.folder() / "readings.csv";
  EXPECT_EQ(fault([&] { std::filesystem::resize_file(readings, 60); }),
            "readings.csv" + change_told + "it became shorter" + change_hint);
  EXPECT_EQ(fault([&] { std::filesystem::remove(readings); }),
            "readings.csv" + change_told + "it is gone" + change_hint);
  EXPECT_EQ(fault([&] {
              book.file("readings.csv",
                        "taken,stage,sample,calibrator,reading [L/min]\n2026-05-01T07:50,pre,S-1,VOL-1,2.1\n");
            }),
            "readings.csv" + change_told + "it was written to" + change_hint);
  EXPECT_EQ(fault([&] { book.file("book.toml", "time_zone = \"UTC\"\n# more\n"); }),
            "book.toml" + change_told + "it was written to" + change_hint);
}

// Longer than one block, so that the rest is still to be read when the file is cut.
TEST(Book, IsNotReadWhereAFileIsCutWhileItIsRead) {
  WrittenBook book;
  std::string rows = "taken,stage,sample,calibrator,reading [L/min]\n";
  while (rows.size() < 4 * print_piece) rows += "2026-05-01T07:50,pre,S-1,VOL-1,2.0\n";
  book.file("readings.csv", rows);
  const Result<Book> read = read_meddled(
      book, [&] { std::filesystem::resize_file(book.folder() / "readings.csv", 50); }, "reading readings");
  ASSERT_FALSE(read);
  EXPECT_EQ(told(read.faults()), "readings.csv" + change_told + "it became shorter" + change_hint);
}

TEST(Book, GivesItsFilesAgainAsTheyWereRead) {
  WrittenBook written;
  const Book book = written.read();
  const std::string before(read_again(book, "samples.csv")->bytes());
  written.file("samples.csv", before + "more\n");
  EXPECT_EQ(read_again(book, "samples.csv")->bytes(), before);
  written.file("samples.csv", std::string(before.size(), 'x'));
  EXPECT_EQ(told(read_again(book, "samples.csv").faults()),
            "samples.csv" + change_told + "other bytes stand in it than were read" + change_hint);
  EXPECT_TRUE(was_read(book, "book.toml"));
  EXPECT_FALSE(was_read(book, "own.toml"));
}

TEST(Book, KeepsTheRowsOfSoundFilesBesideOneThatIsNot) {
  const std::string heading = "taken,stage,sample,calibrator,reading [L/min]\n";
  const std::string row = "2026-05-01T07:50,pre,S-1,VOL-1,2.0\n";
  const Book book = WrittenBook()
                        .without("readings.csv")
                        .file("readings/a.csv", heading + row)
                        .file("readings/b.csv", "nothing\n" + row)
                        .file("readings/c.csv", heading + row)
                        .read();
  ASSERT_EQ(book.readings.size(), 2U);
  EXPECT_EQ(book.place_text(book.files.readings, book.readings.place[0]), "readings/a.csv:2");
  EXPECT_EQ(book.place_text(book.files.readings, book.readings.place[1]), "readings/c.csv:2");
}

TEST(Book, NumbersItsProblemsInOrderOfPlaceForEveryRecord) {
  const Book book =
      WrittenBook()
          .file("instruments.csv",
                "instrument,kind,principle,high [L/min]\nPUMP-1,pump,,\nVOL-1,calibrator,volumetric,x\n")
          .file("certificates.csv",
                "certificate,instrument,calibrated,nominal [L/min],reference [L/min]\nK-1,VOL-1,2026-01-05,2,y\n")
          .file("samples.csv", "sample,pump,started,stopped\nS-1,PUMP-1,8:00,2026-05-01T16:00\n")
          .file("readings.csv", "taken,stage,sample,calibrator,reading [L/min]\n2026-05-01T07:50,pre,S-1,VOL-1,z\n")
          .read();
  ASSERT_EQ(book.problems.size(), 4U) << told(book.problems);
  EXPECT_EQ(book.certificates[0].problem, 1U);
  EXPECT_EQ(book.instruments[1].problem, 2U);
  EXPECT_EQ(book.readings.problem.at(0), 3U);
  EXPECT_EQ(book.samples.problem[0], 4U);
  EXPECT_EQ(book.problems[0].place.file, "certificates.csv");
  EXPECT_EQ(book.problems[3].place.file, "samples.csv");
}

TEST(Book, KeepsItsTextsWhenItIsMoved) {
  Book first = WrittenBook()
                   .file("samples.csv",
                         "sample,pump,started,stopped,batch,note\nS-1,PUMP-1,2026-05-01T08:00,"
                         "2026-05-01T16:00,B,a note longer than any text that is kept in place\n")
                   .read();
  const std::string before = WholeBook(first).text();
  const Book second = std::move(first);
  EXPECT_EQ(WholeBook(second).text(), before);
  EXPECT_EQ(second.texts.find("B"), second.samples.batch[0]);
}

TEST(Book, ReadsFilesOfHeadingLinesAlone) {
  const Book book =
      WrittenBook()
          .file("instruments.csv", "instrument,kind")
          .file("certificates.csv", "certificate,instrument,calibrated,nominal [L/min],reference [L/min]\r\n")
          .file("samples.csv", "sample\n\n\n")
          .file("readings.csv", "taken,stage,sample,calibrator,reading [L/min]\n,,,,\n")
          .file("decisions.csv", "decided,by,subject,rule,ruling,reason")
          .read(3);
  EXPECT_EQ(told(book.problems), "");
  EXPECT_EQ(book.samples.size() + book.readings.size() + book.instruments.size(), 0U);
}

TEST(Book, ReadsWithAsManyThreadsAsItIsGivenAndAtLeastOne) {
  WrittenBook book;
  EXPECT_EQ(WholeBook(book.read(0)).text(), WholeBook(book.read(1)).text());
  EXPECT_EQ(WholeBook(book.read(64)).text(), WholeBook(book.read(1)).text());
}

// A text cell for a workbook's row.
std::string text_cell(const std::string& text) { return "<c t=\"str\"><v>" + text + "</v></c>"; }
std::string number_cell(const std::string& number, int style = 0) {
  return "<c s=\"" + std::to_string(style) + "\"><v>" + number + "</v></c>";
}
const std::string reading_headings = "<row r=\"2\">" + text_cell("taken") + text_cell("stage") + text_cell("sample") +
                                     text_cell("calibrator") + text_cell("reading [L/min]") +
                                     text_cell("humidity [%]") + text_cell("note") + "</row>";
std::string reading_row(int row, const std::string& taken, const std::string& figure, const std::string& note = "") {
  return "<row r=\"" + std::to_string(row) + "\">" + taken + text_cell("pre") + text_cell("S-1") + text_cell("VOL-1") +
         figure + number_cell("0.4", 1) + text_cell(note) + "</row>";
}
// 2026-05-01 is day 46143 from 1899-12-30 (computed with Python 3.11).
const std::string half_past_seven = number_cell("46143.3125", 2);

TEST(Book, ReadsWorkbooksAsTheirTwinsInCsv) {
  WrittenBook csv;
  csv.file("readings.csv",
           "taken,stage,sample,calibrator,reading [L/min],humidity [%],note\n"
           "2026-05-01T07:30,pre,S-1,VOL-1,2.001,40,\"two\nlines\"\n2026-05-01T07:30,pre,S-1,VOL-1,2.1,40,\n");
  WrittenBook workbook;
  workbook.without("readings.csv")
      .file("readings.xlsx",
            xlsx(reading_headings + reading_row(4, half_past_seven, number_cell("2.0009999999999999"), "two\nlines") +
                 reading_row(9, half_past_seven, number_cell("2.1"))));
  const Book of_csv = csv.read(), of_workbook = workbook.read();
  EXPECT_EQ(told(of_workbook.problems), "");
  ASSERT_EQ(of_workbook.readings.size(), 2U);
  for (Row row = 0; row < 2; ++row) {
    EXPECT_EQ(of_workbook.readings.taken[row], of_csv.readings.taken[row]);
    EXPECT_EQ(field(of_workbook.readings.indicated_l_min, row), field(of_csv.readings.indicated_l_min, row));
    EXPECT_EQ(field(of_workbook.readings.humidity, row), field(of_csv.readings.humidity, row));
    EXPECT_EQ(of_workbook.texts.text(of_workbook.readings.note[row]), of_csv.texts.text(of_csv.readings.note[row]));
  }
  EXPECT_EQ(of_workbook.place_text(of_workbook.files.readings, of_workbook.readings.place[1]),
            "readings.xlsx:week 46!9");
}

TEST(Book, TellsTheFaultyCellsOfAWorkbook) {
  WrittenBook book;
  book.without("readings.csv")
      .file("readings.xlsx", xlsx(reading_headings + reading_row(3, half_past_seven, "<c t=\"e\"><v>#N/A</v></c>") +
                                  reading_row(4, half_past_seven, "<c><f>E3</f></c>") +
                                  reading_row(5, number_cell("59", 2), number_cell("2")) +
                                  reading_row(6, number_cell("46143.3125"), number_cell("2")) +
                                  reading_row(7, half_past_seven, text_cell("two"))));
  EXPECT_EQ(
      book.faults(),
      "readings.xlsx:week 46!E3: error: the cell shows an error: '#N/A'; mend its formula, or write the figure itself "
      "[workbook/error-cell]\n"
      "readings.xlsx:week 46!E4: error: the result of the cell's formula is not in the file; open the workbook in a "
      "spreadsheet program and save it, or write the figure itself [workbook/not-worked-out]\n"
      "readings.xlsx:week 46!A5: error: the cell is shown as a date, but its number is no day from 1900-03-01 to "
      "9999-12-31; write the date anew [workbook/no-such-day]\n"
      "readings.xlsx:week 46!A6: error: '46143.3125' is not a date and time; if it is a spreadsheet's number for "
      "2026-05-01, give the cell the format of a date and time [time/not-a-time]\n"
      "readings.xlsx:week 46!E7: error: 'two' is not a number; write digits with '.' as decimal sign; the unit belongs "
      "in the heading [cell/not-a-number]\n");
}

TEST(Book, IsNotReadWhereAWorkbookChangesUnderIt) {
  WrittenBook book;
  const std::string before = xlsx(reading_headings + reading_row(3, half_past_seven, number_cell("2")));
  const std::string after = xlsx(reading_headings + reading_row(3, half_past_seven, number_cell("3")));
  ASSERT_EQ(before.size(), after.size());
  const auto fault = [&](const std::function<void()>& meddle, const std::string& while_doing) {
    book.without("readings.csv").file("readings.xlsx", before);
    const Result<Book> read = read_meddled(book, meddle, while_doing);
    return read ? "" : told(read.faults());
  };
  for (const std::string while_doing : {"reading samples", "reading readings"}) {
    EXPECT_EQ(fault([] {}, while_doing), "");
    EXPECT_EQ(fault([&] { book.file("readings.xlsx", after); }, while_doing),
              "readings.xlsx" + change_told + "other bytes stand in it" + change_hint);
    EXPECT_EQ(fault([&] { std::filesystem::remove(book.folder() / "readings.xlsx"); }, while_doing),
              "readings.xlsx" + change_told + "it is gone" + change_hint);
    EXPECT_EQ(fault([&] { std::filesystem::resize_file(book.folder() / "readings.xlsx", 99); }, while_doing),
              "readings.xlsx" + change_told + "it became shorter" + change_hint);
    EXPECT_NE(fault([&] { book.file("readings.xlsx", before + "more"); }, while_doing), "");
  }
}

TEST(Book, ReadsAWorkbookInABookWithDecimalCommas) {
  WrittenBook book;
  book.file("book.toml", "time_zone = \"UTC\"\ndecimal = \",\"\n").without("readings.csv");
  book.file("readings.xlsx", xlsx(reading_headings + reading_row(3, half_past_seven, number_cell("2.001")) +
                                  reading_row(4, half_past_seven, text_cell("2,002"))));
  EXPECT_EQ(book.faults(), "");
  EXPECT_EQ(field(book.read().readings.indicated_l_min, 1), 2.002);  // echo: what the cell holds
}

TEST(Book, LeavesNoReadingOutWithoutAWordWhereAWorkbookIsLost) {
  WrittenBook book;
  book.file("readings/W46.xlsx", "no workbook");
  const Book read = book.read();
  EXPECT_NE(read.lost_readings, no_problem);
  EXPECT_EQ(read.problems.at(read.lost_readings - 1).id, "workbook/unreadable");
  EXPECT_EQ(files_of(read), (std::vector<std::string>{"book.toml", "instruments.csv", "samples.csv", "readings.csv",
                                                      "readings/W46.xlsx"}));
}

TEST(Book, NamesTheFileOfSheetsOnce) {
  WrittenBook book;
  book.without("readings.csv").file("readings.xlsx", xlsx(reading_headings));
  const Book read = book.read();
  EXPECT_TRUE(was_read(read, "readings.xlsx"));
  EXPECT_TRUE(read_again(read, "readings.xlsx"));
  EXPECT_EQ(files_of(read).back(), "readings.xlsx");
}

}  // namespace
}  // namespace driftwarden::book_test
