// SPDX-License-Identifier: MIT
#include "command/output_file.hpp"

#include <gtest/gtest.h>

#include "command/called.hpp"

namespace driftwarden::output_file_test {
namespace {

TEST(OutputFile, IsOfTheBookUnderAnyName) {
  const CalledBook folder;
  const Result<Book> book = read_book(folder.path(), 1);
  ASSERT_TRUE(book);
  EXPECT_TRUE(is_of_the_book(*book, folder.file("samples.csv")));
  EXPECT_TRUE(is_of_the_book(
      *book, folder.file("../") + std::filesystem::path(folder.path()).filename().string() + "/book.toml"));
  EXPECT_FALSE(is_of_the_book(*book, folder.file("review.html")));
  EXPECT_FALSE(is_of_the_book(*book, "/nowhere/samples.csv"));
}

TEST(OutputFile, IsOfTheBookWhereItsFilesAreLookedFor) {
  namespace fs = std::filesystem;
  const CalledBook folder(judged_text());
  const Result<Book> book = read_book(folder.path(), 1);
  ASSERT_TRUE(book);
  for (const char* name : {"decisions.csv", "service.csv", "own.toml", "readings", "readings/x.csv",
                           "samples/deep/x.csv", "./x/../readings/x.csv"}) {
    EXPECT_TRUE(is_of_the_book(*book, folder.file(name))) << name;
  }
  for (const char* name :
       {"review.html", "history.csv", "reading.csv", "out/readings.csv", "readings.html", "other.toml"})
    EXPECT_FALSE(is_of_the_book(*book, folder.file(name))) << name;
  fs::create_hard_link(folder.file("own.toml"), folder.file("linked.html"));
  fs::create_symlink("readings.csv", folder.file("link.html"));
  fs::create_symlink(folder.path(), folder.file("again"));
  for (const char* name : {"linked.html", "link.html", "again/decisions.csv", "again/readings/x.csv"})
    EXPECT_TRUE(is_of_the_book(*book, folder.file(name))) << name;
}

TEST(OutputFile, OfEveryCommandLeavesWhatIsReadAlone) {
  const CalledBook folder(judged_text());
  const std::string pack = folder.file("own.toml");
  const std::string before = text_of_file(pack);
  const std::vector<std::vector<std::string>> commands{
      {"screen", folder.path(), "--out", pack},
      {"screen", folder.path(), "--out", folder.file("decisions.csv")},
      {"review", folder.path(), "--out", folder.file("readings/x.csv")},
      {"history", folder.path(), "--out", folder.file("readings")},
      {"lookback", folder.path(), "V1", "--certificate", "C1", "--out", pack},
      {"compare", folder.path(), "--guard", "1", "--out", pack},
      {"split", folder.path(), "--parts", "2", "--out", folder.file("samples/parts")},
      {"evidence", folder.path(), "--out", folder.file("readings/package")}};
  for (const std::vector<std::string>& words : commands) {
    const Called called = call(words);
    EXPECT_EQ(called.status, 2) << words[0];
    EXPECT_NE(called.err.find("[output/over-the-book]"), std::string::npos) << words[0] << called.err;
  }
  EXPECT_EQ(text_of_file(pack), before);
  for (const char* name : {"decisions.csv", "readings", "samples"})
    EXPECT_FALSE(std::filesystem::exists(folder.file(name))) << name;
  EXPECT_NE(call({"review", folder.path(), "--out", folder.file("review.html")}).status, 2);
}

TEST(OutputFile, OfJoinIsNoneOfItsParts) {
  const ScratchFolder folder;
  const std::string order = (folder.path() / "order").string();
  const std::string part = (folder.path() / "1.csv").string();
  std::ofstream(order) << "1\n";
  std::ofstream(part) << "sample\nA\n";
  for (const std::string& out : {order, part}) {
    EXPECT_NE(call({"join", order, part, "--out", out}).err.find("[output/over-an-input]"), std::string::npos);
  }
  EXPECT_EQ(text_of_file(part), "sample\nA\n");
}

TEST(OutputFile, IsNamedInWhatIsTold) {
  EXPECT_EQ(
      to_text(over_the_book("samples.csv")),
      "samples.csv: error: the results would replace a file of the book; name another file [output/over-the-book]");
  EXPECT_EQ(to_text(over_an_input("order")),
            "order: error: the results would replace a file that they are made from; name another file "
            "[output/over-an-input]");
}

}  // namespace
}  // namespace driftwarden::output_file_test
