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
    const CalledBook book(text);
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

TEST(Verify, SaysThatChartsItCanNotDrawProveNothingWithoutASignature) {
  for (const bool is_signed : {false, true}) {
    const Package package(is_signed, charted_text());
    const EnvironmentVariable no_programs("PATH", "/nonexistent");
    const Called called = package.verify();
    EXPECT_EQ(called.status, 0);
    EXPECT_EQ(has(called.out, "nobody can say that they are as they were drawn.\n"), !is_signed) << called.out;
    EXPECT_EQ(has(called.out, "Nothing found amiss.\n"), is_signed) << called.out;
  }
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

// A package as version 0.0.9 would have made it, had it said and judged everything as this one does.
class OldPackage : public Package {
 public:
  OldPackage() {
    forge("bag", "data/package.json", "\"0.1.0\"", "\"0.0.9\"");
    forge("bag", "data/results/screen.json", "\"0.1.0\"", "\"0.0.9\"");
    forge("bag", "READ-ME-FIRST.txt", "driftwarden 0.1.0", "driftwarden 0.0.9");
    forge("bag", "data/review.html", "driftwarden 0.1.0", "driftwarden 0.0.9");
    std::string info = text("bag/bag-info.txt");
    info.replace(info.find("0.1.0"), 5, "0.0.9");
    write_file(path("bag/bag-info.txt"), info);
    forge("bag", "data/package.json", "{", "{");  // new digests
  }
  Called verify_with(const std::string& file, const std::string& from, const std::string& to) const {
    forge("bag", file, from, to);
    return verify();
  }
};

TEST(Verify, FindsNothingAmissInAPackageOfAnotherVersionThatSaysTheSame) {
  const OldPackage package;
  EXPECT_EQ(package.verify().status, 0) << package.verify().out;
  EXPECT_TRUE(has(package.verify().out, "the package was made by driftwarden 0.0.9")) << package.verify().out;
}

TEST(Verify, ExcusesNoDifferenceByAnotherVersion) {
  EXPECT_EQ(OldPackage().verify_with("data/workings/S1.txt", "Drift", "Gang").status, 1);
  EXPECT_EQ(OldPackage().verify_with("data/results/screen.txt", "void", "valid").status, 1);
  EXPECT_EQ(OldPackage().verify_with("data/results/screen.json", "\"void\"", "\"valid\"").status, 1);
  EXPECT_EQ(OldPackage().verify_with("data/review.html", "void", "valid").status, 1);
  const Called called = OldPackage().verify_with("data/results/screen.csv", "void", "valid");
  EXPECT_EQ(called.status, 1);
  EXPECT_TRUE(has(called.out, "sample 'S1', verdict: packed 'valid', now 'void' (Results of 0.")) << called.out;
  EXPECT_TRUE(has(called.out, "Under Results in the changes of the program since 0.0.9:\n  0.")) << called.out;
  EXPECT_TRUE(has(called.out, "may account for it, and excuses nothing. Judge anew with\nversion 0.0.9 to know."))
      << called.out;
}

TEST(Verify, MissesATextAndFindsARowTwiceUnderAnyVersion) {
  const OldPackage twice;
  const std::string row =
      "S1," +
      twice.text("bag/data/results/screen.csv").substr(twice.text("bag/data/results/screen.csv").find("\nS1,") + 4);
  EXPECT_EQ(twice.verify_with("data/results/screen.csv", row, row + row).status, 1);
  const OldPackage without;
  fs::remove(without.path("bag/data/results/screen.csv"));
  const Called called = without.verify_with("data/package.json", "{", "{");  // new digests
  EXPECT_EQ(called.status, 1);
  EXPECT_TRUE(has(called.out, "data/results/screen.csv: is not in the package, and would be now")) << called.out;
}

TEST(Verify, RefusesAVersionThatIsNone) {
  const Package package;
  package.forge("bag", "data/package.json", "0.1.0", "0.1.0\\u001b[2J\\nsignature   good");
  const Called called = package.verify();
  EXPECT_EQ(called.status, 1);
  EXPECT_TRUE(has(called.out, "is no version")) << called.out;
  EXPECT_FALSE(has(called.out, "\x1b")) << called.out;
  EXPECT_FALSE(has(called.out, "\nsignature   good")) << called.out;
}

TEST(Verify, MissesASignatureThatThePackageWasMadeWith) {
  const Package package(true);
  fs::remove(package.path("bag/signature.ed25519"));
  fs::remove(package.path("bag/signed-by.pem"));
  package.forge("bag", "data/package.json", "{", "{");  // new digests, without the key
  const Called called = package.verify();
  EXPECT_EQ(called.status, 1);
  EXPECT_TRUE(has(called.out, "signature.ed25519: error: is not there, though the package was made with one"))
      << called.out;
  EXPECT_TRUE(has(called.out, "The package is not as it was made.\n")) << called.out;
}

TEST(Verify, RefusesNamesThatNoPackageHas) {
  for (const char* name : {"data/book/instruments-2.csv", "data/book/notes.txt", "data/rules/more.toml",
                           "data/charts/PUMP-99.drift.svg", "data/page.html"}) {
    const Package package;
    write_file(package.path(std::string("bag/") + name), "a");
    package.forge("bag", name, "a", "b");
    const Called called = package.verify();
    EXPECT_EQ(called.status, 1) << name;
    EXPECT_TRUE(has(called.out, std::string(name) + ": is in the package, and would not be now")) << called.out;
  }
}

TEST(Verify, MakesBagInfoAnew) {
  const Package package;
  const std::string tags = package.text("bag/tagmanifest-sha512.txt");
  std::string info = package.text("bag/bag-info.txt");
  EXPECT_EQ(package.verify().status, 0);
  info.replace(info.find("2026-11-16"), 10, "2026-11-17");
  write_file(package.path("bag/bag-info.txt"), info);
  EXPECT_TRUE(has(package.verify().out, "bag-info.txt: line 2: packed 'Bagging-Date: 2026-11-17\\x0a', now"))
      << package.verify().out;
}

TEST(Verify, TellsARulePackThatIsNotWhatItsNameSays) {
  const ScratchFolder share;
  fs::copy(std::string(project_folder()) + "/rules", share.path() / "rules");
  fs::copy(std::string(project_folder()) + "/plots", share.path() / "plots");
  const std::string file = (share.path() / "rules/common-practice.toml").string();
  std::string pack = text_of_file(file);
  const std::string limit = "within    = \"5 %\"";
  pack.replace(pack.find(limit), limit.size(), "within    = \"4 %\"");
  write_file(file, pack);
  BookText text;
  text.settings += "[rules]\npacks = [\"common-practice\"]\n";
  const CalledBook book(text);
  const PackageFolder folder;
  std::ostringstream out;
  std::ostringstream err;
  Surroundings with_altered_rules{out, err, false, false, 20773 * Moment{86400}, share.path(), "0.1.0"};
  run_command_line({"evidence", book.path(), "--out", folder.path("bag")}, with_altered_rules);
  EXPECT_TRUE(has(folder.text("bag/READ-ME-FIRST.txt"), "  ALTERED   the rule pack common-practice, edition "))
      << err.str();
  const Called called = call({"verify", folder.path("bag")});
  EXPECT_EQ(called.status, 1) << called.out;
  EXPECT_TRUE(has(called.out, "rules       the rule pack common-practice, edition ")) << called.out;
  EXPECT_TRUE(has(called.out, "'within    = \"4 %\"', shipped: 'within    = \"5 %\"'")) << called.out;
  EXPECT_TRUE(has(called.out, "The package was judged by rules that are not what their name says.\n")) << called.out;
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
