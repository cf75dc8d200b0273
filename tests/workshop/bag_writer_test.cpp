// SPDX-License-Identifier: MIT
#include "workshop/bag_writer.hpp"

#include <gtest/gtest.h>
#include <sys/stat.h>
#include <unistd.h>

#include <algorithm>
#include <set>

#include "evidence/small_bag.hpp"
#include "system/digest.hpp"

namespace driftwarden::bag_writer_test {
namespace {

namespace fs = std::filesystem;

std::set<std::string> names_in(const fs::path& folder) {
  std::set<std::string> names;
  for (const auto& entry : fs::directory_iterator(folder)) names.insert(entry.path().filename().string());
  return names;
}

TEST(BagWriter, WritesABag) {
  const SmallBag bag;
  EXPECT_EQ(bytes_of_file(bag / "bagit.txt"), "BagIt-Version: 1.0\nTag-File-Character-Encoding: UTF-8\n");
  EXPECT_EQ(bytes_of_file(bag / "data/book/readings/1.csv"), "taken\n");
  const std::string manifest = bytes_of_file(bag / "manifest-sha512.txt");
  EXPECT_EQ(std::count(manifest.begin(), manifest.end(), '\n'), 3);
  EXPECT_TRUE(manifest.starts_with(sha512_of("title = \"Quarry\"\n") + "  data/book/book.toml\n")) << manifest;
  const std::string tags = bytes_of_file(bag / "tagmanifest-sha512.txt");
  EXPECT_NE(tags.find(sha512_of(manifest) + "  manifest-sha512.txt\n"), std::string::npos) << tags;
  EXPECT_EQ(tags.find("tagmanifest"), std::string::npos);
  EXPECT_NE(bytes_of_file(bag / "bag-info.txt").find("Payload-Oxum: 23.3\n"), std::string::npos);
}

TEST(BagWriter, SignsTheTagManifestAndListsTheKeyButNotTheSignature) {
  const SmallBag bag(true);
  const std::string tags = bytes_of_file(bag / "tagmanifest-sha512.txt");
  EXPECT_NE(tags.find("  signed-by.pem\n"), std::string::npos);
  EXPECT_EQ(tags.find("signature"), std::string::npos);
  EXPECT_EQ(bytes_of_file(bag / "signed-by.pem"), public_pem_1);
  const Ed25519Key key = *Ed25519Key::public_key(public_pem_1, "key");
  EXPECT_TRUE(key.has_signed(tags, bytes_of_file(bag / "signature.ed25519")));
}

TEST(BagWriter, WritesAsideUntilAllIsWritten) {
  const ScratchFolder scratch;
  Result<BagWriter> bag = BagWriter::begin(scratch.path() / "deep" / "bag");
  ASSERT_TRUE(bag);
  bag->add("data/a", "a");
  EXPECT_EQ(names_in(scratch.path() / "deep"), std::set<std::string>{"bag.unfinished-" + std::to_string(getpid())});
  EXPECT_TRUE(bag->finish(small_info(), nullptr).empty());
  EXPECT_EQ(names_in(scratch.path() / "deep"), std::set<std::string>{"bag"});
}

TEST(BagWriter, LeavesNothingBehindWhereItIsGivenUp) {
  const ScratchFolder scratch;
  {
    Result<BagWriter> bag = BagWriter::begin(scratch.path() / "bag");
    ASSERT_TRUE(bag);
    bag->add("data/a/b/c", "a");
  }
  EXPECT_EQ(names_in(scratch.path()), std::set<std::string>{});
}

TEST(BagWriter, NeverWritesOverAnything) {
  const ScratchFolder scratch;
  fs::create_directory(scratch.path() / "bag");
  for (const char* name : {"bag", "bag/", "bag/.", "."}) {
    const Result<BagWriter> bag = BagWriter::begin(scratch.path() / name);
    ASSERT_FALSE(bag) << name;
    EXPECT_EQ(bag.faults().front().id, "output/already-there");
  }
  fs::create_symlink("nowhere", scratch.path() / "link");
  EXPECT_FALSE(BagWriter::begin(scratch.path() / "link"));
}

TEST(BagWriter, NeverReplacesWhatAppearedMeanwhile) {
  const ScratchFolder scratch;
  Result<BagWriter> bag = BagWriter::begin(scratch.path() / "bag");
  ASSERT_TRUE(bag);
  fs::create_directory(scratch.path() / "bag");
  const Diagnostics faults = bag->finish(small_info(), nullptr);
  ASSERT_EQ(faults.size(), 1U);
  EXPECT_EQ(faults.front().id, "output/already-there");
  EXPECT_TRUE(fs::is_empty(scratch.path() / "bag"));
}

TEST(BagWriter, TakesFilesThatOthersWrote) {
  const ScratchFolder scratch;
  write_file(scratch.path() / "in.csv", "a\r\nb");
  Result<BagWriter> bag = BagWriter::begin(scratch.path() / "bag");
  ASSERT_TRUE(bag);
  bag->add("data/in.csv", HeldFile::open(scratch.path() / "in.csv", "in.csv"));
  write_file(bag->folder() / "data/charts/a.svg", "<svg/>");
  bag->adopt("data/charts/a.svg");
  EXPECT_TRUE(bag->finish(small_info(), nullptr).empty());
  EXPECT_EQ(bytes_of_file(scratch.path() / "bag/data/in.csv"), "a\r\nb");
  EXPECT_NE(bytes_of_file(scratch.path() / "bag/manifest-sha512.txt").find("  data/charts/a.svg\n"), std::string::npos);
}

TEST(BagWriter, KeepsTheFirstFailure) {
  const ScratchFolder scratch;
  Result<BagWriter> bag = BagWriter::begin(scratch.path() / "bag");
  ASSERT_TRUE(bag);
  bag->add("data/in.csv", HeldFile::open(scratch.path() / "nowhere.csv", "nowhere.csv"));
  bag->add("data/b", "b");
  ASSERT_EQ(bag->failure().size(), 1U);
  EXPECT_EQ(bag->failure().front().id, "file/unreadable");
  EXPECT_EQ(bag->finish(small_info(), nullptr).front().id, "file/unreadable");
  EXPECT_FALSE(fs::exists(scratch.path() / "bag"));
}

TEST(BagWriter, RefusesANameThatLeadsAway) {
  const ScratchFolder scratch;
  Result<BagWriter> bag = BagWriter::begin(scratch.path() / "bag");
  ASSERT_TRUE(bag);
  bag->add("data/../../x", "x");
  EXPECT_EQ(bag->failure().front().id, "evidence/name");
  EXPECT_EQ(bag->failure().front().place, (Place{"data/../../x", 0, 0}));
  EXPECT_FALSE(fs::exists(scratch.path() / "x"));
}

TEST(BagWriter, SaysWhyItCannotWrite) {
  const ScratchFolder scratch;
  write_file(scratch.path() / "file", "");
  const Result<BagWriter> bag = BagWriter::begin(scratch.path() / "file" / "bag");
  ASSERT_FALSE(bag);
  EXPECT_EQ(bag.faults().front().id, "output/unwritable");
  EXPECT_EQ(bag.faults().front().message, "the results could not be written: Not a directory");
}

TEST(BagWriter, GivesTheSameBytesForTheSameFilesInAnyOrder) {
  const ScratchFolder scratch;
  const char* orders[][2] = {{"data/a", "data/b"}, {"data/b", "data/a"}};
  for (int i = 0; i < 2; ++i) {
    Result<BagWriter> bag = BagWriter::begin(scratch.path() / std::to_string(i));
    ASSERT_TRUE(bag);
    for (const char* name : orders[i]) bag->add(name, "same");
    ASSERT_TRUE(bag->finish(small_info(), nullptr).empty());
  }
  EXPECT_EQ(bytes_of_file(scratch.path() / "0/tagmanifest-sha512.txt"),
            bytes_of_file(scratch.path() / "1/tagmanifest-sha512.txt"));
}

TEST(BagWriter, SaysThatAFileCouldNotBeWritten) {
  const ScratchFolder scratch;
  Result<BagWriter> bag = BagWriter::begin(scratch.path() / "bag");
  ASSERT_TRUE(bag);
  bag->add("data/a", "a");
  bag->add("data/a/b", "b");  // there is a file where its folder would be
  ASSERT_EQ(bag->failure().size(), 1U);
  EXPECT_EQ(bag->failure().front().id, "output/unwritable");
  EXPECT_FALSE(bag->finish(small_info(), nullptr).empty());
}

TEST(BagWriter, SaysThatAFileOfOthersIsNotThere) {
  const ScratchFolder scratch;
  Result<BagWriter> bag = BagWriter::begin(scratch.path() / "bag");
  ASSERT_TRUE(bag);
  bag->adopt("data/charts/none.svg");
  ASSERT_EQ(bag->failure().size(), 1U);
  EXPECT_EQ(bag->failure().front().id, "file/unreadable");
}

}  // namespace
}  // namespace driftwarden::bag_writer_test
