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
            "1 pump <P2 T-8> charged back: good\n1 pump < >\n1 calibrator <V1 C-1> back: dirty\n1 hose back: missing\n"
            "2 hose\n1 form\n1 lamp back: back beyond the list\n");
}

// One of two hoses is missing, and not both.
TEST(KitSheet, CountsThePiecesThatRowsStandFor) {
  const auto hoses = [](const std::string& rows) {
    BookText text;
    text.kits = "kind of kit,item,number\ndust,hose,4\n";
    text.issues = "kit,kind of kit,item,out,back,condition,missing\n" + rows;
    const ReviewedBook book(text, {}, "2026-09-24");
    return lines_of(*kit_sheet_of(book.screening().book(), book.review().kits, "K-1", day("2026-09-24")));
  };
  const std::string missing = "K-1,dust,hose,2026-09-20,2026-09-22,,yes\n";
  const std::string good = "K-1,dust,hose,2026-09-20,2026-09-22,good,\n";
  const std::string damaged = "K-1,dust,hose,2026-09-20,2026-09-22,damaged,\n";
  EXPECT_EQ(hoses(missing), "1 hose back: missing\n3 hose\n");
  EXPECT_EQ(hoses(good), "4 hose back: good\n");
  EXPECT_EQ(hoses(damaged), "1 hose back: damaged\n3 hose\n");
  EXPECT_EQ(hoses(missing + good), "1 hose back: missing\n3 hose back: good\n");
  EXPECT_EQ(hoses(good + good), "1 hose back: good\n1 hose back: good\n2 hose\n");
  EXPECT_EQ(hoses(missing + missing + missing + missing),
            "1 hose back: missing\n1 hose back: missing\n"
            "1 hose back: missing\n1 hose back: missing\n");
  EXPECT_EQ(hoses(good + missing + missing + missing + missing),
            "1 hose back: good\n1 hose back: missing\n1 hose back: missing\n1 hose back: missing\n"
            "1 hose back: missing beyond the list\n");
}

TEST(KitSheet, OfAKindIsToBeFilledIn) {
  const std::optional<KitSheet> sheet = kit_sheet("dust");
  ASSERT_TRUE(sheet);
  EXPECT_EQ(sheet->kit, "");
  EXPECT_EQ(sheet->to, "");
  EXPECT_EQ(lines_of(*sheet), "1 pump < >\n1 pump < >\n1 calibrator < >\n3 hose\n1 form\n");
}

TEST(KitSheet, IsAmissWhereItIsOverdueOrSomethingIsMissingOrUnfit) {
  const auto is_amiss = [](const std::string& issues, const std::string& as_of) {
    BookText text;
    text.issues = "kit,instrument,out,due back,back,missing\n" + issues;
    const ReviewedBook book(text, {}, as_of);
    return kit_sheet_of(book.screening().book(), book.review().kits, "K-1", day(as_of))->is_amiss();
  };
  EXPECT_FALSE(is_amiss("K-1,P1,2026-09-20,2026-09-22,,\n", "2026-09-22"));
  EXPECT_TRUE(is_amiss("K-1,P1,2026-09-20,2026-09-22,,\n", "2026-09-23"));
  EXPECT_TRUE(is_amiss("K-1,P1,2026-09-20,,2026-09-22,yes\n", "2026-09-23"));
  EXPECT_TRUE(is_amiss("K-1,P1,2026-09-20,,,yes\n", "2026-09-23"));
  EXPECT_FALSE(is_amiss("K-1,P1,2026-09-20,,2026-09-22,yes\nK-2,P1,2026-09-23,,,\n", "2026-09-23"));
  EXPECT_TRUE(kit_sheet("K-1", "2026-09-23")->is_amiss());
  EXPECT_FALSE(kit_sheet("dust")->is_amiss());
}

TEST(KitSheet, SaysWhatHasGoneOutAgainSinceItWasMissing) {
  BookText text;
  text.issues = "kit,instrument,out,due back,back,missing\nK-1,P1,2026-09-20,,2026-09-22,yes\nK-2,P1,2026-09-23,,,\n";
  const ReviewedBook book(text);
  const KitsOut& kits = book.review().kits;
  EXPECT_EQ(lines_of(*kit_sheet_of(book.screening().book(), kits, "K-1", day("2026-09-24"))),
            "1 pump <P1 > back: missing, and out again since beyond the list\n");
}

TEST(KitSheet, IsNoneOfAnUnknownName) { EXPECT_FALSE(kit_sheet("K-9")); }

TEST(KitSheet, IsTickedOffOnATerminal) {
  const std::string table = kit_sheet_table(*kit_sheet("K-1", "2026-09-23"));
  EXPECT_TRUE(
      table.starts_with("List of kit K-1\nQuarry\n\n"
                        "kind of kit     dust\nto              north crew\nout             2026-09-20\n"
                        "checked out by  store\ndue back        2026-09-22: overdue by 1 day\n"
                        "back            ________________\nchecked back by ________________\n\n"
                        "out back\n"
                        "[ ] [ ]  pump: P2, serial number T-8; is charged (charged)\n"
                        "[ ] [ ]  pump: ________________ (charged)\n"
                        "[ ] [ ]  calibrator: V1, serial number C-1\n"
                        "         NOT FIT TO GO: past due: it was due on 2026-09-22, 1 day ago\n"
                        "[ ] [ ]  3 × hose (tight)\n"
                        "[ ] [ ]  form\n"
                        "[ ] [ ]  lamp; not on the list of this kind of kit\n\n"))
      << table;
}

}  // namespace
}  // namespace driftwarden::kit_sheet_test
