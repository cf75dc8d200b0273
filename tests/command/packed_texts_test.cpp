// SPDX-License-Identifier: MIT
#include "command/packed_texts.hpp"

#include <gtest/gtest.h>

#include <map>

#include "command/package_folder.hpp"

namespace driftwarden::packed_texts_test {
namespace {

// A book laid out as in a package.
class Unpacked {
 public:
  explicit Unpacked(const BookText& text) {
    std::filesystem::create_directories(folder_.path() / "data/book");
    text.write(folder_.path() / "data/book");
  }
  std::optional<PackedBook> open(const std::vector<std::string>& batches = {}) {
    return open_packed(folder_.path(), {"9.9.9", "2026-11-16", batches, true, false}, 1, surroundings_);
  }
  std::string said() const { return err_.str(); }

 private:
  ScratchFolder folder_;
  std::ostringstream out_;
  std::ostringstream err_;
  Surroundings surroundings_{out_, err_, false, false, 0, "/nowhere", "0.1.0"};
};

TEST(PackedTexts, AreMadeFromThePackageAlone) {
  Unpacked unpacked(judged_text("2 %"));
  const std::optional<PackedBook> packed = unpacked.open();
  ASSERT_TRUE(packed) << unpacked.said();
  EXPECT_EQ(packed->totals.void_, 1U);
  EXPECT_EQ(packed->used.samples.size(), 1U);
  std::map<std::string, std::string> texts;
  make_texts(*packed, {"9.9.9", "2026-11-16", {}, true, false}, 1,
             [&](const std::string& name, std::string_view text) { texts[name] = text; });
  EXPECT_EQ(texts.size(), 10U);
  EXPECT_NE(texts["data/results/screen.json"].find("\"9.9.9\""), std::string::npos) << "the version that packed it";
  EXPECT_NE(texts["READ-ME-FIRST.txt"].find("1 void"), std::string::npos);
}

TEST(PackedTexts, GiveEachWorkingAFileOfItsOwn) {
  BookText text = judged_text("2 %");
  text.samples =
      "sample,pump,started,stopped\n"
      "a/b,P1,2026-09-21T08:00,2026-09-21T16:00\n"
      "A b,P1,2026-09-22T08:00,2026-09-22T16:00\n"
      "../x,P1,2026-09-23T08:00,2026-09-23T16:00\n";
  text.readings = "taken,stage,pump,calibrator,reading [L/min]\n2026-09-21T07:30,pre,P1,V1,2.000\n";
  Unpacked unpacked(text);
  const std::optional<PackedBook> packed = unpacked.open();
  ASSERT_TRUE(packed) << unpacked.said();
  std::map<std::string, std::string> texts;
  make_texts(*packed, {}, 1, [&](const std::string& name, std::string_view made) { texts[name] = made; });
  EXPECT_EQ(texts["data/workings/index.csv"], "sample,file\na/b,a_b.txt\nA b,A_b-2.txt\n../x,_.._x.txt\n");
  EXPECT_EQ(texts.count("data/workings/A_b-2.txt"), 1U);
}

TEST(PackedTexts, TellWhyAPackageCannotBeJudged) {
  BookText text = judged_text("2 %");
  text.rules = "no toml";
  Unpacked unpacked(text);
  EXPECT_FALSE(unpacked.open());
  EXPECT_NE(unpacked.said(), "");
  Unpacked other(judged_text("2 %"));
  EXPECT_FALSE(other.open({"no such batch"}));
  EXPECT_NE(other.said().find("no such batch"), std::string::npos);
}

}  // namespace
}  // namespace driftwarden::packed_texts_test
