// SPDX-License-Identifier: MIT
#include "evidence/altered_packs.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <fstream>
#include <iterator>

#include "support/project_folder.hpp"

namespace driftwarden::altered_packs_test {
namespace {

std::string shipped_text() {
  for (const BuiltInPack& pack : packs_as_shipped()) {
    if (pack.name == "common-practice") return std::string(pack.text);
  }
  return "";
}

std::string changed(std::string text, const std::string& from, const std::string& to) {
  return text.replace(text.find(from), from.size(), to);
}

TEST(AlteredPacks, AreNoneWhereThePackIsTheShippedOne) {
  EXPECT_TRUE(altered_packs({shipped_text()}, packs_as_shipped()).empty());
}

TEST(AlteredPacks, AreToldWithWhatDiffers) {
  const std::string text = changed(shipped_text(), "within    = \"5 %\"", "within    = \"50 %\"");
  const std::vector<AlteredPack> altered = altered_packs({"no pack", text}, packs_as_shipped());
  ASSERT_EQ(altered.size(), 1U);
  EXPECT_EQ(to_text(altered[0]).substr(0, 44), "the rule pack common-practice, edition 2026-");
  ASSERT_EQ(altered[0].differences.size(), 1U);
  EXPECT_NE(altered[0].differences[0].find("'within    = \"50 %\"', shipped: 'within    = \"5 %\"'"), std::string::npos)
      << altered[0].differences[0];
  EXPECT_EQ(altered_packs({shipped_text() + " "}, packs_as_shipped()).at(0).differences.size(), 1U);
}

// What is told of the lines behind the heading of a pack, as packed and as shipped.
std::vector<std::string> differences(const std::string& packed, const std::string& shipped) {
  const std::string heading = "pack = \"p\"\ntitle = \"T\"\nedition = \"1\"\n";
  const std::string text = heading + shipped;
  const BuiltInPack known[] = {{"p", text}};
  const std::vector<AlteredPack> altered = altered_packs({heading + packed}, known);
  return altered.empty() ? std::vector<std::string>() : altered.at(0).differences;
}

using Lines = std::vector<std::string>;

TEST(AlteredPacks, AreToldLineByLine) {
  EXPECT_EQ(differences("# a\n# b\n# c\n", "# a\n# x\n# c\n"), Lines{"line 5: '# b', shipped: '# x'"});
  EXPECT_EQ(differences("# b\n# a\n", "# x\n# a\n"), Lines{"line 4: '# b', shipped: '# x'"});
  EXPECT_EQ(differences("# a\n# b\n# c\n", "# a\n# c\n"), Lines{"line 5: '# b', shipped: nothing"});
  EXPECT_EQ(differences("# a\n# c\n", "# a\n# b\n# c\n"), Lines{"line 5: nothing, shipped: '# b'"});
  EXPECT_EQ(differences("# a\n", "# a\n# b\n# c\n"),
            (Lines{"line 5: nothing, shipped: '# b'", "line 6: nothing, shipped: '# c'"}));
  EXPECT_EQ(differences("# a\n# b\n# c\n# d\n", "# x\n# b\n# c\n# y\n"),
            (Lines{"line 4: '# a', shipped: '# x'", "line 7: '# d', shipped: '# y'"}));
  EXPECT_EQ(differences("# a\n# a\n", "# a\n"), Lines{"line 5: '# a', shipped: nothing"});
  EXPECT_EQ(differences("# a", "# a\n"), Lines{"line ends or blanks"});
}

TEST(AlteredPacks, AreToldUpToTenLines) {
  std::string packed;
  std::string shipped;
  for (int i = 0; i < 10; ++i) {
    packed += "# p\n";
    shipped += "# s\n";
  }
  EXPECT_EQ(differences(packed, shipped).size(), 10U);
  EXPECT_EQ(differences(packed, shipped).back(), "line 13: '# p', shipped: '# s'");
  const Lines more = differences(packed + "# p\n# p\n", shipped + "# s\n# s\n");
  EXPECT_EQ(more.size(), 11U);
  EXPECT_EQ(more.back(), "and more");
}

TEST(AlteredPacks, AreNotHeldAgainstAShippedTextThatIsNoPack) {
  const BuiltInPack known[] = {{"p", "no pack"}};
  EXPECT_TRUE(altered_packs({"pack = \"p\"\ntitle = \"T\"\nedition = \"1\"\n"}, known).empty());
}

TEST(AlteredPacks, MayHaveAnotherEditionOrName) {
  const std::string text = shipped_text();
  EXPECT_TRUE(altered_packs({changed(text, "edition = \"20", "edition = \"30")}, packs_as_shipped()).empty());
  EXPECT_TRUE(
      altered_packs({changed(text, "= \"common-practice\"", "= \"our-practice\"")}, packs_as_shipped()).empty());
}

TEST(ShippedTexts, AreTheFilesOfTheProject) {
  ASSERT_FALSE(packs_as_shipped().empty());
  for (const BuiltInPack& pack : packs_as_shipped()) {
    std::ifstream file(std::string(project_folder()) + "/rules/" + std::string(pack.name) + ".toml", std::ios::binary);
    EXPECT_EQ(std::string(std::istreambuf_iterator<char>(file), {}), pack.text) << pack.name;
  }
}

}  // namespace
}  // namespace driftwarden::altered_packs_test
