// SPDX-License-Identifier: MIT
#include <gtest/gtest.h>

#include "command/package_folder.hpp"

namespace driftwarden::verify_test {
namespace {

namespace fs = std::filesystem;

bool has(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }

// A package of the book judged_text(), as "bag" in a folder of its own.
class Package : public PackageFolder {
 public:
  explicit Package(bool is_signed = false, const BookText& text = judged_text("2 %")) {
    const BookFolder book(text);
    std::vector<std::string> words{"evidence", book.path(), "--out", path("bag")};
    if (is_signed) words.insert(words.end(), {"--sign", path("signer.key")});
    made_ = call(words);
  }
  Called verify(std::vector<std::string> more = {}) const {
    more.insert(more.begin(), {"verify", path("bag")});
    return call(more);
  }
  const Called& made() const { return made_; }

 private:
  Called made_;
};

TEST(Verify, FindsNothingAmissInAPackageAsItWasMade) {
  const Package package;
  ASSERT_EQ(package.made().status, 1) << package.made().err << "S1 is void: no matter to verify";
  const Called called = package.verify();
  EXPECT_EQ(called.status, 0) << called.out << called.err;
  EXPECT_EQ(called.err, "");
  EXPECT_TRUE(has(called.out, "structure   sound: a BagIt bag of ")) << called.out;
  EXPECT_TRUE(has(called.out, "digests     hold (SHA-512)\n")) << called.out;
  EXPECT_TRUE(has(called.out, "signature   none: the package is not signed")) << called.out;
  EXPECT_TRUE(
      has(called.out, "results     the same, judged anew by driftwarden 0.1.0 from the package alone: 1 sample,"))
      << called.out;
  EXPECT_TRUE(has(called.out, "Nothing found amiss.\n"));
}

TEST(Verify, NeedsNothingButThePackage) {
  const Package package(false, [] {
    BookText text;
    text.settings += "[rules]\npacks = [\"common-practice\"]\n";
    return text;
  }());
  std::ostringstream out;
  std::ostringstream err;
  Surroundings nowhere{out, err, false, false, 0, "/nowhere", "0.1.0"};
  EXPECT_EQ(run_command_line({"verify", package.path("bag")}, nowhere), 0) << out.str() << err.str();
}

TEST(Verify, ChecksTheSignatureWithTheKeyGiven) {
  const Package package(true);
  const Called good = package.verify({"--key", package.path("signer.pem")});
  EXPECT_EQ(good.status, 0) << good.out;
  EXPECT_TRUE(has(good.out, "signature   good: made with the private half of '")) << good.out;
  const Called other = package.verify({"--key", package.path("other.pem")});
  EXPECT_EQ(other.status, 1);
  EXPECT_TRUE(has(other.out, "signature.ed25519: error: does not fit the key of '")) << other.out;
}

TEST(Verify, SaysThatASignatureWasNotCheckedWithoutAKey) {
  const Package package(true);
  const Called called = package.verify();
  EXPECT_EQ(called.status, 0);
  EXPECT_TRUE(has(called.out, "signature   not checked:")) << called.out;
  write_file(package.path("bag/signature.ed25519"), std::string(64, 'x'));
  EXPECT_EQ(package.verify().status, 1);
  EXPECT_TRUE(has(package.verify().out, "does not fit the key enclosed")) << package.verify().out;
  fs::remove(package.path("bag/signature.ed25519"));
  EXPECT_EQ(package.verify().status, 1);
}

TEST(Verify, MissesASignatureWhereAKeyIsGiven) {
  const Package package;
  const Called called = package.verify({"--key", package.path("signer.pem")});
  EXPECT_EQ(called.status, 1);
  EXPECT_TRUE(has(called.out, "the package has no signature")) << called.out;
}

TEST(Verify, AnswersTwoForAKeyThatIsNone) {
  const Package package;
  for (const char* key : {"signer.key", "nowhere.pem"})
    EXPECT_EQ(package.verify({"--key", package.path(key)}).status, 2) << key;
}

TEST(Verify, AnswersTwoForAFolderThatIsNoPackage) {
  const PackageFolder folder;
  EXPECT_EQ(call({"verify", folder.path("")}).status, 2);
  EXPECT_EQ(call({"verify", folder.path("nowhere")}).status, 2);
}

TEST(Verify, NamesTheFileAndTheFigureThatWereChanged) {
  const Package package;
  const std::string file = "bag/data/results/screen.csv";
  std::string csv = package.text(file);
  csv.replace(csv.find("void"), 4, "valid");
  write_file(package.path(file), csv);
  const Called called = package.verify();
  EXPECT_EQ(called.status, 1);
  EXPECT_TRUE(has(called.out, "data/results/screen.csv: error: does not have the SHA-512")) << called.out;
  EXPECT_TRUE(has(called.out, "data/results/screen.csv: sample 'S1', verdict: packed 'valid', now 'void'"))
      << called.out;
  EXPECT_TRUE(has(called.out, "The package is not as it was made.\n"));
}

TEST(Verify, FindsAChangedFigureAlsoUnderNewDigests) {
  const Package package;
  package.forge("bag", "data/results/screen.csv", "void", "valid");
  const Called called = package.verify();
  EXPECT_EQ(called.status, 1);
  EXPECT_TRUE(has(called.out, "digests     hold")) << called.out;
  EXPECT_TRUE(has(called.out, "sample 'S1', verdict: packed 'valid', now 'void'")) << called.out;
  EXPECT_TRUE(has(called.out, "either results were changed and the digests made anew")) << called.out;
}

TEST(Verify, FindsAChangedInputAlsoUnderNewDigests) {
  const Package package;
  package.forge("bag", "data/book/readings.csv", "1.950", "1.990");
  const Called called = package.verify();
  EXPECT_EQ(called.status, 1);
  EXPECT_TRUE(has(called.out, "sample 'S1', drift_percent: packed '-2.5")) << called.out;
}

TEST(Verify, FindsAChangedWorkingAlsoUnderNewDigests) {
  const Package package;
  package.forge("bag", "data/workings/S1.txt", "Drift", "Draft");
  const Called called = package.verify();
  EXPECT_EQ(called.status, 1);
  EXPECT_TRUE(has(called.out, "data/workings/S1.txt: line ")) << called.out;
  EXPECT_TRUE(has(called.out, "packed 'Draft")) << called.out;
}

TEST(Verify, FindsAPackedTextThatNobodyMakes) {
  const Package package;
  write_file(package.path("bag/data/results/more.csv"), "a");
  package.forge("bag", "data/results/more.csv", "a", "b");
  EXPECT_TRUE(has(package.verify().out, "data/results/more.csv: is in the package, and would not be now"))
      << package.verify().out;
  EXPECT_EQ(package.verify().status, 1);
}

TEST(Verify, SaysThatAnotherVersionIsNoTampering) {
  const Package package;
  package.forge("bag", "data/package.json", "\"0.1.0\"", "\"0.0.9\"");
  package.forge("bag", "data/results/screen.json", "\"0.1.0\"", "\"0.0.9\"");
  package.forge("bag", "READ-ME-FIRST.txt", "driftwarden 0.1.0", "driftwarden 0.0.9");
  EXPECT_EQ(package.verify().status, 0) << package.verify().out;
  package.forge("bag", "data/workings/S1.txt", "Drift", "Gang");
  const Called reworded = package.verify();
  EXPECT_EQ(reworded.status, 0) << reworded.out;
  EXPECT_TRUE(has(reworded.out, "out the same figures and verdicts,\nand puts some of it in other words"))
      << reworded.out;
  package.forge("bag", "data/results/screen.csv", "void", "valid");
  const Called other = package.verify();
  EXPECT_EQ(other.status, 1);
  EXPECT_TRUE(
      has(other.out, "Version 0.0.9 made the package and version 0.1.0 works out something else: that is no tampering"))
      << other.out;
  EXPECT_TRUE(has(other.out, "sample 'S1', verdict: packed 'valid', now 'void'"));
}

TEST(Verify, JudgesNothingThatIsNotSafeToRead) {
  const Package package;
  fs::create_symlink("/etc/passwd", package.path("bag/data/book/decisions.csv"));
  const Called called = package.verify();
  EXPECT_EQ(called.status, 1);
  EXPECT_TRUE(has(called.out, "Nothing of it was judged.\n")) << called.out;
}

TEST(Verify, ReadsNoRulePackFromTheReadersDisk) {
  const Package package;
  package.forge("bag", "data/book/book.toml", "\"own.toml\"", "\"../../../../../../etc/own.toml\"");
  const Called called = package.verify();
  EXPECT_EQ(called.status, 1);
  EXPECT_TRUE(has(called.out, "[evidence/pack-outside]")) << called.out;
  EXPECT_TRUE(has(called.out, "results     could not be worked out anew")) << called.out;
}

TEST(Verify, SaysWhenThePackageNoteIsNone) {
  const Package package;
  package.forge("bag", "data/package.json", "{", "[");
  const Called called = package.verify();
  EXPECT_EQ(called.status, 1);
  EXPECT_TRUE(has(called.out, "[evidence/package]")) << called.out;
}

}  // namespace
}  // namespace driftwarden::verify_test
