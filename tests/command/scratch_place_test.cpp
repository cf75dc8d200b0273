// SPDX-License-Identifier: MIT
#include "command/scratch_place.hpp"

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
  const EnvironmentVariable nowhere("TMPDIR", "/proc/nowhere");
  EXPECT_TRUE(ScratchPlace().path().empty());
}

}  // namespace
}  // namespace driftwarden::scratch_place_test
