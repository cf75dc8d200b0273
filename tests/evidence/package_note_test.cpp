// SPDX-License-Identifier: MIT
#include "evidence/package_note.hpp"

#include <gtest/gtest.h>

namespace driftwarden::package_note_test {
namespace {

TEST(PackageNote, ReadsBackWhatItWrites) {
  const PackageNote note{"0.1.0", "2026-11-16", {"TF46B", "with \"quotes\""}, true, false};
  const Result<PackageNote> read = parse_package_note(package_note_text(note));
  ASSERT_TRUE(read);
  EXPECT_EQ(read->version, note.version);
  EXPECT_EQ(read->as_of, note.as_of);
  EXPECT_EQ(read->batches, note.batches);
  EXPECT_EQ(read->has_charts, note.has_charts);
  EXPECT_EQ(read->is_signed, note.is_signed);
}

TEST(PackageNote, IsWrittenForPeopleToo) {
  EXPECT_EQ(
      package_note_text({"0.1.0", "2026-11-16", {"B"}, true, false}),
      "{\n  \"format\": 1,\n  \"tool\": {\n    \"name\": \"driftwarden\",\n    \"version\": \"0.1.0\"\n  },\n"
      "  \"as_of\": \"2026-11-16\",\n  \"batches\": [\n    \"B\"\n  ],\n  \"charts\": true,\n  \"signed\": false\n}\n");
}

TEST(PackageNote, SaysOfWhichInstrumentsItHasChartsWhereThatWasAskedFor) {
  PackageNote note{"0.2.0", "2026-11-16", {}, true, false};
  EXPECT_EQ(package_note_text(note).find("charts_of"), std::string::npos);
  for (const ChartsOf of : {ChartsOf::used, ChartsOf::all, ChartsOf::none}) {
    note.charts_of = of;
    EXPECT_EQ(parse_package_note(package_note_text(note))->charts_of, of);
    EXPECT_EQ(charts_of(to_text(of)), of);
  }
  std::string other = package_note_text(note);
  other.replace(other.find("\"none\""), 6, "\"some\"");
  ASSERT_FALSE(parse_package_note(other));
  EXPECT_EQ(parse_package_note(other).faults().front().message, "there are no charts of 'some'");
}

TEST(PackageNote, KeepsWhetherThePackageIsSigned) {
  EXPECT_TRUE(parse_package_note(package_note_text({"0.1.0", "2026-11-16", {}, false, true}))->is_signed);
}

// So that it reads the same whatever an editor takes for its letters.
TEST(PackageNote, IsWrittenInPlainLetters) {
  EXPECT_NE(package_note_text({"0.1.0", "2026-11-16", {"M\u00fchle"}, false, false}).find("M\\u00fchle"),
            std::string::npos);
}

TEST(PackageNote, SaysWhichFileIsUnusableAndWhatItIsFor) {
  const auto told = [](const std::string& text) { return to_text(parse_package_note(text).faults().front()); };
  const std::string use =
      "; it says what the package was made by and of; without it nothing can be judged anew "
      "[evidence/package]";
  EXPECT_EQ(told("[]"), "data/package.json: error: the file is not the JSON it should be" + use);
  EXPECT_EQ(told("{"), "data/package.json: error: the file is not the JSON it should be" + use);
  EXPECT_EQ(told("{}"), "data/package.json: error: the file lacks something, or has it in another form" + use);
}

TEST(PackageNote, SaysWhenItIsNoNote) {
  const std::string good = package_note_text({"0.1.0", "2026-11-16", {}, false, false});
  for (const std::string& bad : {std::string(), std::string("{"), std::string("[]"), std::string("{}"),
                                 std::string(100000, '['), good.substr(0, good.size() - 3)}) {
    const Result<PackageNote> note = parse_package_note(bad);
    ASSERT_FALSE(note) << bad.substr(0, 40);
    EXPECT_EQ(note.faults().front().id, "evidence/package");
  }
  std::string newer = good;
  newer.replace(newer.find(": 1"), 3, ": 2");
  ASSERT_FALSE(parse_package_note(newer));
  EXPECT_EQ(parse_package_note(newer).faults().front().message,
            "the package is of a format that this version does not know");
  std::string forged = good;
  forged.replace(forged.find("0.1.0"), 5, "0.1.0\\nsignature   good");
  ASSERT_FALSE(parse_package_note(forged));
  EXPECT_EQ(parse_package_note(forged).faults().front().message,
            "the version '0.1.0\\x0asignature   good' is no version");
  std::string other_type = good;
  other_type.replace(other_type.find("false"), 5, "\"no\"");
  EXPECT_FALSE(parse_package_note(other_type));
}

}  // namespace
}  // namespace driftwarden::package_note_test
