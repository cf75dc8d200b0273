// SPDX-License-Identifier: MIT
#include "system/open_file.hpp"

#include <gtest/gtest.h>

#include <cerrno>
#include <fstream>

#include "book/scratch_folder.hpp"

namespace driftwarden::open_file_test {
namespace {

TEST(OpenFile, ReadsAStretchAndSaysWhereTheFileEnds) {
  const ScratchFolder scratch;
  std::ofstream(scratch.path() / "f", std::ios::binary) << "0123456789";
  OpenFile file(scratch.path() / "f");
  EXPECT_EQ(file.reason(), 0);
  EXPECT_EQ(file.size(), 10U);
  std::string room(6, '\0');
  EXPECT_EQ(file.read(2, 6, room.data()), 6U);
  EXPECT_EQ(room, "234567");
  EXPECT_EQ(file.read(8, 6, room.data()), 2U);
  EXPECT_EQ(file.read(20, 6, room.data()), 0U);
  EXPECT_EQ(file.reason(), 0);
}

TEST(OpenFile, SaysWhyItCannotBeRead) {
  const ScratchFolder scratch;
  EXPECT_EQ(OpenFile(scratch.path() / "none").reason(), ENOENT);
  EXPECT_EQ(OpenFile(scratch.path()).reason(), EISDIR);
  EXPECT_EQ(OpenFile("/dev/null").reason(), EINVAL);
  char room = 0;
  EXPECT_EQ(OpenFile(scratch.path() / "none").read(0, 1, &room), 0U);
}

}  // namespace
}  // namespace driftwarden::open_file_test
