// SPDX-License-Identifier: MIT
#include "book/row_blocks.hpp"

#include <gtest/gtest.h>

#include <array>
#include <atomic>
#include <fstream>
#include <map>
#include <mutex>
#include <new>
#include <random>
#include <string>

#include "book/scratch_folder.hpp"

namespace driftwarden::row_blocks_test {
namespace {

constexpr std::array<FieldSpec, 3> fields{{{0, "a"}, {1, "b"}, {2, "c"}}};
constexpr TableSpec spec{"readings", fields};

// What workers were given: by row number, the line and the first cell. Shared by all of them.
struct Seen {
  std::mutex mutex;
  std::map<Row, std::pair<std::uint32_t, std::string>> rows;
  bool gave_a_row_twice = false;
};

class Recorder {
 public:
  explicit Recorder(Seen& seen) : seen_(seen) {}
  void operator()(const CsvScanner& scanner, Row row, std::uint32_t line) {
    const std::scoped_lock lock(seen_.mutex);
    const bool is_new = seen_.rows.try_emplace(row, line, scanner.text(0)).second;
    seen_.gave_a_row_twice |= !is_new;
  }

 private:
  Seen& seen_;
};

class RowBlocksTest : public testing::Test {
 protected:
  void open(const std::string& text) {
    std::ofstream(scratch_.path() / "f.csv", std::ios::binary) << text;
    open_with_head(PiecedFile::usual_head);
    Diagnostics problems;
    layout_ = *read_layout({file_->bytes(), "f.csv"}, spec, {}, problems);
  }
  // With so much of it kept, the rest is read through windows.
  void open_with_head(std::size_t head_bytes) {
    const std::filesystem::path path = scratch_.path() / "f.csv";
    file_ = std::make_unique<PiecedFile>(*PiecedFile::open(path, "f.csv", *stamp_of(path), head_bytes));
  }
  // In blocks of so many bytes; the number of rows, or -1 where the file is to be read in order.
  int in_blocks(std::size_t block_bytes, std::size_t threads, Seen& seen) {
    std::vector<std::unique_ptr<Recorder>> workers;
    for (std::size_t t = 0; t < threads; ++t) workers.push_back(std::make_unique<Recorder>(seen));
    std::size_t rows = 0;
    if (!read_rows_in_blocks(
            *file_, layout_, 100, workers, rows, [](std::size_t) {}, block_bytes))
      return -1;
    return static_cast<int>(rows);
  }
  std::size_t in_order(Seen& seen) {
    Recorder recorder(seen);
    return read_rows_in_order(*file_, layout_, 0, 100, recorder, places_);
  }

