// SPDX-License-Identifier: MIT
#include "command/command_line.hpp"

#include <gtest/gtest.h>

#include <filesystem>

#include "command/called.hpp"
#include "support/project_folder.hpp"

namespace driftwarden::command_line_test {
namespace {

bool has(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }

TEST(CommandLine, ShowsItsHelpWithAnExampleAndTheCautions) {
  const Called called = call({"--help"});
  EXPECT_EQ(called.status, 0);
  for (const char* part :
       {"new", "check", "screen", "explain", "rules", "Example:", "Exit status:", "occupational hygienist"}) {
    EXPECT_TRUE(has(called.out, part)) << part << " is not in\n" << called.out;
  }
}

TEST(CommandLine, HasHelpWithAnExampleForEveryCommand) {
  const std::vector<std::vector<std::string>> commands = {
      {"new"},  {"check"}, {"screen"},         {"explain"},       {"decide"},        {"custody"},          {"compare"},
      {"risk"}, {"rules"}, {"rules", "check"}, {"rules", "list"}, {"rules", "show"}, {"rules", "measures"}};
  for (std::vector<std::string> words : commands) {
    const std::string name = "driftwarden " + words.back();
    words.emplace_back("--help");
    const Called called = call(words);
    EXPECT_EQ(called.status, 0) << name;
    EXPECT_TRUE(has(called.out, "Example:\n  driftwarden " + words.front())) << called.out;
  }
}

TEST(CommandLine, ShowsItsHelpWithoutAWordToo) {
  EXPECT_EQ(call({}).out, call({"--help"}).out);
  EXPECT_EQ(call({}).status, 0);
  EXPECT_EQ(call({"help"}).out, call({"--help"}).out);
  EXPECT_EQ(call({"help", "screen"}).out, call({"screen", "--help"}).out);
  EXPECT_EQ(call({"help", "rules", "show"}).out, call({"rules", "show", "--help"}).out);
  EXPECT_TRUE(has(call({"help", "scren"}).err, "did you mean 'screen'?"));
}

TEST(CommandLine, RunsNothingWhereHelpIsAskedFor) {
  const ScratchFolder folder;
  const std::string fresh = folder.path() / "fresh";
  EXPECT_EQ(call({"help", "new", fresh}).out, call({"new", "--help"}).out);
  EXPECT_FALSE(std::filesystem::exists(fresh));
}

TEST(CommandLine, SaysItsVersion) {
  const Called called = call({"--version"});
  EXPECT_EQ(called.status, 0);
  EXPECT_EQ(called.out, "driftwarden 0.1.0\n");
}

TEST(CommandLine, RefusesAMistypedCommandWithTheNearestOne) {
  const Called called = call({"scren", "book"});
  EXPECT_EQ(called.status, 2);
  EXPECT_EQ(called.out, "");
  EXPECT_EQ(called.err, "command line: error: 'scren' is not a command; did you mean 'screen'? [command/refused]\n");
  EXPECT_TRUE(has(call({"rules", "mesures"}).err, "'mesures' is not a command; did you mean 'measures'?"));
}

TEST(CommandLine, RefusesAMistypedOptionWithTheNearestOne) {
  const Called called = call({"screen", "book", "--bacth", "B-7"});
  EXPECT_EQ(called.status, 2);
  EXPECT_TRUE(has(called.err, "did you mean '--batch'?")) << called.err;
  EXPECT_TRUE(has(call({"screen", "book", "--fromat=csv"}).err, "did you mean '--format'?"));
}

TEST(CommandLine, RefusesAValueThatIsNone) {
  for (const std::vector<std::string>& words :
       std::vector<std::vector<std::string>>{{"screen", "book", "--format", "xml"},
                                             {"screen", "book", "--threads", "0"},
                                             {"screen", "book", "--threads", "many"},
                                             {"explain", "book"},
                                             {"rules"}}) {
    const Called called = call(words);
    EXPECT_EQ(called.status, 2);
    EXPECT_TRUE(has(called.err, "[command/refused]")) << called.err;
  }
}

TEST(CommandLine, TakesAFigureBelowZeroForNoOption) {
  const std::string told = call({"compare", "book", "--guard", "-1"}).err;
  EXPECT_TRUE(has(told, "; see --help [command/refused]")) << told;
}

TEST(CommandLine, ShowsThatAnyNumberOfResultsIsJoined) {
  const std::string help = call({"join", "--help"}).out;
  EXPECT_TRUE(has(help, "ORDER RESULT...")) << help;
  EXPECT_FALSE(has(help, "(2x)")) << help;
}

TEST(CommandLine, TakesTheFolderOneStandsInForTheBook) {
  const CalledBook book;
  const std::filesystem::path before = std::filesystem::current_path();
  std::filesystem::current_path(book.path());
  const Called called = call({"check"});
  std::filesystem::current_path(before);
  EXPECT_EQ(called.status, 0) << called.err;
}

TEST(CommandLine, SaysWhenItsOutputCannotBeWritten) {
  std::ostringstream err;
  std::ofstream full("/dev/full");
  ASSERT_TRUE(full);
  const CalledBook book;
  Surroundings surroundings{full, err, false, false, 0, project_folder(), "0.1.0"};
  for (const std::vector<std::string>& words : std::vector<std::vector<std::string>>{
           {"screen", book.path()}, {"explain", book.path(), "S1"}, {"check", book.path()}, {"--help"}}) {
    full.clear();
    err.str("");
    EXPECT_EQ(run_command_line(words, surroundings), 2) << words.front();
    EXPECT_EQ(err.str(),
              "standard output: error: the results could not be written; check the folder, its rights and the room on "
              "the disk "
              "[output/unwritable]\n");
  }
}

}  // namespace
}  // namespace driftwarden::command_line_test
