// SPDX-License-Identifier: MIT
#include "book/file_as_read.hpp"

#include <gtest/gtest.h>

#include <fstream>

#include "book/scratch_folder.hpp"

namespace driftwarden::file_as_read_test {
namespace {

namespace fs = std::filesystem;

class FileAsReadTest : public testing::Test {
 protected:
  void write(const std::string& text) { std::ofstream(path(), std::ios::binary | std::ios::trunc) << text; }
  void see(const std::string& text) {
    write(text);
    seen_ = {"f.csv", *stamp_of(path()), print_of(text)};
  }
  std::string change() const {
    const std::optional<Diagnostic> change = change_of(scratch_.path(), seen_);
    return change ? to_text(*change) : "";
  }
  fs::path path() const { return scratch_.path() / "f.csv"; }

  ScratchFolder scratch_;
  FileAsRead seen_;
};

const std::string told = "f.csv: error: the file changed while the book was read: ";
const std::string way_out = "; run it again when nobody writes to it [file/changed]";

TEST_F(FileAsReadTest, HasNotChangedWhereItsBytesAreTheSame) {
  see("a,b\n1,2\n");
  EXPECT_EQ(change(), "");
  fs::last_write_time(path(), fs::last_write_time(path()) + std::chrono::hours(1));
  EXPECT_EQ(change(), "");
}

TEST_F(FileAsReadTest, HasGrownWhereRowsStandBehindIt) {
  see("a,b\n1,2\n");
  write("a,b\n1,2\n3,4\n");
  EXPECT_EQ(
      change(),
      "f.csv: remark: rows were added while the book was read; they are not in this run; run it again to have them, "
      "too [file/grown]");
  see("a,b\n1,2");
  write("a,b\n1,2\r\n3,4\n");
  EXPECT_NE(change().find("[file/grown]"), std::string::npos) << change();
}

TEST_F(FileAsReadTest, HasChangedWhereItsLastRowWentOn) {
  see("a,b\n1,2");
  write("a,b\n1,23\n");
  EXPECT_EQ(change(), told + "its last row was still being written" + way_out);
}

TEST_F(FileAsReadTest, HasChangedWhereItIsShorterOtherOrGone) {
  see("a,b\n1,2\n");
  write("a,b\n1,3\n");
  EXPECT_EQ(change(), told + "other bytes stand in it" + way_out);
  write("a,b\n1,3\n1,2\n");
  EXPECT_EQ(change(), told + "other bytes stand in it" + way_out);
  write("a,b\n");
  EXPECT_EQ(change(), told + "it became shorter" + way_out);
  fs::remove(path());
  EXPECT_EQ(change(), told + "it is gone" + way_out);
}

TEST(Print, TellsEveryByteAndItsPlace) {
  const std::string text(3 * print_piece + 77, 'x');
  const std::uint64_t print = print_of(text);
  for (const std::size_t at : {std::size_t{0}, std::size_t{31}, print_piece - 1, print_piece, 3 * print_piece + 76}) {
    std::string other = text;
    other[at] = 'y';
    EXPECT_NE(print_of(other), print) << at;
  }
  EXPECT_NE(print_of(text.substr(1)), print);
  EXPECT_NE(print_of(std::string(print_piece, 'x') + std::string(print_piece, 'y')),
            print_of(std::string(print_piece, 'y') + std::string(print_piece, 'x')));
}

}  // namespace
}  // namespace driftwarden::file_as_read_test
