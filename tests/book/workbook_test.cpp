// SPDX-License-Identifier: MIT
#include "book/workbook.hpp"

#include <gtest/gtest.h>

#include "book/written_workbook.hpp"

namespace driftwarden::workbook_test {
namespace {

std::string why(const Parts& parts) { return first_sheet(zipped(parts)); }

TEST(Workbook, IsOfItsFormatByWhatIsInIt) {
  EXPECT_EQ(first_sheet(xlsx("<row><c><v>1</v></c></row>")), "1: A=1/0/0\n");
  EXPECT_EQ(
      first_sheet(ods("<table:table table:name=\"a\"><table:table-row><table:table-cell office:value-type=\"float\" "
                      "office:value=\"1\"/></table:table-row></table:table>")),
      "1: A=1/0/0\n");
}

TEST(Workbook, TellsWhatIsNone) {
  EXPECT_NE(why({{"a", "b"}}).find("it is a ZIP file, but no workbook"), std::string::npos);
  EXPECT_NE(why(ods_parts("")).find("it has no sheets"), std::string::npos);
}

TEST(Workbook, TellsWhichPartIsDamagedOrMissing) {
  for (const auto& [name, text] : xlsx_parts("<sheetData/>")) {
    Parts parts = xlsx_parts("<sheetData/>");
    parts[name] = text.substr(0, text.size() - 3);
    EXPECT_NE(why(parts).find(name == "_rels/.rels" ? "its part" : "its part '" + name + "'"), std::string::npos)
        << name;
    parts.erase(name);
    EXPECT_NE(why(parts).find("[workbook/unreadable]"), std::string::npos) << name;
  }
}

}  // namespace
}  // namespace driftwarden::workbook_test
