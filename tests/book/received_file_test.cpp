// SPDX-License-Identifier: MIT
#include <gtest/gtest.h>

#include <algorithm>

#include "book/table_files.hpp"
#include "book/written_book.hpp"
#include "book/written_workbook.hpp"

namespace driftwarden::received_file_test {
namespace {

constexpr const char* a_receipt =
    "received,by,file,rows,form,from,sha256\n"
    "2026-05-02T09:00,the keeper,readings/received-2026-05-02-0123456789ab.csv,2,B1/2026-05-01/00ff,rows.csv,"
    "00aa00aa00aa00aa00aa00aa00aa00aa00aa00aa00aa00aa00aa00aa00aa00aa\n";
constexpr const char* a_reading =
    "taken,stage,sample,calibrator,reading [L/min]\n2026-05-01T07:30,pre,S-1,VOL-1,2.000\n";

TEST(ReceivedFile, FillsEveryField) {
  const Book book = WrittenBook()
                        .file("received.csv", a_receipt)
                        .file("readings/received-2026-05-02-0123456789ab.csv", a_reading)
                        .read();
  ASSERT_EQ(book.receipts.size(), 1U);
  const Receipt& it = book.receipts[0];
  EXPECT_EQ(it.by, "the keeper");
  EXPECT_EQ(it.file, "readings/received-2026-05-02-0123456789ab.csv");
  EXPECT_EQ(it.rows, "2");
  EXPECT_EQ(it.form, "B1/2026-05-01/00ff");
  EXPECT_EQ(it.from, "rows.csv");
  EXPECT_EQ(it.sha256.substr(60), "00aa");
  EXPECT_EQ(cells_of(it, TimeZone::utc())[0], "2026-05-02T09:00+00:00");
}

TEST(ReceivedFile, MakesTheFilesThatItNamesCount) {
  const Book book = WrittenBook()
                        .file("received.csv", a_receipt)
                        .file("readings/received-2026-05-02-0123456789ab.csv", a_reading)
                        .read();
  EXPECT_EQ(told(book.problems), "");
  EXPECT_EQ(book.readings.size(), 1U);
}

// What a run left that was killed before it had written its receipt.
TEST(ReceivedFile, LeavesOutWhatWasNotReceivedToTheEnd) {
  const Book book = WrittenBook()
                        .file("readings/received-2026-05-02-0123456789ab.csv", a_reading)
                        .file(".driftwarden-receiving", "readings/received-2026-05-02-0123456789ab.csv\n")
                        .read();
  EXPECT_EQ(book.readings.size(), 0U);
  EXPECT_EQ(told(book.problems),
            "readings/received-2026-05-02-0123456789ab.csv: remark: it is not in received.csv: receiving it was not "
            "finished, and it is not read; receive its rows again, or take it out of the folder "
            "[receive/unfinished]\n");
  EXPECT_EQ(book.lost_readings, no_problem);
}

// Its line was taken out, or all of received.csv: samples would be judged as if the readings had never been.
TEST(ReceivedFile, MissesTheReceiptOfAFileThatNoRunWasAtWorkOn) {
  const Book book = WrittenBook()
                        .file("readings/received-2026-05-02-0123456789ab.csv", a_reading)
                        .file("received.csv", "received,by,file\n2026-05-02T09:00,the keeper,readings/rec\n")
                        .read();
  EXPECT_EQ(book.readings.size(), 0U);
  EXPECT_NE(
      told(book.problems)
          .find("readings/received-2026-05-02-0123456789ab.csv: error: rows were received into it, and it is in "
                "received.csv no more: it is not read; put its line in received.csv back; or, if its rows are not to "
                "count any more, take the file out of the folder [receive/not-named]\n"),
      std::string::npos)
      << told(book.problems);
  EXPECT_NE(book.lost_readings, no_problem);
}

// Else a sample would be judged as if its readings had never been.
TEST(ReceivedFile, MissesAFileThatIsGone) {
  const Book book = WrittenBook().file("received.csv", a_receipt).read();
  EXPECT_EQ(told(book.problems),
            "received.csv:2:29: error: the file 'readings/received-2026-05-02-0123456789ab.csv' with rows that were "
            "received is not there; put it back; or take this line out if its rows are not to count any more "
            "[receive/file-gone]\n");
  EXPECT_NE(book.lost_readings, no_problem);
  EXPECT_TRUE(book.receipts.empty());  // the same rows may come again
}

TEST(ReceivedFile, DoubtsADigestThatIsNone) {
  std::string short_one(a_receipt);
  short_one.replace(short_one.size() - 3, 2, "");
  const Book book = WrittenBook()
                        .file("received.csv", short_one)
                        .file("readings/received-2026-05-02-0123456789ab.csv", a_reading)
                        .read();
  const std::string problems = told(book.problems);
  EXPECT_TRUE(problems.starts_with("received.csv:2:105: remark: '00aa")) << problems;
  EXPECT_NE(problems.find("' is no SHA-256 of a file; it has 64 digits, 0 to 9 and a to f"), std::string::npos);
  EXPECT_EQ(book.receipts.size(), 1U);
}

TEST(ReceivedFile, MayBeKeptInAWorkbook) {
  const auto cells = [](const std::string& line) {
    std::string row;
    for (std::size_t from = 0; from <= line.size();) {
      const std::size_t to = std::min(line.find(',', from), line.size());
      row += "<c t=\"inlineStr\"><is><t>" + line.substr(from, to - from) + "</t></is></c>";
      from = to + 1;
    }
    return "<row>" + row + "</row>";
  };
  const std::string_view receipt(a_receipt);
  const std::size_t end = receipt.find('\n');
  const Book book =
      WrittenBook()
          .file("received.xlsx", xlsx(cells(std::string(receipt.substr(0, end))) +
                                      cells(std::string(receipt.substr(end + 1, receipt.size() - end - 2)))))
          .file("readings/received-2026-05-02-0123456789ab.csv", a_reading)
          .read();
  EXPECT_EQ(told(book.problems), "");
  EXPECT_EQ(book.readings.size(), 1U);
}

TEST(ReceivedFile, IsAskedForFilesOfItsOwnNamesOnly) {
  const Book book = WrittenBook().file("readings/week-18.csv", a_reading).read();
  EXPECT_EQ(book.readings.size(), 1U);
}

}  // namespace
}  // namespace driftwarden::received_file_test
