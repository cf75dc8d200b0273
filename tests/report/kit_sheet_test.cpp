// SPDX-License-Identifier: MIT
#include "report/kit_sheet.hpp"

#include <gtest/gtest.h>

#include "report/kit_book.hpp"

namespace driftwarden::kit_sheet_test {
namespace {

// "2 hose", "pump P1 T-7 charged back: good"
std::string lines_of(const KitSheet& sheet) {
  std::string text;
  for (const KitLine& line : sheet.lines) {
    text += std::to_string(line.number) + " " + line.item +
            (line.is_instrument ? " <" + line.instrument + " " + line.serial + ">" : "");
    if (line.is_charged) text += " charged";
    if (!line.came_back.empty()) text += " back: " + line.came_back;
    if (line.is_beyond_the_list) text += " beyond the list";
    if (!line.why_unfit.empty()) text += " unfit: " + line.why_unfit;
    text += '\n';
  }
  return text;
}

TEST(KitSheet, PutsWhatWentOutIntoTheListOfItsKind) {
  const std::optional<KitSheet> sheet = kit_sheet("K-1", "2026-09-23");
  ASSERT_TRUE(sheet);
  EXPECT_EQ(sheet->kit, "K-1");
  EXPECT_EQ(sheet->kind, "dust");
  EXPECT_EQ(sheet->out, "2026-09-20");
  EXPECT_EQ(sheet->to, "north crew");
  EXPECT_EQ(sheet->checked_by, "store");
  EXPECT_EQ(sheet->due_back, "2026-09-22");
  EXPECT_EQ(sheet->back, "") << "it comes back on the next day";
  EXPECT_EQ(sheet->checked_back_by, "");
  EXPECT_EQ(lines_of(*sheet),
            "1 pump <P2 T-8> charged\n1 pump < >\n"
            "1 calibrator <V1 C-1> unfit: past due: it was due on 2026-09-22, 1 day ago\n"
            "3 hose\n1 form\n1 lamp beyond the list\n");
}

TEST(KitSheet, TellsHowItCameBack) {
  const std::optional<KitSheet> sheet = kit_sheet("K-1");
  ASSERT_TRUE(sheet);
  EXPECT_EQ(sheet->back, "2026-09-24");
  EXPECT_EQ(sheet->checked_back_by, "workshop");
  EXPECT_EQ(lines_of(*sheet),
            "1 pump <P2 T-8> charged back: good\n1 pump < >\n1 calibrator <V1 C-1> back: dirty\n3 hose back: missing\n"
            "1 form\n1 lamp back: back beyond the list\n");
}

TEST(KitSheet, OfAKindIsToBeFilledIn) {
  const std::optional<KitSheet> sheet = kit_sheet("dust");
  ASSERT_TRUE(sheet);
  EXPECT_EQ(sheet->kit, "");
  EXPECT_EQ(sheet->to, "");
  EXPECT_EQ(lines_of(*sheet), "1 pump < >\n1 pump < >\n1 calibrator < >\n3 hose\n1 form\n");
}

TEST(KitSheet, IsNoneOfAnUnknownName) { EXPECT_FALSE(kit_sheet("K-9")); }

TEST(KitSheet, IsTickedOffOnATerminal) {
  const std::string table = kit_sheet_table(*kit_sheet("K-1", "2026-09-23"));
  EXPECT_TRUE(
      table.starts_with("List of kit K-1\nQuarry\n\n"
                        "kind of kit dust\nto          north crew\nout         2026-09-20\nchecked by  store\n"
                        "due back    2026-09-22\nback        ________________\nchecked by  ________________\n\n"
                        "out back\n"
                        "[ ] [ ]  pump: P2, serial number T-8; is charged (charged)\n"
                        "[ ] [ ]  pump: ________________ (charged)\n"
                        "[ ] [ ]  calibrator: V1, serial number C-1\n"
                        "         NOT FIT TO GO: past due: it was due on 2026-09-22, 1 day ago\n"
                        "[ ] [ ]  3 hose (tight)\n"
                        "[ ] [ ]  form\n"
                        "[ ] [ ]  lamp; not on the list of this kind of kit\n\n"))
      << table;
}

}  // namespace
}  // namespace driftwarden::kit_sheet_test
