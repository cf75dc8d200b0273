// SPDX-License-Identifier: MIT
#include <gtest/gtest.h>

#include "book/book_table.hpp"
#include "command/called.hpp"
#include "command/example_rows.hpp"

namespace driftwarden::new_book_test {
namespace {

namespace fs = std::filesystem;

TEST(NewBook, CanBeCheckedAndScreenedAsItIs) {
  const ScratchFolder scratch;
  const std::string folder = (scratch.path() / "tunnel").string();
  const Called made = call({"new", folder});
  EXPECT_EQ(made.status, 0);
  EXPECT_NE(made.out.find("driftwarden check " + folder), std::string::npos) << made.out;
  const Called checked = call({"check", folder});
  EXPECT_EQ(checked.status, 0) << checked.err;
  EXPECT_EQ(checked.err, "");
  EXPECT_EQ(call({"screen", folder}).status, 0);
}

TEST(NewBook, HasEveryTable) {
  const ScratchFolder scratch;
  const fs::path folder = scratch.path() / "a" / "b";
  EXPECT_EQ(call({"new", folder.string()}).status, 0);
  EXPECT_TRUE(fs::exists(folder / "book.toml"));
  for (const BookTable& table : book_tables()) {
    if (table.is_kept_by_few) {
      EXPECT_FALSE(fs::exists(folder / table.file())) << "few books have it";
      continue;
    }
    EXPECT_EQ(text_of_file((folder / table.file()).string()), heading_line(*table.spec) + example_rows(*table.spec));
  }
  EXPECT_NE(text_of_file((folder / "instruments.csv").string()).find(",resolution [L/min],interval [d],"),
            std::string::npos);
  EXPECT_NE(text_of_file((folder / "certificates.csv").string()).find(",expanded uncertainty [%],"), std::string::npos);
}

TEST(NewBook, MayBeMadeInAnEmptyFolder) {
  const ScratchFolder scratch;
  EXPECT_EQ(call({"new", scratch.path().string()}).status, 0);
}

// What a killed run leaves in a folder that was there: some tables, what it was made in, and no settings.
TEST(NewBook, IsFinishedWhereARunBeforeWasKilled) {
  const ScratchFolder scratch;
  const fs::path half = scratch.path() / "half";
  const fs::path whole = scratch.path() / "whole";
  ASSERT_EQ(call({"new", whole.string()}).status, 0);
  fs::create_directories(half / ".driftwarden-abcdef");
  fs::copy_file(whole / "samples.csv", half / "samples.csv");
  fs::copy_file(whole / "readings.csv", half / "readings.csv");
  EXPECT_EQ(call({"new", half.string()}).status, 0);
  for (const auto& file : fs::directory_iterator(whole)) {
    EXPECT_EQ(text_of_file((half / file.path().filename()).string()), text_of_file(file.path().string()));
  }
}

TEST(NewBook, TouchesNoFolderThatHoldsAnythingElse) {
  for (const char* name : {"samples.csv", "book.toml", "notes.txt"}) {
    const ScratchFolder scratch;
    std::ofstream(scratch.path() / name) << "mine\n";
    EXPECT_EQ(call({"new", scratch.path().string()}).status, 2) << name;
    EXPECT_EQ(std::distance(fs::directory_iterator(scratch.path()), fs::directory_iterator()), 1) << name;
  }
}

TEST(NewBook, NeverWritesOverWhatIsThere) {
  const CalledBook book;
  const std::string before = text_of_file(book.file("samples.csv"));
  const Called again = call({"new", book.path()});
  EXPECT_EQ(again.status, 2);
  EXPECT_NE(again.err.find("something is there already"), std::string::npos) << again.err;
  EXPECT_EQ(text_of_file(book.file("samples.csv")), before);
  const Called on_file = call({"new", book.file("samples.csv")});
  EXPECT_EQ(on_file.status, 2);
  EXPECT_EQ(text_of_file(book.file("samples.csv")), before);
}

TEST(NewBook, SaysWhyAFolderCannotBeMade) {
  const CalledBook book;
  const Called called = call({"new", book.file("samples.csv") + "/inside"});
  EXPECT_EQ(called.status, 2);
  EXPECT_NE(called.err.find("[output/unwritable]"), std::string::npos) << called.err;
}

TEST(NewBook, NeedsAName) {
  EXPECT_EQ(call({"new", ""}).err,
            "command line: error: the new folder has no name; name the folder to make [new/refused]\n");
}

// The lines that are switched off can be switched on.
TEST(NewBook, HasSoundExamplesInItsComments) {
  const ScratchFolder scratch;
  const std::string folder = scratch.path().string();
  ASSERT_EQ(call({"new", folder}).status, 0);
  std::string settings = text_of_file(folder + "/book.toml");
  for (const std::string line : {"# [site]", "# altitude", "# [[override]]", "# rule ", "# within", "# reason",
                                 "# [headings.readings]", "# \"Flow LPM\""}) {
    const std::size_t at = settings.find("\n" + line);
    ASSERT_NE(at, std::string::npos) << line;
    settings.erase(at + 1, 2);
  }
  std::ofstream(folder + "/book.toml", std::ios::binary) << settings;
  const Called called = call({"check", folder});
  EXPECT_EQ(called.status, 0) << called.err;
}

}  // namespace
}  // namespace driftwarden::new_book_test
