// SPDX-License-Identifier: MIT
#include "book/zone_names.hpp"

#include <gtest/gtest.h>

#include <filesystem>
#include <fstream>

#include "book/scratch_folder.hpp"

namespace driftwarden::zone_names_test {
namespace {

TEST(ZoneNames, AreTakenFromTheSourceAndTheTables) {
  const ScratchFolder folder;
  std::ofstream(folder.path() / "tzdata.zi") << "# version 1\nR d 1916 o - Jun 14 23s 1 S\nZ Inland/Fold -7 d M%sT\n"
                                             << "-4 - x\nL Inland/Fold Old/Name\nZ ../../etc 0 - x\n";
  std::ofstream(folder.path() / "zone1970.tab") << "# note\nXX\t+0000+00000\tInland/Sorrel\tmost\nXX\t+0000\n";
  std::ofstream(folder.path() / "zone.tab") << "XX\t+0000+00000\tInland/Fold\n";
  EXPECT_EQ(listed_zone_names(folder.path().string()),
            (std::vector<std::string>{"Inland/Fold", "Inland/Sorrel", "Old/Name"}));
}

TEST(ZoneNames, AreNoneInAFolderWithoutLists) {
  EXPECT_TRUE(listed_zone_names(ScratchFolder().path().string()).empty());
  EXPECT_TRUE(listed_zone_names("/no/such/folder").empty());
}

TEST(ZoneNames, SuggestTheNearestByNameOrByPlace) {
  const std::vector<std::string> names{"America/Denver", "America/New_York", "Europe/London", "Europe/Paris"};
  EXPECT_EQ(nearest_zone_name("America/Denvr", names), "America/Denver");
  EXPECT_EQ(nearest_zone_name("america/new york", names), "America/New_York");
  EXPECT_EQ(nearest_zone_name("Denver", names), "America/Denver");
  EXPECT_EQ(nearest_zone_name("Europ/Lodnon", names), "Europe/London");
  EXPECT_EQ(nearest_zone_name("Colorado/Denver", names), "America/Denver");
  EXPECT_EQ(nearest_zone_name("Xyzzy", names), "");
  EXPECT_EQ(nearest_zone_name(std::string(5000, 'x'), names), "");
}

TEST(ZoneNames, HaveNoWayOutOfTheirFolder) {
  for (const auto* good :
       {"UTC", "America/Denver", "America/Argentina/Buenos_Aires", "Etc/GMT+7", "America/Port-au-Prince"})
    EXPECT_TRUE(is_zone_name(good)) << good;
  for (const auto* bad : {"", "/etc/localtime", "../secret", "America/../../x", "America/./Denver", "a//b", "America/",
                          ".", "America Denver", "a\\b", "zone.tab", "~/x", "Caf\xc3\xa9"})
    EXPECT_FALSE(is_zone_name(bad)) << bad;
  EXPECT_FALSE(is_zone_name(std::string("UTC\0x", 5)));
  EXPECT_FALSE(is_zone_name(std::string(101, 'x')));
}

}  // namespace
}  // namespace driftwarden::zone_names_test
