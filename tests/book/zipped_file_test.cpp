// SPDX-License-Identifier: MIT
#include "book/zipped_file.hpp"

#include <gtest/gtest.h>

#include "book/written_workbook.hpp"

namespace driftwarden::zipped_file_test {
namespace {

const std::string way_out = "; open it where it was made and save it anew, as .xlsx or .ods [workbook/unreadable]";

std::string fault_of(const std::string& bytes, const std::string& part = "a") {
  const Result<ZippedFile> file = ZippedFile::open(bytes, "f.xlsx");
  if (!file) return to_text(file.faults().front());
  const std::optional<Diagnostic> fault = file->read(part, [](std::string_view) { return true; });
  return fault ? to_text(*fault) : "none";
}

TEST(ZippedFile, GivesOutItsPartsInPieces) {
  const std::string long_text(1000000, 'x');
  const std::string bytes = zipped({{"a", "short"}, {"b/c", long_text}});
  const Result<ZippedFile> file = ZippedFile::open(bytes, "f.xlsx");
  std::string got;
  EXPECT_FALSE(file->read("b/c", [&](std::string_view piece) { return got += piece, true; }));
  EXPECT_EQ(got, long_text);
  EXPECT_TRUE(file->has("a"));
  EXPECT_FALSE(file->has("c"));
}

TEST(ZippedFile, EndsWhenNothingMoreIsWanted) {
  const std::string bytes = zipped({{"a", std::string(1000000, 'x')}});
  const Result<ZippedFile> file = ZippedFile::open(bytes, "f.xlsx");
  int pieces = 0;
  EXPECT_FALSE(file->read("a", [&](std::string_view) { return ++pieces, false; }));
  EXPECT_EQ(pieces, 1);
}

TEST(ZippedFile, TellsWhatIsNoSoundZipFile) {
  const std::string sound = zipped({{"a", std::string(5000, 'x') + "y"}});
  EXPECT_EQ(fault_of(""), "f.xlsx: error: the file can't be read as a workbook: it is empty" + way_out);
  EXPECT_EQ(fault_of("taken,stage\n"),
            "f.xlsx: error: the file can't be read as a workbook: Not a zip archive" + way_out);
  for (std::size_t size = 1; size < sound.size(); ++size)
    EXPECT_NE(fault_of(sound.substr(0, size)).find("[workbook/unreadable]"), std::string::npos) << size;
  EXPECT_EQ(fault_of(sound, "b"),
            "f.xlsx: error: the file can't be read as a workbook: its part 'b' is missing" + way_out);
  std::string damaged = sound;
  damaged[40] = static_cast<char>(damaged[40] ^ 0x55);
  EXPECT_NE(fault_of(damaged), "none");
}

TEST(ZippedFile, TellsOldAndLockedWorkbooks) {
  EXPECT_EQ(
      fault_of("\xD0\xCF\x11\xE0\xA1\xB1\x1A\xE1 and so on"),
      "f.xlsx: error: the workbook is locked with a password, or is an .xls under another name; open it, take the "
      "password away and save it as .xlsx or .ods [workbook/encrypted]");
}

}  // namespace
}  // namespace driftwarden::zipped_file_test