  ScratchFolder scratch_;
  std::unique_ptr<PiecedFile> file_;
  TableLayout layout_;
  RowPlaces places_;
};

TEST_F(RowBlocksTest, ReadsTheSameRowsWhereverTheBlocksEnd) {
  // Rows of 6 to 25 bytes, so that they begin, end and straddle at every byte of a block.
  std::string text = "a,b,c\n";
  for (int i = 0; i < 40; ++i)
    text += std::to_string(i) + ',' + std::string(static_cast<std::size_t>(i * 7 % 20), 'x') + ",\r\n";
  for (const bool has_final_line_end : {true, false}) {
    if (!has_final_line_end) text.resize(text.size() - 2);
    open(text);
    Seen expected;
    ASSERT_EQ(in_order(expected), 40U);
    for (std::size_t block_bytes = 1; block_bytes < 80; block_bytes += block_bytes < 12 ? 1 : 5) {
      for (const std::size_t threads : {1U, 2U, 5U}) {
        open_with_head(threads == 2 ? 10 : PiecedFile::usual_head);
        Seen seen;
        ASSERT_EQ(in_blocks(block_bytes, threads, seen), 40) << block_bytes;
        ASSERT_EQ(seen.rows, expected.rows) << block_bytes;
        ASSERT_FALSE(seen.gave_a_row_twice);
      }
    }
  }
}

TEST_F(RowBlocksTest, ReadsRowsThatAreLongerThanSeveralBlocks) {
  open("a,b,c\n1,,\n2," + std::string(9000, 'x') + ",\n3,,\n");
  open_with_head(10);
  Seen seen;
  EXPECT_EQ(in_blocks(64, 3, seen), 3);
  EXPECT_EQ(seen.rows,
            (std::map<Row, std::pair<std::uint32_t, std::string>>{{100, {2, "1"}}, {101, {3, "2"}}, {102, {4, "3"}}}));
}

// A worker that has no memory left at its third row, whichever thread it is in.
struct Exhausted {
  explicit Exhausted(std::atomic<int>& seen) : rows(seen) {}
  void operator()(const CsvScanner&, Row, std::uint32_t) {
    if (++rows == 3) throw std::bad_alloc();
  }
  std::atomic<int>& rows;
};

TEST_F(RowBlocksTest, ThrowsOnWhatAWorkerOfAnyThreadThrows) {
  std::string text = "a,b,c\n";
  for (int i = 0; i < 200; ++i) text += std::to_string(i) + ",,\n";
  open(text);
  for (const std::size_t threads : {1U, 2U, 5U}) {
    std::atomic<int> seen{0};
    std::vector<std::unique_ptr<Exhausted>> workers;
    for (std::size_t t = 0; t < threads; ++t) workers.push_back(std::make_unique<Exhausted>(seen));
    std::size_t rows = 0;
    EXPECT_THROW(read_rows_in_blocks(
                     *file_, layout_, 0, workers, rows, [](std::size_t) {}, 16),
                 std::bad_alloc)
        << threads;
  }
}

TEST_F(RowBlocksTest, FindsNoRowsBehindAHeadingLine) {
  for (const std::string text : {"a,b,c", "a,b,c\n"}) {
    open(text);
    Seen seen;
    EXPECT_EQ(in_blocks(16, 2, seen), 0);
    EXPECT_EQ(in_order(seen), 0U);
    EXPECT_TRUE(seen.rows.empty());
  }
}

TEST_F(RowBlocksTest, CountsLinesOnFromAHeadingOfSeveral) {
  open("a,\"b\n\nb\",c\n1,,\n2,,");
  Seen seen;
  EXPECT_EQ(in_blocks(4, 2, seen), 2);
  EXPECT_EQ(seen.rows[100].first, 4U);
  EXPECT_EQ(seen.rows[101].first, 5U);
}

TEST_F(RowBlocksTest, GivesUpWhereLinesAndRowsAreNotTheSame) {
  const std::string many = "1,2,3\n1,2,3\n1,2,3\n1,2,3\n1,2,3\n";
  for (const std::string& odd : {std::string("1,\"2\n2\",3\n"), std::string("\n"), std::string("\r\n"),
                                 std::string(",,\n"), std::string("1,\"2,3\n"), std::string("1,\"2\"2,3\n")}) {
    for (const std::string& text : {odd + many, many + odd + many, many + odd}) {
      open("a,b,c\n" + text);
      for (std::size_t block_bytes : {1U, 2U, 3U, 5U, 8U, 13U, 21U, 1000U}) {
        for (const std::size_t threads : {1U, 3U}) {
          Seen seen;
          EXPECT_EQ(in_blocks(block_bytes, threads, seen), -1) << testing::PrintToString(text);
        }
      }
    }
  }
}

TEST_F(RowBlocksTest, ReadsAQuotedCellOfOneLineInBlocks) {
  open("a,b,c\n1,\"2,\"\"2\",3\n4,5,6\n");
  Seen seen;
  EXPECT_EQ(in_blocks(4, 2, seen), 2);
}

// Fewer bytes a row than the heading line promises: numbers of rows beyond what was reserved must reach no worker.
TEST_F(RowBlocksTest, GivesUpWhereThereAreMoreRowsThanWholeOnesCouldBe) {
  std::string text = "a,b,c\n";
  for (int i = 0; i < 100; ++i) text += "x\n";
  open(text);
  EXPECT_EQ(most_rows(*file_, layout_), 67U);
  EXPECT_EQ(rows_beyond_most(*file_, layout_), 34U);
  for (const std::size_t threads : {1U, 3U}) {
    Seen seen;
    EXPECT_EQ(in_blocks(16, threads, seen), -1);
    for (const auto& [row, what] : seen.rows) EXPECT_LT(row, 100U + 67U);
  }
}

TEST_F(RowBlocksTest, NeverNumbersARowBeyondTheMostWhileBlankLinesAreStillAhead) {
  open("a,b,c\n1,2,3\n" + std::string(5000, '\n') + "4,5,6\n4,5,6\n4,5,6\n");
  for (int round = 0; round < 20; ++round) {
    Seen seen;
    EXPECT_EQ(in_blocks(64, 4, seen), -1);
    for (const auto& [row, what] : seen.rows) EXPECT_LT(row, 100 + most_rows(*file_, layout_));
  }
}

TEST_F(RowBlocksTest, HasRoomForAllRowsOfAnyFile) {
  std::mt19937 random(7);
  for (int round = 0; round < 2000; ++round) {
    std::string text = "a,b,c\n";
    for (std::size_t i = random() % 60; i > 0; --i) text += "x,\n\""[random() % 4];
    open(text);
    Seen seen;
    const std::size_t rows = in_order(seen);
    EXPECT_LE(rows, most_rows(*file_, layout_) + rows_beyond_most(*file_, layout_)) << testing::PrintToString(text);
  }
}

TEST_F(RowBlocksTest, PassesOverBlankLinesInOrderAndKeepsThePlaces) {
  open("a,b,c\n1,,\n\n\r\n2,\"\n\n\",\n3,,\n,,\n4,,\n\n\n");
  Seen seen;
  EXPECT_EQ(in_order(seen), 4U);
  EXPECT_EQ(seen.rows, (std::map<Row, std::pair<std::uint32_t, std::string>>{
                           {100, {2, "1"}}, {101, {5, "2"}}, {102, {8, "3"}}, {103, {10, "4"}}}));
  for (const auto& [row, what] : seen.rows) EXPECT_EQ(places_[row].line, what.first);
}

TEST_F(RowBlocksTest, KnowsWhereTheFirstRowOfEachBlockBegins) {
  open("a,b,c\n1,2,3\n4,5,6\n7,8,9\n");
  RowBlocks blocks(layout_.rows_begin, file_->size(), 8);
  ASSERT_EQ(blocks.count(), 3U);
  EXPECT_EQ(blocks.begin(0), 6U);
  EXPECT_EQ(blocks.begin(1), 8U);
  EXPECT_EQ(blocks.end(2), 24U);
  BlockText text(*file_, blocks);
  const auto first_row = [&](std::size_t block) {
    text.read(block);
    return std::string(text.from_first_row().substr(0, 3));
  };
  EXPECT_EQ(first_row(0), "1,2");
  EXPECT_EQ(text.rows(), 1U);
  EXPECT_EQ(first_row(1), "4,5");
  EXPECT_EQ(text.rows(), 1U);
  EXPECT_EQ(first_row(2), "7,8");
  EXPECT_EQ(text.rows(), 1U);
  EXPECT_EQ(blocks.rows_before(0, 1), 0U);
  EXPECT_EQ(blocks.rows_before(1, 1), 1U);
  EXPECT_EQ(blocks.rows_before(2, 1), 2U);
  EXPECT_EQ(blocks.rows(), 3U);
}

TEST_F(RowBlocksTest, FindsNoRowInABlockThatNoneBeginsIn) {
  open("a,b,c\n1,2,3456789\n1,,");
  const RowBlocks blocks(layout_.rows_begin, file_->size(), 8);
  BlockText text(*file_, blocks);
  text.read(1);
  EXPECT_EQ(text.rows(), 0U);
  EXPECT_EQ(text.from_first_row().data(), text.end());
}

// So that a worker that keeps texts never compares one with bytes that are gone.
TEST_F(RowBlocksTest, HasWorkersForgetTheTextsOfABlock) {
  struct Forgetful {
    void operator()(const CsvScanner&, Row, std::uint32_t) { ++rows; }
    void begin_block() { ++blocks; }
    int rows = 0;
    int blocks = 0;
  };
  open("a,b,c\n1,2,3\n4,5,6\n7,8,9\n");
  std::vector<std::unique_ptr<Forgetful>> workers;
  workers.push_back(std::make_unique<Forgetful>());
  std::size_t rows = 0;
  EXPECT_TRUE(read_rows_in_blocks(
      *file_, layout_, 0, workers, rows, [](std::size_t) {}, 8));
  EXPECT_EQ(workers[0]->rows, 3);
  EXPECT_EQ(workers[0]->blocks, 3);
}

}  // namespace
}  // namespace driftwarden::row_blocks_test
