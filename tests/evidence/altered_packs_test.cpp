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
