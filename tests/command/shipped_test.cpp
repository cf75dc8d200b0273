// SPDX-License-Identifier: MIT
#include "command/shipped.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include "support/project_folder.hpp"

namespace driftwarden::shipped_test {
namespace {

TEST(Shipped, FolderHoldsTheRules) {
  EXPECT_TRUE(std::filesystem::exists(shipped_folder() / "rules" / "common-practice.toml"));
}

// The test program lies in a build folder without share/: the folder is that of the sources.
TEST(Shipped, FolderIsThatOfTheSourcesWhereNothingIsInstalled) {
  EXPECT_TRUE(std::filesystem::equivalent(shipped_folder(), project_folder()));
}

TEST(Shipped, VersionIsThreeNumbers) {
  const std::string version = program_version();
  EXPECT_EQ(version.find_first_not_of("0123456789."), std::string::npos) << version;
  EXPECT_EQ(std::count(version.begin(), version.end(), '.'), 2) << version;
}

}  // namespace
}  // namespace driftwarden::shipped_test
