// SPDX-License-Identifier: MIT
#include "workshop/book_parts.hpp"

#include <gtest/gtest.h>

#include <iterator>

#include "book/written_book.hpp"
#include "book/written_workbook.hpp"

namespace driftwarden::book_parts_test {
namespace {

WrittenBook& of_two_pumps(WrittenBook& book) {
  book.file("instruments.csv", "instrument,kind,principle\nP1,pump,\nP2,pump,\nV,calibrator,volumetric\n");
  book.file("samples.csv",
            "sample,kind,pump,started,stopped\r\n"
            "A,,P1,2026-05-01T08:00,2026-05-01T16:00\r\n"
            "B,,P2,2026-05-01T08:00,2026-05-01T16:00\r\n"
            "K,blank,,,\r\n"
            "\"C\",,P1,2026-05-02T08:00,2026-05-02T16:00");
  book.file("readings.csv",
            "taken,stage,sample,pump,calibrator,reading [L/min]\n"
            "2026-05-01T07:30,pre,B,,V,2.0\n"
            "2026-05-01T07:40,pre,,P1,V,2.1\n"
            "2026-05-01T17:00,post,B,,V,2.2\n");
  book.file("decisions.csv",
            "decided,by,subject,rule,ruling,reason\n2026-05-03T08:00,N. N.,B,own/drift,uphold,\"said,\nand done\"\n");
  return book;
}

std::string text_of(const std::filesystem::path& file) {
  std::ifstream in(file, std::ios::binary);
  return {std::istreambuf_iterator<char>(in), {}};
}

TEST(BookParts, KeepAllThatIsAboutOnePumpTogether) {
  WrittenBook written;
  const Book book = of_two_pumps(written).read();
  const BookShares shares = shares_of(book, 2);
  EXPECT_EQ(shares.samples, (std::vector<std::uint32_t>{0, 1, 0, 0}));
  EXPECT_EQ(shares.readings, (std::vector<std::uint32_t>{1, 0, 1}));
  EXPECT_EQ(shares.decisions, (std::vector<std::uint32_t>{1}));
}

// The blanks of a batch with results speak of all its samples, and so does the pump of one of another.
TEST(BookParts, KeepABatchWithResultsTogether) {
  WrittenBook written;
  written.file("instruments.csv", "instrument,kind,principle\nP1,pump,\nP2,pump,\nP3,pump,\nV,calibrator,volumetric\n");
  written.file("samples.csv",
               "sample,batch,kind,pump,started,stopped\n"
               "A,X,,P1,2026-05-01T08:00,2026-05-01T16:00\n"
               "B,Y,,P2,2026-05-01T08:00,2026-05-01T16:00\n"
               "C,Y,,P3,2026-05-01T08:00,2026-05-01T16:00\n"
               "K,Y,blank,,,\n"
               "L,X,blank,,,\n"
               "D,Z,,P3,2026-05-02T08:00,2026-05-02T16:00\n");
  written.file("results.csv", "sample,analyte,amount [mg]\nL,dust,0.01\nA,dust,1\nK,dust,0\nB,dust,2\n");
  const Book book = written.read();
  const BookShares shares = shares_of(book, 3);
  EXPECT_EQ(shares.samples, (std::vector<std::uint32_t>{0, 1, 1, 1, 0, 1}));
  EXPECT_EQ(shares.results, (std::vector<std::uint32_t>{0, 0, 1, 1}));
  const ScratchFolder out;
  const Result<std::uint32_t> parts = write_parts(book, shares, out.path());
  ASSERT_TRUE(parts) << told(parts.faults());
  EXPECT_EQ(text_of(out.path() / "part-2" / "results.csv"), "sample,analyte,amount [mg]\nK,dust,0\nB,dust,2\n");
  EXPECT_EQ(text_of(out.path() / "part-3" / "results.csv"), "sample,analyte,amount [mg]\n");
}

TEST(BookParts, KeepAControlFilterWithTheResultsOfItsBatch) {
  WrittenBook written;
  written.file("instruments.csv", "instrument,kind,principle\nP1,pump,\nP2,pump,\nV,calibrator,volumetric\n");
  written.file("samples.csv",
               "sample,batch,kind,pump,started,stopped\n"
               "A,X,,P1,2026-05-01T08:00,2026-05-01T16:00\nB,Y,,P2,2026-05-01T08:00,2026-05-01T16:00\n");
  const std::string heading = "sample,analyte,before [mg],after [mg],kind,batch\n";
  written.file("results.csv",
               heading + "CF-1,dust,15,16,control,Y\nB,dust,15,16,,\nCF-2,dust,15,16,control,X\nA,dust,15,16,,\n");
  const Book book = written.read();
  const BookShares shares = shares_of(book, 2);
  EXPECT_EQ(shares.results, (std::vector<std::uint32_t>{1, 1, 0, 0}));
  const ScratchFolder out;
  ASSERT_TRUE(write_parts(book, shares, out.path()));
  EXPECT_EQ(text_of(out.path() / "part-2" / "results.csv"), heading + "CF-1,dust,15,16,control,Y\nB,dust,15,16,,\n");
}

TEST(BookParts, AreBooksWithTheRowsByteForByteAndInOrder) {
  WrittenBook written;
  const Book book = of_two_pumps(written).read();
  const ScratchFolder out;
  const Result<std::uint32_t> parts = write_parts(book, shares_of(book, 2), out.path());
  ASSERT_TRUE(parts) << told(parts.faults());
  EXPECT_EQ(text_of(out.path() / "part-1" / "samples.csv"),
            "sample,kind,pump,started,stopped\r\n"
            "A,,P1,2026-05-01T08:00,2026-05-01T16:00\r\n"
            "K,blank,,,\r\n"
            "\"C\",,P1,2026-05-02T08:00,2026-05-02T16:00\n");
  EXPECT_EQ(text_of(out.path() / "part-2" / "readings.csv"),
            "taken,stage,sample,pump,calibrator,reading [L/min]\n"
            "2026-05-01T07:30,pre,B,,V,2.0\n"
            "2026-05-01T17:00,post,B,,V,2.2\n");
  EXPECT_EQ(text_of(out.path() / "part-1" / "decisions.csv"), "decided,by,subject,rule,ruling,reason\n");
  EXPECT_EQ(text_of(out.path() / "part-2" / "instruments.csv"), text_of(book.folder / "instruments.csv"));
  EXPECT_EQ(text_of(out.path() / "part-2" / "book.toml"), book.settings_text);
  const Result<Book> second = read_book(out.path() / "part-2", 1);
  ASSERT_TRUE(second);
  EXPECT_EQ(told(second->problems), "");
  EXPECT_EQ(second->samples.size(), 1U);
}

TEST(BookParts, AreOfTheRowsThatWereReadWhateverWasAddedSince) {
  WrittenBook written;
  const Book book = of_two_pumps(written).read();
  const std::string before = text_of(book.folder / "readings.csv");
  std::string more = before;
  for (int i = 0; i < 1000; ++i) more += "2026-05-01T17:00,post,B,,V,2.2\n";
  written.file("readings.csv", more);
  const ScratchFolder out;
  ASSERT_TRUE(write_parts(book, shares_of(book, 1), out.path()));
  EXPECT_EQ(text_of(out.path() / "part-1" / "readings.csv"), before);
  written.file("readings.csv", std::string(before.size(), '\n'));
  const ScratchFolder other;
  EXPECT_NE(told(write_parts(book, shares_of(book, 1), other.path()).faults()).find("[file/changed]"),
            std::string::npos);
}

TEST(BookParts, TakeTheServicesOfTheirInstruments) {
  WrittenBook written;
  const std::string services = "serviced,instrument,what\n2026-04-01T08:00,P1,cleaned\n";
  const Book book = of_two_pumps(written).file("service.csv", services).read();
  const ScratchFolder out;
  ASSERT_TRUE(write_parts(book, shares_of(book, 2), out.path()));
  EXPECT_EQ(text_of(out.path() / "part-2" / "service.csv"), services);
}

TEST(BookParts, TakeTheRulePacksOfTheHouseWithThem) {
  WrittenBook written;
  written.file("book.toml", "time_zone = \"UTC\"\n[rules]\npacks = [\"rules/own.toml\"]\n")
      .file("rules/own.toml", "text");
  const Book book = written.read();
  const ScratchFolder out;
  ASSERT_TRUE(write_parts(book, shares_of(book, 1), out.path()));
  EXPECT_EQ(text_of(out.path() / "part-1" / "rules" / "own.toml"), "text");
}

TEST(BookParts, TakeTheServiceOfTheInstrumentsWithThem) {
  WrittenBook written;
  const std::string service = "serviced,instrument,what\n2026-04-01T09:00,P1,new battery\n";
  const Book book = of_two_pumps(written).file("service.csv", service).read();
  const ScratchFolder out;
  ASSERT_TRUE(write_parts(book, shares_of(book, 2), out.path()));
  for (const char* part : {"part-1", "part-2"}) EXPECT_EQ(text_of(out.path() / part / "service.csv"), service);
}

TEST(BookParts, RefuseAPackThatLiesOutsideOfTheBook) {
  WrittenBook written;
  written.file("book.toml", "time_zone = \"UTC\"\n[rules]\npacks = [\"../own.toml\"]\n");
  const Book book = written.read();
  const ScratchFolder out;
  EXPECT_EQ(
      told(write_parts(book, shares_of(book, 1), out.path()).faults()),
      "book.toml: error: the rule pack '../own.toml' lies outside of the book; copy it into the book's folder, or "
      "name it by its whole path [parts/pack-outside]\n");
}

// Sheets of these names, with these cells in one row.
std::string workbook(const std::vector<std::pair<std::string, std::vector<std::string>>>& sheets) {
  std::string tables;
  for (const auto& [name, cells] : sheets) {
    tables += "<table:table table:name=\"" + name + "\"><table:table-row>";
    for (const std::string& cell : cells)
      tables += "<table:table-cell office:value-type=\"string\"><text:p>" + cell + "</text:p></table:table-cell>";
    tables += "</table:table-row></table:table>";
  }
  return ods(tables);
}

TEST(BookParts, HaveAWorkbookOfCommonTablesOnceAndWhole) {
  WrittenBook written;
  const std::string common = workbook(
      {{"certificates", {"certificate", "instrument", "calibrated"}}, {"service", {"serviced", "instrument", "what"}}});
  of_two_pumps(written).file("book.ods", common);
  const Book book = written.read();
  const ScratchFolder out;
  const Result<std::uint32_t> parts = write_parts(book, shares_of(book, 2), out.path());
  ASSERT_TRUE(parts) << told(parts.faults());
  EXPECT_EQ(text_of(out.path() / "part-2" / "book.ods"), common);
}

TEST(BookParts, RefuseRowsOfAWorkbook) {
  WrittenBook written;
  of_two_pumps(written).file("readings/W46.ods",
                             workbook({{"a", {"taken", "stage", "calibrator", "reading [L/min]"}}}));
  const Book book = written.read();
  const ScratchFolder out;
  EXPECT_EQ(
      told(write_parts(book, shares_of(book, 2), out.path()).faults()),
      "readings/W46.ods:a: error: the rows of a workbook can't be dealt out to parts; save the sheet as CSV, and take "
      "the workbook out of the folder [parts/workbook]\n");
}

TEST(BookParts, RefuseAFolderThatCannotBeWritten) {
  WrittenBook written;
  const Book book = written.read();
  const std::string faults = told(write_parts(book, shares_of(book, 1), "/dev/null/parts").faults());
  EXPECT_EQ(faults,
            "/dev/null/parts/part-1/book.toml: error: the results could not be written: Not a directory; check the "
            "folder, its rights and the room on the disk [output/unwritable]\n");
}

}  // namespace
}  // namespace driftwarden::book_parts_test
