// SPDX-License-Identifier: MIT
#include "outside/whole_folder.hpp"

#include <gtest/gtest.h>
#include <unistd.h>

#include <fstream>

#include "book/scratch_folder.hpp"

namespace driftwarden::whole_folder_test {
namespace {

namespace fs = std::filesystem;

TEST(WholeFolder, IsThereWhenAllOfItIs) {
  const ScratchFolder scratch;
  const fs::path place = scratch.path() / "deep" / "folder";
  Result<WholeFolder> folder = WholeFolder::beside(place);
  ASSERT_TRUE(folder);
  EXPECT_EQ(folder->path().filename(), "folder.unfinished-" + std::to_string(getpid()));
  std::ofstream(folder->path() / "file") << "text";
  EXPECT_FALSE(fs::exists(place));
  EXPECT_TRUE(folder->put_in_place().empty());
  EXPECT_TRUE(fs::exists(place / "file"));
  EXPECT_EQ(std::distance(fs::directory_iterator(place.parent_path()), fs::directory_iterator()), 1);
}

TEST(WholeFolder, LeavesNothingWhereItIsGivenUp) {
  const ScratchFolder scratch;
  {
    const Result<WholeFolder> folder = WholeFolder::beside(scratch.path() / "folder");
    ASSERT_TRUE(folder);
    fs::create_directories(folder->path() / "a" / "b");
    std::ofstream(folder->path() / "a" / "b" / "file") << "text";
  }
  EXPECT_TRUE(fs::is_empty(scratch.path()));
}

TEST(WholeFolder, NeverReplacesWhatIsThereOrAppearsMeanwhile) {
  const ScratchFolder scratch;
  Result<WholeFolder> folder = WholeFolder::beside(scratch.path() / "folder");
  ASSERT_TRUE(folder);
  fs::create_directory(scratch.path() / "folder");
  EXPECT_EQ(folder->put_in_place().at(0).id, "output/already-there");
  EXPECT_EQ(WholeFolder::beside(scratch.path() / "folder/").faults().at(0).id, "output/already-there");
}

TEST(WholeFolder, TakesThePlaceOfOneThatAKilledRunOfItsNumberLeft) {
  const ScratchFolder scratch;
  fs::create_directories(scratch.path() / ("folder.unfinished-" + std::to_string(getpid())) / "left");
  Result<WholeFolder> folder = WholeFolder::beside(scratch.path() / "folder");
  ASSERT_TRUE(folder);
  EXPECT_TRUE(fs::is_empty(folder->path()));
}

TEST(WholeFolder, SaysWhyItCannotBeWritten) {
  EXPECT_EQ(WholeFolder::beside("/dev/null/folder").faults().at(0).message,
            "the results could not be written: Not a directory");
}

}  // namespace
}  // namespace driftwarden::whole_folder_test
