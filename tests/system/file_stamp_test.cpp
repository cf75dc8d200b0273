// SPDX-License-Identifier: MIT
#include "system/file_stamp.hpp"

#include <gtest/gtest.h>

#include <filesystem>
#include <fstream>

#include "book/scratch_folder.hpp"

namespace driftwarden::file_stamp_test {
namespace {

TEST(FileStamp, IsNothingWhereThereIsNoFile) {
  const ScratchFolder folder;
  EXPECT_FALSE(stamp_of(folder.path() / "absent.csv"));
}

TEST(FileStamp, TellsHowLargeAFileIs) {
  const ScratchFolder folder;
  std::ofstream(folder.path() / "a.csv") << "12345";
  EXPECT_EQ(stamp_of(folder.path() / "a.csv")->size, 5U);
}

TEST(FileStamp, IsTheSameUnderAnotherName) {
  const ScratchFolder folder;
  std::ofstream(folder.path() / "a.csv") << "12345";
  std::filesystem::create_symlink(folder.path() / "a.csv", folder.path() / "b.csv");
  EXPECT_EQ(stamp_of(folder.path() / "a.csv"), stamp_of(folder.path() / "b.csv"));
}

TEST(FileStamp, IsAnotherOfAFileOfTheSameBytes) {
  const ScratchFolder folder;
  std::ofstream(folder.path() / "a.csv") << "12345";
  std::ofstream(folder.path() / "b.csv") << "12345";
  EXPECT_NE(stamp_of(folder.path() / "a.csv"), stamp_of(folder.path() / "b.csv"));
}

}  // namespace
}  // namespace driftwarden::file_stamp_test
