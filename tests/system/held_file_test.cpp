// SPDX-License-Identifier: MIT
#include "system/held_file.hpp"

#include <gtest/gtest.h>
#include <sys/stat.h>
#include <unistd.h>

#include <algorithm>
#include <fstream>
#include <string>
#include <utility>

#include "book/scratch_folder.hpp"

namespace driftwarden::held_file_test {
namespace {

class HeldFileTest : public testing::Test {
 protected:
  std::filesystem::path write(const std::string& bytes) const {
    std::ofstream(path_, std::ios::binary) << bytes;
    return path_;
  }
  std::string fault(const std::filesystem::path& path) const {
    const Result<HeldFile> file = HeldFile::open(path, "shown.csv");
    return file ? "none" : to_text(file.faults().front());
  }

  ScratchFolder scratch_;
  std::filesystem::path path_ = scratch_.path() / "file.csv";
};

TEST_F(HeldFileTest, HoldsTheBytesAsTheyAre) {
  const std::string bytes("a,b\r\n\0\xFF", 7);
  const Result<HeldFile> file = HeldFile::open(write(bytes), "file.csv");
  ASSERT_TRUE(file);
  EXPECT_EQ(file->bytes(), bytes);
}

TEST_F(HeldFileTest, OpensAnEmptyFile) {
  const Result<HeldFile> file = HeldFile::open(write(""), "file.csv");
  ASSERT_TRUE(file);
  EXPECT_TRUE(file->bytes().empty());
  EXPECT_NE(file->bytes().data(), nullptr);
}

TEST_F(HeldFileTest, HasZeroBytesBehindTheLastOneWhateverItsSize) {
  for (const std::size_t size : {0U, 1U, 63U, 4032U, 4095U, 4096U, 4097U, 8192U, (1U << 20U), (1U << 20U) + 1}) {
    const Result<HeldFile> file = HeldFile::open(write(std::string(size, 'x')), "file.csv");
    ASSERT_TRUE(file);
    ASSERT_EQ(file->bytes().size(), size);
    const char* const end = file->bytes().data() + size;
    EXPECT_EQ(std::count(end, end + HeldFile::padding, '\0'), static_cast<std::ptrdiff_t>(HeldFile::padding)) << size;
  }
}

TEST_F(HeldFileTest, StaysReadableWhenTakenToAnotherHand) {
  Result<HeldFile> first = HeldFile::open(write("first"), "file.csv");
  ASSERT_TRUE(first);
  HeldFile other = *std::move(first);
  EXPECT_EQ(other.bytes(), "first");
  Result<HeldFile> second = HeldFile::open(write("second"), "file.csv");
  ASSERT_TRUE(second);
  other = *std::move(second);
  EXPECT_EQ(other.bytes(), "second");
}

TEST_F(HeldFileTest, StaysAsItWasWhenTheFileIsCut) {
  const std::string bytes(100000, 'x');
  const std::filesystem::path path = write(bytes);
  const Result<HeldFile> file = HeldFile::open(path, "file.csv");
  ASSERT_TRUE(file);
  std::filesystem::resize_file(path, 0);
  EXPECT_EQ(file->bytes(), bytes);
}

TEST_F(HeldFileTest, CanKeepItsFirstBytesOnly) {
  Result<HeldFile> file = HeldFile::open(write("first and second"), "file.csv");
  ASSERT_TRUE(file);
  file->keep_first(5);
  EXPECT_EQ(file->bytes(), "first");
  EXPECT_EQ(file->bytes().data()[5], '\0');
  file->keep_first(100);
  EXPECT_EQ(file->bytes(), "first");
}

TEST_F(HeldFileTest, TellsTheSystemsReasonUnderTheNameToShow) {
  EXPECT_EQ(fault(scratch_.path() / "none.csv"),
            "shown.csv: error: can't be read: No such file or directory; check that it is there and may be read "
            "[file/unreadable]");
  EXPECT_EQ(
      fault(scratch_.path()),
      "shown.csv: error: can't be read: Is a directory; check that it is there and may be read [file/unreadable]");
}

TEST_F(HeldFileTest, RefusesAPipeWithoutWaitingForIt) {
  ASSERT_EQ(::mkfifo(path_.c_str(), 0600), 0);
  EXPECT_EQ(fault(path_),
            "shown.csv: error: can't be read: Invalid argument; check that it is there and may be read "
            "[file/unreadable]");
}

}  // namespace
}  // namespace driftwarden::held_file_test
