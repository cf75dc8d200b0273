// SPDX-License-Identifier: MIT
#include "outside/scratch_place.hpp"

#include <gtest/gtest.h>

#include <fstream>

#include "book/scratch_folder.hpp"

namespace driftwarden::scratch_place_test {
namespace {

TEST(ScratchPlace, IsGoneWithWhatIsInIt) {
  std::filesystem::path path;
  {
    const ScratchPlace place;
    path = place.path();
    ASSERT_TRUE(std::filesystem::is_directory(path));
    std::ofstream(path / "file") << "text";
  }
  EXPECT_FALSE(std::filesystem::exists(path));
}

TEST(ScratchPlace, IsANewOneEachTime) {
  const ScratchPlace one;
  const ScratchPlace other;
  EXPECT_NE(one.path(), other.path());
}

TEST(ScratchPlace, HasNoPathWhereNoneCanBeMade) {
  const EnvironmentVariable nowhere("TMPDIR", "/nowhere/at/all");
  const ScratchPlace place;
  EXPECT_TRUE(place.path().empty());
  EXPECT_EQ(to_text(place.fault()),
            "/nowhere/at/all: error: nothing can be written to the folder for temporary files: No such file or "
            "directory; set TMPDIR to a folder that can be written to, or unset it: then it is /tmp "
            "[output/no-scratch]");
}

TEST(ScratchPlace, IsMadeInAFolderOfAnyName) {
  const ScratchFolder folder;
  const std::filesystem::path odd = folder.path() / "50 % #1?";
  std::filesystem::create_directory(odd);
  const EnvironmentVariable there("TMPDIR", odd.string());
  EXPECT_EQ(ScratchPlace().path().parent_path(), odd);
}

}  // namespace
}  // namespace driftwarden::scratch_place_test
