// SPDX-License-Identifier: MIT
#include "workshop/gnuplot_run.hpp"

#include <gtest/gtest.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <csignal>
#include <fstream>
#include <iterator>

#include "book/scratch_folder.hpp"

namespace driftwarden::gnuplot_run_test {
namespace {

namespace fs = std::filesystem;

const std::string one_picture =
    "set terminal svg size 200,100\nset output 'a.svg'\nplot '-' with points\n1 2\n3 4\ne\nunset output\n";

std::string text_of(const fs::path& path) {
  std::ifstream file(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(file), {}};
}

TEST(Drawing, PutsThePicturesIntoTheFolderAndLeavesNothingElse) {
  const ScratchFolder folder;
  EXPECT_TRUE(draw_pictures(one_picture, {"a.svg"}, folder.path()).empty());
  EXPECT_TRUE(text_of(folder.path() / "a.svg").ends_with("</svg>\n\n"));
  EXPECT_EQ(std::distance(fs::directory_iterator(folder.path()), fs::directory_iterator()), 1);
}

TEST(Drawing, NamesThePackageWhereTheProgramIsMissing) {
  const ScratchFolder folder;
  const Diagnostics faults = draw_pictures(one_picture, {"a.svg"}, folder.path(), "no-such-gnuplot-program");
  ASSERT_EQ(faults.size(), 1U);
  EXPECT_EQ(faults[0].id, "plot/no-gnuplot");
  EXPECT_NE(faults[0].hint.find("gnuplot-nox"), std::string::npos);
  EXPECT_TRUE(fs::is_empty(folder.path()));
}

TEST(Drawing, TellsWhatIsWrongWithAScript) {
  const ScratchFolder folder;
  const Diagnostics faults = draw_pictures("set output 'a.svg'\nplit 3\n", {"a.svg"}, folder.path());
  ASSERT_EQ(faults.size(), 1U);
  EXPECT_EQ(faults[0].id, "plot/failed");
  EXPECT_NE(faults[0].message.find("line 2"), std::string::npos) << faults[0].message;
}

TEST(Drawing, KeepsAnOlderPictureWhereANewOneFailed) {
  const ScratchFolder folder;
  std::ofstream(folder.path() / "a.svg") << "older";
  EXPECT_FALSE(draw_pictures("nonsense\n", {"a.svg"}, folder.path()).empty());
  EXPECT_EQ(text_of(folder.path() / "a.svg"), "older");
}

TEST(Drawing, MissesAPictureThatTheScriptDidNotDraw) {
  const ScratchFolder folder;
  const Diagnostics faults = draw_pictures(one_picture, {"a.svg", "b.svg"}, folder.path());
  ASSERT_EQ(faults.size(), 1U);
  EXPECT_NE(faults[0].message.find("'b.svg'"), std::string::npos);
}

TEST(Drawing, SaysThatTheFolderCannotBeWrittenTo) {
  const Diagnostics faults = draw_pictures(one_picture, {"a.svg"}, "/nonexistent-folder/deeper");
  ASSERT_EQ(faults.size(), 1U);
  EXPECT_EQ(faults[0].id, "output/unwritable");
}

TEST(Drawing, SaysThatAPictureIsCutOff) {
  const ScratchFolder folder;
  const Diagnostics faults = draw_pictures("set print 'a.svg'\nprint '<svg>'\nunset print\n", {"a.svg"}, folder.path());
  ASSERT_EQ(faults.size(), 1U);
  EXPECT_EQ(faults[0].message, "gnuplot could not draw: the picture 'a.svg' is not whole");
}

TEST(Drawing, SaysWhyAPictureCanNotBeRead) {
  const ScratchFolder folder;
  const Diagnostics faults = draw_pictures("system 'mkdir a.svg'\n", {"a.svg"}, folder.path());
  ASSERT_EQ(faults.size(), 1U);
  EXPECT_EQ(faults[0].message, "gnuplot could not draw: the picture 'a.svg' can't be read: Is a directory");
}

// What a process is told that may write no file larger than a few bytes.
std::string said_without_room(const fs::path& folder) {
  std::array<int, 2> ends{};
  if (pipe(ends.data()) != 0) return "no pipe";
  const pid_t child = fork();
  if (child == 0) {
    ::signal(SIGXFSZ, SIG_IGN);
    const rlimit small{10, 10};
    setrlimit(RLIMIT_FSIZE, &small);
    const Diagnostics faults = draw_pictures(one_picture, {"a.svg"}, folder);
    const std::string said = faults.empty() ? "" : to_text(faults.front());
    _exit(write(ends[1], said.data(), said.size()) < 0 ? 1 : 0);
  }
  close(ends[1]);
  std::string said(1000, ' ');
  said.resize(static_cast<std::size_t>(std::max<ssize_t>(0, read(ends[0], said.data(), said.size()))));
  close(ends[0]);
  waitpid(child, nullptr, 0);
  return said;
}

TEST(Drawing, SaysWhyTheScriptCanNotBeWritten) {
  const ScratchFolder folder;
  const std::string said = said_without_room(folder.path());
  EXPECT_NE(said.find("could not be written: File too large; "), std::string::npos) << said;
}

TEST(Drawing, OfNoPicturesNeedsNoProgram) {
  EXPECT_TRUE(draw_pictures("", {}, "/nonexistent-folder", "no-such-gnuplot-program").empty());
}

TEST(Drawing, OfAPdfHasTheSameBytesAgain) {
  const ScratchFolder folder;
  const std::string script =
      "set terminal pdfcairo size 2in,1in\nset output 'a.pdf'\nplot '-' with points\n1 2\ne\nunset output\n";
  ASSERT_TRUE(draw_pictures(script, {"a.pdf"}, folder.path()).empty());
  EXPECT_NE(text_of(folder.path() / "a.pdf").find("/CreationDate (D:19700101000000"), std::string::npos);
}

}  // namespace
}  // namespace driftwarden::gnuplot_run_test
