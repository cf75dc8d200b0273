// SPDX-License-Identifier: MIT
#include "command/manual_pages.hpp"

#include <gtest/gtest.h>

#include <filesystem>

#include "command/called.hpp"

namespace driftwarden::manual_pages_test {
namespace {

bool has(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }

TEST(ManualPages, AreOneOfTheProgramAndOneACommand) {
  const ScratchFolder folder;
  EXPECT_EQ(call({"manual", folder.path().string()}).status, 0);
  const std::string all = text_of_file(folder.path() / "driftwarden.1");
  EXPECT_TRUE(all.starts_with(".TH DRIFTWARDEN 1 "));
  EXPECT_TRUE(has(all, ".BR driftwarden\\-screen (1)\n"));
  EXPECT_FALSE(has(all, "complete"));
  EXPECT_TRUE(std::filesystem::exists(folder.path() / "driftwarden-rules.1"));
  EXPECT_FALSE(std::filesystem::exists(folder.path() / "driftwarden-manual.1"));
}

TEST(ManualPages, HoldWhatHelpSays) {
  const ScratchFolder folder;
  ASSERT_EQ(call({"manual", folder.path().string()}).status, 0);
  const std::string page = text_of_file(folder.path() / "driftwarden-screen.1");
  EXPECT_TRUE(has(page, "driftwarden\\-screen \\- judge the samples: a verdict for each, and totals\n")) << page;
  EXPECT_TRUE(has(page, ".B \\-\\-format \\fI{table,csv,json,sarif,results}\\fR\n")) << page;
  EXPECT_TRUE(has(page, ".I [BOOK]\n")) << page;
  EXPECT_TRUE(has(text_of_file(folder.path() / "driftwarden-evidence.1"), "occupational hygienist"));
  EXPECT_TRUE(has(text_of_file(folder.path() / "driftwarden-rules.1"), ".B driftwarden rules measures\n"));
}

TEST(ManualPages, AreNotWrittenWhereThereIsNoFolder) {
  const Called called = call({"manual", "/nowhere/at/all"});
  EXPECT_EQ(called.status, 2);
  EXPECT_TRUE(has(called.err, "[output/unwritable]")) << called.err;
}

}  // namespace
}  // namespace driftwarden::manual_pages_test
