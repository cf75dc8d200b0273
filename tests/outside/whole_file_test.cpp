// SPDX-License-Identifier: MIT
#include "outside/whole_file.hpp"

#include <fcntl.h>
#include <gtest/gtest.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <fstream>
#include <iterator>
#include <set>
#include <thread>

#include "book/scratch_folder.hpp"

namespace driftwarden::whole_file_test {
namespace {

namespace fs = std::filesystem;

std::string text_of(const fs::path& file) {
  std::ifstream in(file, std::ios::binary);
  return {std::istreambuf_iterator<char>(in), {}};
}

std::set<std::string> names_in(const fs::path& folder) {
  std::set<std::string> names;
  for (const auto& entry : fs::directory_iterator(folder)) names.insert(entry.path().filename().string());
  return names;
}

TEST(WholeFile, SaysWhatIsNotOnTheDisk) {
  const ScratchFolder folder;
  EXPECT_EQ(brought_to_disk(folder.path()), 0);
  EXPECT_EQ(brought_to_disk(folder.path() / "none"), ENOENT);
}

TEST(WholeFile, MayHaveItsFolderMade) {
  const ScratchFolder folder;
  EXPECT_TRUE(make_folder(folder.path() / "a").empty());
  EXPECT_TRUE(make_folder(folder.path() / "a").empty());  // it is there
  EXPECT_TRUE(write_whole(folder.path() / "a" / "b", "text").empty());
  EXPECT_EQ(make_folder(folder.path() / "a" / "b").front().id, "output/unwritable");
  EXPECT_EQ(make_folder(folder.path() / "none" / "b").front().id, "output/unwritable");
}

TEST(WholeFile, LeavesTheOldOneUntilTheNewOneIsThere) {
  const ScratchFolder folder;
  const fs::path place = folder.path() / "a";
  std::ofstream(place) << "old";
  Result<WholeFile> file = WholeFile::beside(place);
  ASSERT_TRUE(file);
  file->out() << "new" << std::flush;
  EXPECT_EQ(text_of(place), "old");
  EXPECT_EQ(names_in(folder.path()), (std::set<std::string>{"a", "a.unfinished-" + std::to_string(getpid())}));
  EXPECT_TRUE(file->put_in_place().empty());
  EXPECT_EQ(text_of(place), "new");
  EXPECT_EQ(names_in(folder.path()), std::set<std::string>{"a"});
}

TEST(WholeFile, LeavesNothingWhereItIsGivenUp) {
  const ScratchFolder folder;
  {
    Result<WholeFile> file = WholeFile::beside(folder.path() / "a");
    ASSERT_TRUE(file);
    file->out() << "text" << std::flush;
  }
  EXPECT_TRUE(fs::is_empty(folder.path()));
}

TEST(WholeFile, LeavesTheOldOneWhereTheNewOneCannotBeWritten) {
  const ScratchFolder folder;
  const fs::path place = folder.path() / "a";
  std::ofstream(place) << "old";
  Result<WholeFile> file = WholeFile::beside(place);
  ASSERT_TRUE(file);
  file->out() << "new";
  fs::remove(folder.path() / ("a.unfinished-" + std::to_string(getpid())));  // so that it can't be renamed
  EXPECT_EQ(to_text(file->put_in_place().at(0)), place.string() +
                                                     ": error: the results could not be written: No such file or "
                                                     "directory; check the folder, its rights and the room on the disk "
                                                     "[output/unwritable]");
  EXPECT_EQ(text_of(place), "old");
}

TEST(WholeFile, KeepsTheRightsOfTheOldOneAndTheLinkToIt) {
  const ScratchFolder folder;
  std::ofstream(folder.path() / "a") << "old";
  ASSERT_EQ(chmod((folder.path() / "a").c_str(), 0640), 0);
  fs::create_symlink("a", folder.path() / "link");
  EXPECT_TRUE(write_whole(folder.path() / "link", "new").empty());
  EXPECT_TRUE(fs::is_symlink(folder.path() / "link"));
  EXPECT_EQ(text_of(folder.path() / "a"), "new");
  struct stat status {};
  ASSERT_EQ(stat((folder.path() / "a").c_str(), &status), 0);
  EXPECT_EQ(status.st_mode & 07777U, 0640U);
}

TEST(WholeFile, SaysWhyItCannotBeWritten) {
  const ScratchFolder folder;
  std::ofstream(folder.path() / "file") << "";
  const auto why = [](const fs::path& place) { return write_whole(place, "text").at(0).message; };
  EXPECT_EQ(why(folder.path()), "the results could not be written: Is a directory");
  EXPECT_EQ(why(folder.path() / "no" / "a"), "the results could not be written: No such file or directory");
  EXPECT_EQ(why(folder.path() / "file" / "a"), "the results could not be written: Not a directory");
  EXPECT_EQ(why("/dev/full"), "the results could not be written: No space left on device");
  EXPECT_EQ(names_in(folder.path()), std::set<std::string>{"file"});
}

TEST(WholeFile, WritesAPipeAsItGoes) {
  const ScratchFolder folder;
  const fs::path pipe = folder.path() / "pipe";
  ASSERT_EQ(mkfifo(pipe.c_str(), 0600), 0);
  std::string got;
  std::thread reader([&] { got = text_of(pipe); });
  EXPECT_TRUE(write_whole(pipe, "text").empty());
  reader.join();
  EXPECT_EQ(got, "text");
  EXPECT_TRUE(fs::is_fifo(pipe));
}

TEST(WholeFile, HasRoomBesideForALongName) {
  const ScratchFolder folder;
  const fs::path place = folder.path() / std::string(255, 'a');
  EXPECT_TRUE(write_whole(place, "text").empty());
  EXPECT_EQ(text_of(place), "text");
}

TEST(WholeFile, TakesAFileThatAnotherWrote) {
  const ScratchFolder folder;
  std::ofstream(folder.path() / "drawn") << "new";
  std::ofstream(folder.path() / "a") << "old";
  EXPECT_TRUE(move_whole(folder.path() / "drawn", folder.path() / "a").empty());
  EXPECT_EQ(text_of(folder.path() / "a"), "new");
  EXPECT_EQ(move_whole(folder.path() / "drawn", folder.path() / "a").at(0).id, "output/unwritable");
  EXPECT_EQ(names_in(folder.path()), std::set<std::string>{"a"});
}

}  // namespace
}  // namespace driftwarden::whole_file_test
