// SPDX-License-Identifier: MIT
#include <gtest/gtest.h>
#include <unistd.h>

#include <set>

#include "book/book_table.hpp"
#include "command/package_folder.hpp"
#include "support/project_folder.hpp"

namespace driftwarden::evidence_test {
namespace {

namespace fs = std::filesystem;

bool has(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }

std::set<std::string> names_in(const fs::path& folder) {
  std::set<std::string> names;
  for (const auto& entry : fs::recursive_directory_iterator(folder)) {
    if (entry.is_regular_file()) names.insert(entry.path().lexically_relative(folder).string());
  }
  return names;
}

BookText two_batches() {
  BookText text = judged_text("5 %");
  text.samples =
      "sample,batch,pump,started,stopped\n"
      "S1,A,P1,2026-09-21T08:00,2026-09-21T16:00\n"
      "S2,B,P2,2026-09-21T08:00,2026-09-21T16:00\n";
  text.readings +=
      "2026-09-21T07:30,pre,S2,V2,2.000\n"
      "2026-09-21T16:10,post,S2,V2,1.000\n";
  return text;
}

TEST(Evidence, AnswersAsScreenDoesWhereAFindingIsOverruled) {
  BookText text = judged_text();
  const CalledBook open(text);
  text.decisions = "decided,by,subject,rule,ruling,reason\n2026-09-22T09:00,keeper,S1,own/drift,overrule,Read again.\n";
  const CalledBook settled(text);
  const PackageFolder folder;
  EXPECT_EQ(call({"evidence", open.path(), "--out", folder.path("open")}).status, 1);
  EXPECT_EQ(call({"evidence", settled.path(), "--out", folder.path("settled")}).status, 0);
}

TEST(Evidence, PacksInputsRulesResultsAndWorkings) {
  const CalledBook book(judged_text("5 %"));
  const PackageFolder folder;
  const Called called = call({"evidence", book.path(), "--out", folder.path("bag")});
  EXPECT_EQ(called.status, 0) << called.err;
  EXPECT_TRUE(has(called.out, "bag: 1 sample: 1 valid, 0 qualified, 0 undecided, 0 void\nnot signed\n"));
  std::set<std::string> names = names_in(folder.path("bag"));
  for (const char* name : {"READ-ME-FIRST.txt",
                           "bagit.txt",
                           "bag-info.txt",
                           "manifest-sha512.txt",
                           "tagmanifest-sha512.txt",
                           "data/package.json",
                           "data/review.html",
                           "data/book/book.toml",
                           "data/book/own.toml",
                           "data/book/instruments.csv",
                           "data/book/certificates.csv",
                           "data/book/samples.csv",
                           "data/book/readings.csv",
                           "data/rows-used.csv",
                           "data/results/screen.txt",
                           "data/results/screen.csv",
                           "data/results/screen.json",
                           "data/results/history.csv",
                           "data/results/history.json",
                           "data/workings/S1.txt",
                           "data/workings/index.csv"})
    EXPECT_EQ(names.erase(name), 1U) << name;
  for (const std::string& name : names) EXPECT_TRUE(name.starts_with("data/charts/") && name.ends_with(".svg")) << name;
}

TEST(Evidence, KeepsTheInputsByteForByte) {
  BookText text = judged_text("5 %");
  text.samples =
      "\xEF\xBB\xBF"
      "sample,pump,started,stopped,odd column\r\nS1,P1,2026-09-21T08:00,2026-09-21T16:00,x\r\n";
  text.decisions = "decided,by,subject,rule,ruling,reason\n";
  text.service = "serviced,instrument,what\n2026-09-01T08:00,P1,cleaned\n";
  const CalledBook book(text);
  const PackageFolder folder;
  call({"evidence", book.path(), "--out", folder.path("bag")});
  std::vector<std::string> files{"book.toml", "own.toml"};
  for (const BookTable& table : book_tables()) files.push_back(table.file());
  for (const std::string& file : files)
    EXPECT_EQ(folder.text(std::string("bag/data/book/") + file), text_of_file(book.file(file))) << file;
}

TEST(Evidence, LeavesOutWhatNoTableTakes) {
  const CalledBook book(judged_text("5 %"));
  std::ofstream(book.file("notes.txt")) << "nothing";
  const PackageFolder folder;
  const Called called = call({"evidence", book.path(), "--out", folder.path("bag")});
  EXPECT_EQ(called.status, 0) << called.err;
  EXPECT_NE(called.err.find("notes.txt: remark: is not read"), std::string::npos) << called.err;
  EXPECT_FALSE(std::filesystem::exists(folder.path("bag/data/book/notes.txt")));
}

TEST(Evidence, PacksShippedPacksByteForByte) {
  BookText text;
  text.settings += "[rules]\npacks = [\"common-practice\"]\n";
  const CalledBook book(text);
  const PackageFolder folder;
  call({"evidence", book.path(), "--out", folder.path("bag")});
  EXPECT_EQ(folder.text("bag/data/rules/common-practice.toml"),
            text_of_file(std::string(project_folder()) + "/rules/common-practice.toml"));
}

TEST(Evidence, HoldsWhatScreenAndExplainPrint) {
  const CalledBook book(two_batches());
  const PackageFolder folder;
  call({"evidence", book.path(), "--out", folder.path("bag")});
  EXPECT_EQ(folder.text("bag/data/results/screen.csv"), call({"screen", book.path(), "--format", "csv"}).out);
  EXPECT_EQ(folder.text("bag/data/results/screen.json"), call({"screen", book.path(), "--format", "json"}).out);
  EXPECT_EQ(folder.text("bag/data/results/screen.txt"), call({"screen", book.path()}).out);
  EXPECT_EQ(folder.text("bag/data/workings/S2.txt"), call({"explain", book.path(), "S2"}).out);
  EXPECT_EQ(folder.text("bag/data/workings/index.csv"), "sample,file\nS1,S1.txt\nS2,S2.txt\n");
}

TEST(Evidence, OfABatchHoldsWholeFilesAndSaysWhichRowsAreUsed) {
  const CalledBook book(two_batches());
  const PackageFolder folder;
  const Called called = call({"evidence", book.path(), "--batch", "A", "--out", folder.path("bag")});
  EXPECT_EQ(called.status, 0) << called.err;
  EXPECT_EQ(folder.text("bag/data/book/readings.csv"), text_of_file(book.file("readings.csv")));
  EXPECT_EQ(folder.text("bag/data/results/screen.csv"),
            call({"screen", book.path(), "--batch", "A", "--format", "csv"}).out);
  const std::string rows = folder.text("bag/data/rows-used.csv");
  EXPECT_TRUE(has(rows, "readings.csv,2,reading,S1\nreadings.csv,3,reading,S1\n")) << rows;
  EXPECT_FALSE(has(rows, "S2")) << rows;
  EXPECT_FALSE(fs::exists(folder.path("bag/data/workings/S2.txt")));
  EXPECT_TRUE(has(folder.text("bag/READ-ME-FIRST.txt"), "Covers    batch A\n"));
}

TEST(Evidence, AnswersOneWhereASampleIsVoidAndTwoWhereARecordIsFaulty) {
  const PackageFolder folder;
  const CalledBook void_book(judged_text("2 %"));
  EXPECT_EQ(call({"evidence", void_book.path(), "--out", folder.path("void")}).status, 1);
  EXPECT_TRUE(fs::exists(folder.path("void/bagit.txt")));
  BookText text = judged_text("5 %");
  text.readings += "2026-09-21T07:31,pre,S1,V1,2.O00\n";
  const CalledBook faulty(text);
  EXPECT_EQ(call({"evidence", faulty.path(), "--out", folder.path("faulty")}).status, 2);
  EXPECT_TRUE(has(folder.text("faulty/READ-ME-FIRST.txt"), "1 records of the book could not be understood"));
}

TEST(Evidence, GivesTheSameBytesAgain) {
  const CalledBook book(two_batches());
  const PackageFolder folder;
  for (const char* name : {"one", "two"})
    call({"evidence", book.path(), "--as-of", "2026-10-01", "--sign", folder.path("signer.key"), "--threads",
          name == std::string("one") ? "1" : "3", "--out", folder.path(name)});
  EXPECT_EQ(names_in(folder.path("one")), names_in(folder.path("two")));
  for (const std::string& name : names_in(folder.path("one")))
    EXPECT_EQ(folder.text("one/" + name), folder.text("two/" + name)) << name;
  EXPECT_TRUE(has(folder.text("one/bag-info.txt"), "Bagging-Date: 2026-10-01\n"));
}

TEST(Evidence, SignsWhereAsked) {
  const CalledBook book(judged_text("5 %"));
  const PackageFolder folder;
  const Called called =
      call({"evidence", book.path(), "--sign", folder.path("signer.key"), "--out", folder.path("bag")});
  EXPECT_EQ(called.status, 0) << called.err;
  EXPECT_TRUE(has(called.out, "signed by the key with the fingerprint (SHA-256)\n")) << called.out;
  EXPECT_EQ(folder.text("bag/signed-by.pem"), public_pem_1);
  EXPECT_EQ(folder.text("bag/signature.ed25519").size(), 64U);
}

TEST(Evidence, MakesNothingWhereTheKeyOrTheBatchIsUnknown) {
  const CalledBook book(two_batches());
  const PackageFolder folder;
  write_file(folder.path("encrypted.key"), encrypted_pem);
  for (const auto& [option, value] : std::vector<std::pair<std::string, std::string>>{
           {"--sign", folder.path("nowhere.key")}, {"--sign", folder.path("encrypted.key")}, {"--batch", "C"}}) {
    const Called called = call({"evidence", book.path(), option, value, "--out", folder.path("bag")});
    EXPECT_EQ(called.status, 2) << value;
    EXPECT_FALSE(called.err.empty());
    EXPECT_FALSE(fs::exists(folder.path("bag")));
  }
}

TEST(Evidence, NeverWritesOverAFolder) {
  const CalledBook book(judged_text("5 %"));
  const PackageFolder folder;
  fs::create_directory(folder.path("bag"));
  const Called called = call({"evidence", book.path(), "--out", folder.path("bag")});
  EXPECT_EQ(called.status, 2);
  EXPECT_TRUE(has(called.err, "[output/already-there]")) << called.err;
  EXPECT_TRUE(fs::is_empty(folder.path("bag")));
}

TEST(Evidence, RefusesRulePacksFromOutsideTheBook) {
  BookText text = judged_text("5 %");
  text.settings = "title = \"Q\"\ntime_zone = \"UTC\"\n[rules]\npacks = [\"" + std::string(project_folder()) +
                  "/rules/common-practice.toml\"]\n";
  const CalledBook book(text);
  const PackageFolder folder;
  const Called called = call({"evidence", book.path(), "--out", folder.path("bag")});
  EXPECT_EQ(called.status, 2);
  EXPECT_TRUE(has(called.err, "[evidence/pack-outside]")) << called.err;
}

TEST(Evidence, HasChartsOfTheInstrumentsAskedFor) {
  BookText text = charted_text("5 %");
  text.samples =
      "sample,batch,pump,started,stopped\nS1,A,P1,2026-09-21T08:00,2026-09-21T16:00\n"
      "S2,B,P2,2026-09-22T08:00,2026-09-22T16:00\n";
  text.readings += "2026-09-22T07:30,pre,S2,V1,2\n2026-09-22T16:30,post,S2,V1,2\n";
  const CalledBook book(text);
  const PackageFolder folder;
  const auto charts = [&](const char* of) {
    const std::string bag = folder.path(of);
    EXPECT_EQ(call({"evidence", book.path(), "--batch", "A", "--charts", of, "--out", bag}).err, "") << of;
    EXPECT_EQ(call({"verify", bag}).status, 0) << of;
    return fs::exists(bag + "/data/charts");
  };
  EXPECT_TRUE(charts("used"));
  EXPECT_TRUE(charts("all"));
  EXPECT_FALSE(charts("none"));
  EXPECT_FALSE(has(folder.text("used/data/results/history.csv"), "P2,"));
  EXPECT_TRUE(has(folder.text("all/data/results/history.csv"), "P2,"));
  EXPECT_TRUE(has(folder.text("none/READ-ME-FIRST.txt"), "(no charts: none were asked for)"));
  EXPECT_TRUE(has(folder.text("none/data/review.html"), "There are no charts on this page: none were asked for."));
}

TEST(Evidence, GoesWithoutChartsWhereNothingCanDrawThemAndSaysSo) {
  const CalledBook book(charted_text("5 %"));
  const PackageFolder folder;
  const EnvironmentVariable path("PATH", folder.path("nowhere"));
  const Called called = call({"evidence", book.path(), "--out", folder.path("bag")});
  EXPECT_EQ(called.status, 0) << called.err;
  EXPECT_TRUE(has(called.err, "[evidence/no-charts]")) << called.err;
  EXPECT_FALSE(fs::exists(folder.path("bag/data/charts")));
  EXPECT_TRUE(has(folder.text("bag/READ-ME-FIRST.txt"), "data/charts/         MISSING"));
  EXPECT_EQ(call({"verify", folder.path("bag")}).status, 0);
}

}  // namespace
}  // namespace driftwarden::evidence_test
