// SPDX-License-Identifier: MIT
#include "evidence/bag_check.hpp"

#include <gtest/gtest.h>
#include <sys/stat.h>

#include <algorithm>
#include <map>

#include "evidence/manifest.hpp"
#include "evidence/small_bag.hpp"
#include "system/digest.hpp"

namespace driftwarden::bag_check_test {
namespace {

namespace fs = std::filesystem;

// Whether anything is amiss, as `verify` without a key finds it before it judges anew.
bool is_amiss(const fs::path& bag) {
  const Result<BagCheck> check = check_bag(bag);
  if (!check || !check->faults.empty()) return true;
  if (check->signer.empty()) return !check->signature.empty();
  const Result<Ed25519Key> key = Ed25519Key::public_key(check->signer, "signed-by.pem");
  return !key || !key->has_signed(check->tag_manifest, check->signature);
}

std::string faults_of(const fs::path& bag) {
  const Result<BagCheck> check = check_bag(bag);
  std::string text;
  for (const Diagnostic& fault : check ? check->faults : check.faults()) text += to_text(fault) + "\n";
  return text;
}

std::vector<fs::path> files_of(const SmallBag& bag) {
  std::vector<fs::path> files;
  for (const auto& entry : fs::recursive_directory_iterator(bag.path())) {
    if (entry.is_regular_file()) files.push_back(entry.path());
  }
  return files;
}

TEST(BagCheck, FindsNothingInASoundBag) {
  for (const bool is_signed : {false, true}) {
    const SmallBag bag(is_signed);
    const Result<BagCheck> check = check_bag(bag.path());
    ASSERT_TRUE(check);
    EXPECT_EQ(faults_of(bag.path()), "");
    EXPECT_TRUE(check->is_safe);
    EXPECT_EQ(check->files.size(), is_signed ? 10U : 8U);
    EXPECT_EQ(check->signature.empty(), !is_signed);
  }
}

// In place: to write a file anew for every byte would keep the disk busy, not the test.
void put_byte(const fs::path& file, std::size_t at, char byte) {
  std::fstream out(file, std::ios::binary | std::ios::in | std::ios::out);
  out.seekp(static_cast<std::streamoff>(at));
  out.put(byte);
}

// Of every byte one bit, and the bit that makes another case of a letter and no blank of a blank: a reader of digits or
// of blanks might let that pass.
TEST(BagCheck, FindsEveryByteThatWasChanged) {
  for (const bool is_signed : {false, true}) {
    const SmallBag bag(is_signed);
    for (const fs::path& file : files_of(bag)) {
      const std::string bytes = bytes_of_file(file);
      for (std::size_t i = 0; i < bytes.size(); ++i) {
        for (const int bit : {1 << (i % 8), 0x20}) {
          put_byte(file, i, static_cast<char>(bytes[i] ^ bit));
          EXPECT_TRUE(is_amiss(bag.path())) << file << " byte " << i << " bit " << bit;
        }
        put_byte(file, i, bytes[i]);
      }
    }
    EXPECT_FALSE(is_amiss(bag.path()));
  }
}

TEST(BagCheck, FindsEveryFileThatWasCutOffOrGrew) {
  const SmallBag bag(true);
  for (const fs::path& file : files_of(bag)) {
    const std::string bytes = bytes_of_file(file);
    for (std::size_t size = 0; size < bytes.size(); size += 1 + bytes.size() / 50) {
      write_file(file, bytes.substr(0, size));
      EXPECT_TRUE(is_amiss(bag.path())) << file << " cut to " << size;
    }
    for (const char* more : {"\n", " ", "x"}) {
      write_file(file, bytes + more);
      EXPECT_TRUE(is_amiss(bag.path())) << file << " with more";
    }
    write_file(file, bytes);
  }
}

TEST(BagCheck, FindsEveryFileThatWasRemovedOrRenamed) {
  for (const bool is_signed : {false, true}) {
    const SmallBag bag(is_signed);
    for (const fs::path& file : files_of(bag)) {
      const fs::path other = file.parent_path() / "other";
      fs::rename(file, other);
      EXPECT_TRUE(is_amiss(bag.path())) << file << " renamed";
      const std::string bytes = bytes_of_file(other);
      fs::remove(other);
      EXPECT_TRUE(is_amiss(bag.path())) << file << " removed";
      write_file(file, bytes);
    }
    EXPECT_FALSE(is_amiss(bag.path()));
  }
}

TEST(BagCheck, FindsEverythingThatWasAdded) {
  for (const char* name : {"note.txt", "data/note.txt", "data/book/.hidden", "fetch.txt", "manifest-md5.txt",
                           "tagmanifest-sha256.txt", "signature.ed25519", "signed-by.pem", "more/note.txt"}) {
    const SmallBag bag;
    write_file(bag / name, "");
    EXPECT_TRUE(is_amiss(bag.path())) << name;
  }
  const SmallBag bag;
  fs::create_directory(bag / "data/more");
  EXPECT_EQ(faults_of(bag.path()),
            "data/more: error: is an empty folder, and no file of the package lies in it [evidence/not-listed]\n");
}

TEST(BagCheck, SaysWhichFileIsAmissAndHow) {
  const SmallBag bag;
  write_file(bag / "data/book/readings/1.csv", "Taken\n");
  fs::rename(bag / "data/empty", bag / "data/void");
  EXPECT_EQ(
      faults_of(bag.path()),
      "data/book/readings/1.csv: error: does not have the SHA-512 that manifest-sha512.txt gives it; one of the two "
      "was changed after the package was made [evidence/changed]\n"
      "data/empty: error: is listed in manifest-sha512.txt and is not there; it was removed or renamed after the "
      "package was made [evidence/missing]\n"
      "data/void: error: is in no manifest; it was added or renamed after the package was made "
      "[evidence/not-listed]\n");
}

TEST(BagCheck, SaysWhenTheSizeIsNotTheOneNoted) {
  const SmallBag bag;
  write_file(bag / "data/empty", "x");
  EXPECT_NE(faults_of(bag.path())
                .find("bag-info.txt: error: says Payload-Oxum (bytes and files) '23.3'; the payload has "
                      "24.3 [evidence/bag]"),
            std::string::npos)
      << faults_of(bag.path());
}

TEST(BagCheck, ReadsNothingWhereThereIsALinkOrNoPlainFile) {
  const SmallBag linked;
  fs::remove(linked / "data/empty");
  fs::create_symlink("/etc/passwd", linked / "data/empty");
  EXPECT_EQ(faults_of(linked.path()),
            "data/empty: error: is a link, and a package has none; nothing of the package is read any further "
            "[evidence/not-plain]\n");
  EXPECT_FALSE(check_bag(linked.path())->is_safe);

  const SmallBag folder_linked;
  fs::create_directory_symlink("/etc", folder_linked / "data/etc");
  EXPECT_NE(faults_of(folder_linked.path()).find("data/etc: error: is a link"), std::string::npos);

  const SmallBag piped;
  ASSERT_EQ(::mkfifo((piped / "data/pipe").c_str(), 0600), 0);
  EXPECT_NE(faults_of(piped.path()).find("data/pipe: error: is no plain file"), std::string::npos);
  EXPECT_FALSE(check_bag(piped.path())->is_safe);
}

TEST(BagCheck, ReadsNothingUnderANameThatLeadsAway) {
  const SmallBag bag;
  const std::string manifest = bytes_of_file(bag / "manifest-sha512.txt");
  for (const char* name : {"data/../../../etc/passwd", "/etc/passwd", "data/%2e%2e/x", "data/a%0A"}) {
    write_file(bag / "manifest-sha512.txt", manifest.substr(0, 130) + name + "\n");
    const Result<BagCheck> check = check_bag(bag.path());
    ASSERT_TRUE(check);
    EXPECT_FALSE(check->is_safe) << name;
    EXPECT_EQ(check->faults.back().id, "evidence/name") << name;
  }
  const SmallBag percent;
  write_file(percent / "data/100%25.csv", "");
  EXPECT_NE(faults_of(percent.path()).find("the name 'data/100%25.csv' holds '%'"), std::string::npos);
}

TEST(BagCheck, KeepsWhatIsPayloadAndWhatIsTagApart) {
  const SmallBag bag;
  const std::string tags = bytes_of_file(bag / "tagmanifest-sha512.txt");
  std::string line = bytes_of_file(bag / "manifest-sha512.txt");
  line = line.substr(0, line.find('\n') + 1);
  const std::size_t before = tags.find('\n', tags.find("bagit.txt")) + 1;
  write_file(bag / "tagmanifest-sha512.txt", std::string(tags).insert(before, line));
  EXPECT_EQ(
      faults_of(bag.path()),
      "tagmanifest-sha512.txt: error: lists 'data/book/book.toml', which has no place in it [evidence/manifest]\n");
}

// A line of the manifest of tags is put in, in its order, or taken out.
void put_line(const SmallBag& bag, const std::string& name, const std::string& digest) {
  Manifest tags = *parse_manifest(bytes_of_file(bag / "tagmanifest-sha512.txt"), "");
  if (digest.empty()) tags.erase(name);
  if (!digest.empty()) tags[name] = digest;
  write_file(bag / "tagmanifest-sha512.txt", manifest_text(tags));
}

// Whoever makes the digests anew is found by what a bag has to be.
TEST(BagCheck, FindsADeclarationOfSomethingElseWhateverTheDigests) {
  const SmallBag bag;
  const std::string other = "BagIt-Version: 0.97\nTag-File-Character-Encoding: UTF-8\n";
  write_file(bag / "bagit.txt", other);
  put_line(bag, "bagit.txt", sha512_of(other));
  EXPECT_EQ(faults_of(bag.path()), "bagit.txt: error: does not declare a bag of BagIt 1.0 in UTF-8 [evidence/bag]\n");
}

TEST(BagCheck, FindsTagsThatAreNotListedAndSuchAsHaveNoPlace) {
  const SmallBag bag;
  put_line(bag, "READ-ME-FIRST.txt", "");
  EXPECT_NE(faults_of(bag.path()).find("READ-ME-FIRST.txt: error: is not listed in tagmanifest-sha512.txt"),
            std::string::npos);
  for (const std::string name : {"tagmanifest-sha512.txt", "signature.ed25519"}) {
    const SmallBag more(true);
    put_line(more, name, sha512_of(bytes_of_file(more / name)));
    EXPECT_NE(
        faults_of(more.path()).find("tagmanifest-sha512.txt: error: lists '" + name + "', which has no place in it"),
        std::string::npos)
        << faults_of(more.path());
  }
}

TEST(BagCheck, SaysOfNoFileThatItIsNotListedWhereAListIsGone) {
  const SmallBag bag;
  fs::remove(bag / "manifest-sha512.txt");
  EXPECT_EQ(faults_of(bag.path()).find("is in no manifest"), std::string::npos) << faults_of(bag.path());
  EXPECT_NE(faults_of(bag.path()).find("so nobody can say what the package should hold"), std::string::npos);
}

TEST(BagCheck, CountsTheBytesOfAllFiles) {
  const SmallBag bag;
  std::uintmax_t bytes = 0;
  for (const fs::path& file : files_of(bag)) bytes += fs::file_size(file);
  EXPECT_EQ(check_bag(bag.path())->bytes, bytes);
}

// Eight files in three folders, the deepest three below the first; a manifest may be just so large.
TEST(BagCheck, TakesABagThatIsJustWithinItsLimits) {
  const SmallBag bag;
  BagLimits just;
  just.files = 11;
  just.depth = 3;
  just.manifest_bytes =
      std::max(fs::file_size(bag / "manifest-sha512.txt"), fs::file_size(bag / "tagmanifest-sha512.txt"));
  EXPECT_TRUE(check_bag(bag.path(), just)->faults.empty());
  BagLimits fewer = just;
  fewer.files = 10;
  EXPECT_FALSE(check_bag(bag.path(), fewer)->is_safe);
  BagLimits flatter = just;
  flatter.depth = 2;
  EXPECT_FALSE(check_bag(bag.path(), flatter)->is_safe);
}

TEST(BagCheck, RefusesManifestsAndFoldersBeyondAllMeasure) {
  const SmallBag bag;
  BagLimits small;
  small.manifest_bytes = 100;
  EXPECT_EQ(check_bag(bag.path(), small)->faults.front().id, "evidence/too-large");
  EXPECT_FALSE(check_bag(bag.path(), small)->is_safe);
  BagLimits few;
  few.files = 3;
  EXPECT_EQ(check_bag(bag.path(), few)->faults.front().id, "evidence/too-large");
  BagLimits flat;
  flat.depth = 1;
  EXPECT_EQ(check_bag(bag.path(), flat)->faults.front().id, "evidence/too-large");
  fs::resize_file(bag / "manifest-sha512.txt", std::uintmax_t{1} << 40);  // a hole, no bytes
  EXPECT_EQ(check_bag(bag.path())->faults.front().id, "evidence/too-large");
}

TEST(BagCheck, SaysWhenAFolderIsNoBag) {
  const ScratchFolder empty;
  for (const fs::path& folder : {empty.path(), empty.path() / "nowhere"}) {
    const Result<BagCheck> check = check_bag(folder);
    ASSERT_FALSE(check);
    EXPECT_EQ(to_text(check.faults().front()),
              folder.string() +
                  ": error: is no evidence package; name the folder that holds READ-ME-FIRST.txt, bagit.txt and "
                  "tagmanifest-sha512.txt [evidence/no-bag]");
  }
  for (const char* name : {"bagit.txt", "tagmanifest-sha512.txt"}) {
    const SmallBag half;
    fs::remove(half / name);
    EXPECT_TRUE(check_bag(half.path())) << "a package that lost its " << name;
  }
}

}  // namespace
}  // namespace driftwarden::bag_check_test
