// SPDX-License-Identifier: MIT
#include "book/pieced_file.hpp"

#include <gtest/gtest.h>

#include <fstream>

#include "book/scratch_folder.hpp"

namespace driftwarden::pieced_file_test {
namespace {

namespace fs = std::filesystem;

class PiecedFileTest : public testing::Test {
 protected:
  PiecedFile open(const std::string& text, std::size_t head_bytes) {
    std::ofstream(path(), std::ios::binary | std::ios::trunc) << text;
    return *PiecedFile::open(path(), "f.csv", *stamp_of(path()), head_bytes);
  }
  void add(const std::string& text) { std::ofstream(path(), std::ios::binary | std::ios::app) << text; }
  fs::path path() const { return scratch_.path() / "f.csv"; }

  ScratchFolder scratch_;
};

const std::string rows = "a,b,c\n1,2,3\n4,5,6\n7,8,9";

TEST_F(PiecedFileTest, GivesItsHeadAndAllOfIt) {
  const PiecedFile file = open(rows, 8);
  EXPECT_EQ(file.size(), rows.size());
  EXPECT_EQ(file.head(), rows.substr(0, 8));
  EXPECT_EQ(file.bytes(), rows);
  EXPECT_EQ(file.bytes().data()[rows.size()], '\0');
  EXPECT_EQ(open(rows, 100).head(), rows);
}

TEST_F(PiecedFileTest, GivesAPieceWithTheWholeOfItsLastRow) {
  for (const std::size_t head_bytes : {std::size_t{0}, std::size_t{100}}) {
    const PiecedFile file = open(rows, head_bytes);
    PiecedFile::Window window(file);
    EXPECT_TRUE(window.read(0, 7).starts_with("a,b,c\n1,2,3\n"));
    EXPECT_TRUE(window.read(12, 19).starts_with("4,5,6\n7,8,9"));
    EXPECT_EQ(window.read(18, rows.size()), "7,8,9");
  }
  const std::string long_row = "a\n" + std::string(20000, 'x') + "\nb\n";
  const PiecedFile file = open(long_row, 0);
  EXPECT_TRUE(PiecedFile::Window(file).read(0, 3).starts_with(long_row.substr(0, 20003)));
}

TEST_F(PiecedFileTest, IsAsLongAsItWasWhenItsSizeWasTaken) {
  const PiecedFile file = open(rows, 0);
  add("\n10,11,12\n");
  EXPECT_EQ(file.bytes(), rows);
  EXPECT_EQ(PiecedFile::Window(file).read(12, rows.size()), rows.substr(12));
}

TEST_F(PiecedFileTest, ReadsWhatWasCutOffAsZero) {
  const PiecedFile file = open(rows, 0);
  fs::resize_file(path(), 12);
  const std::string cut = rows.substr(0, 12) + std::string(rows.size() - 12, '\0');
  EXPECT_EQ(PiecedFile::Window(file).read(0, rows.size()), cut);
  EXPECT_EQ(file.bytes(), cut);
}

TEST_F(PiecedFileTest, HasOnePrintHoweverItIsRead) {
  const std::string text(2 * print_piece + 5, 'x');
  const PiecedFile in_pieces = open(text, 0);
  PiecedFile::Window window(in_pieces);
  for (const std::size_t piece : {2U, 0U, 1U}) {
    const std::size_t to = std::min((piece + 1) * print_piece, text.size());
    const std::string_view bytes = window.read(piece * print_piece, to);
    in_pieces.note(piece, bytes.substr(0, to - piece * print_piece));
  }
  EXPECT_EQ(in_pieces.seen()->print, print_of(text));
  EXPECT_EQ(open(text, 0).seen()->print, print_of(text));
  EXPECT_EQ(open(rows, 100).seen()->print, print_of(rows));
}

TEST_F(PiecedFileTest, TellsThatItCannotBeReadAnyMore) {
  const PiecedFile file = open(rows, 0);
  fs::remove(path());
  { EXPECT_EQ(PiecedFile::Window(file).read(0, 6).size(), rows.size()); }
  const Result<FileAsRead> seen = file.seen();
  ASSERT_FALSE(seen);
  EXPECT_EQ(to_text(seen.faults().front()),
            "f.csv: error: can't be read: No such file or directory; check that it is there and may be read "
            "[file/unreadable]");
}

}  // namespace
}  // namespace driftwarden::pieced_file_test
