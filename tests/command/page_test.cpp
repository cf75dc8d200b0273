// SPDX-License-Identifier: MIT
#include <gtest/gtest.h>

#include <filesystem>

#include "command/called.hpp"
#include "system/digest.hpp"

namespace driftwarden::page_command_test {
namespace {

// What the command answers where shipped files lie in `share`.
Called called_with(const std::filesystem::path& share, const std::string& out_file) {
  std::ostringstream out;
  std::ostringstream err;
  Surroundings surroundings{out, err, false, false, 0, share, "0.1.0"};
  const int status = run_command_line({"page", "--out", out_file}, surroundings);
  return {status, out.str(), err.str()};
}

void write_page(const std::filesystem::path& file, const std::string& text) {
  std::filesystem::create_directories(file.parent_path());
  std::ofstream(file, std::ios::binary) << text;
}

TEST(PageCommand, WritesThePageThatLiesBesideThePacksAndTellsItsDigest) {
  const ScratchFolder share;
  write_page(share.path() / "driftwarden.html", "<!DOCTYPE html>");
  const std::string out = (share.path() / "mine.html").string();
  const Called called = called_with(share.path(), out);
  EXPECT_EQ(called.status, 0) << called.err;
  EXPECT_EQ(text_of_file(out), "<!DOCTYPE html>");
  EXPECT_EQ(called.out, out + "\nSHA-256 " + sha256_of("<!DOCTYPE html>") + "\n");
}

TEST(PageCommand, WritesThePageThatWasBuiltInTheFolderOfTheSources) {
  const ScratchFolder share;
  write_page(share.path() / "build" / "page" / "driftwarden.html", "built");
  const std::string out = (share.path() / "mine.html").string();
  EXPECT_EQ(called_with(share.path(), out).status, 0);
  EXPECT_EQ(text_of_file(out), "built");
}

TEST(PageCommand, SaysWhatIsLackingWhereNoPageWasInstalled) {
  const ScratchFolder share;
  const std::string out = (share.path() / "mine.html").string();
  const Called called = called_with(share.path(), out);
  EXPECT_EQ(called.status, 2);
  EXPECT_NE(called.err.find("this program was installed without its page"), std::string::npos) << called.err;
  EXPECT_NE(called.err.find("take driftwarden.html from a release"), std::string::npos) << called.err;
  EXPECT_FALSE(std::filesystem::exists(out));
}

TEST(PageCommand, DoesNotReplaceThePageThatItWritesFrom) {
  const ScratchFolder share;
  const std::filesystem::path page = share.path() / "driftwarden.html";
  write_page(page, "kept");
  EXPECT_EQ(called_with(share.path(), page.string()).status, 2);
  EXPECT_EQ(text_of_file(page.string()), "kept");
}

}  // namespace
}  // namespace driftwarden::page_command_test
