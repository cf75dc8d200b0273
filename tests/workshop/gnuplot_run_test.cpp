// SPDX-License-Identifier: MIT
#include "driftwarden/workshop/gnuplot_run.hpp"

#include <gtest/gtest.h>

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
