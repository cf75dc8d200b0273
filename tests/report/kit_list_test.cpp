// SPDX-License-Identifier: MIT
#include "report/kit_list.hpp"

#include <gtest/gtest.h>

#include "history/reviewed_book.hpp"
#include "report/terminal_text.hpp"
#include "verdict/cautions.hpp"

namespace driftwarden::kit_list_test {
namespace {

BookText kits_text() {
  BookText text;
  text.issues =
      "kit,kind of kit,instrument,item,out,to,due back,charged,back,missing\n"
      "K-1,dust,P1,,2026-09-20,north crew,2026-09-22,,,\nK-1,dust,,hose,2026-09-20,north crew,,,,\n"
      "K-2,dust,,hose,2026-09-01,,,,2026-09-04,yes\nK-3,dust,P2,,,=south crew,,no,,\n";
  return text;
}

TEST(KitList, TellsWhatIsPackedOutOverdueMissingAndUnfit) {
  const ReviewedBook book(kits_text());
  EXPECT_EQ(kit_list_table(book.screening().book(), book.review().kits, day("2026-09-24"), Paint(false)),
            "Kits as of 2026-09-24\n"
            "Quarry\n"
            "\n"
            "Being put together\n"
            "  K-3        dust; not yet out, for =south crew\n"
            "             P2\n"
            "\n"
            "Out\n"
            "  K-1        dust; out since 2026-09-20 with north crew, due back on 2026-09-22:\n"
            "             overdue by 2 days\n"
            "             P1, hose\n"
            "\n"
            "Missing\n"
            "  K-2        hose, since the kit came back on 2026-09-04 [issues.csv:4]\n"
            "\n"
            "Not fit to go\n"
            "  P2         not charged (being put into kit K-3)\n"
            "\n" +
                wrapped(cautions, 0, table_width));
}

TEST(KitList, SaysWhereThereIsNothingToTell) {
  BookText text;
  text.issues = "kit,instrument,out,back\nK-1,P1,2026-09-01,2026-09-02\n";
  const ReviewedBook book(text);
  const std::string table =
      kit_list_table(book.screening().book(), book.review().kits, day("2026-09-24"), Paint(false));
  EXPECT_TRUE(table.starts_with("Kits as of 2026-09-24\nQuarry\n\nNo kit is out.\n\nNot fit to go\n  none\n\n"))
      << table;
}

TEST(KitList, SaysWhatIsNotKnownInPlaceOfNone) {
  const ReviewedBook book{BookText()};
  const KitsOut& kits = book.review().kits;
  const std::string table = kit_list_table(book.screening().book(), kits, day("2026-09-24"), Paint(false));
  EXPECT_TRUE(table.starts_with("Kits as of 2026-09-24\nQuarry\n\nThe book has no issues.csv: which kits are out,"))
      << table;
  EXPECT_EQ(table.find("No kit is out"), std::string::npos);
  EXPECT_NE(table.find("\nNot fit to go\n  none by what is known\n"), std::string::npos) << table;
  const std::string csv = kit_list_csv(book.screening().book(), kits, day("2026-09-24"));
  EXPECT_NE(csv.find("\n,,,,,not known,,,,,,\"The book has no issues.csv"), std::string::npos) << csv;
}

TEST(KitList, GoesBelowANameThatIsLong) {
  BookText text;
  text.issues = "kit,item,out\na kit with a long name,hose,2026-09-01\n";
  const ReviewedBook book(text);
  const std::string table =
      kit_list_table(book.screening().book(), book.review().kits, day("2026-09-24"), Paint(false));
  EXPECT_NE(table.find("  a kit with a long name\n             out since 2026-09-01\n             hose\n"),
            std::string::npos)
      << table;
}

TEST(KitList, IsALineAThingAsCsv) {
  const ReviewedBook book(kits_text());
  const std::string csv = kit_list_csv(book.screening().book(), book.review().kits, day("2026-09-24"));
  std::string without;
  const std::string said = ",\"" + std::string(cautions) + "\"";
  for (std::size_t at = 0; at < csv.size();) {
    const std::size_t end = csv.find('\n', at);
    std::string line = csv.substr(at, end - at);
    if (const std::size_t there = line.find(said); there != std::string::npos) line.erase(there);
    without += line + '\n';
    at = end + 1;
  }
  EXPECT_EQ(without,
            "kit,kind_of_kit,instrument,serial,item,state,out,to,due_back,days_overdue,back,why,row,cautions\n"
            "K-3,dust,P2,,,being put together,,'=south crew,,,,not charged,issues.csv:5\n"
            "K-1,dust,P1,,,overdue,2026-09-20,north crew,2026-09-22,2,,,issues.csv:2\n"
            "K-1,dust,,,hose,overdue,2026-09-20,north crew,2026-09-22,2,,,issues.csv:3\n"
            "K-2,dust,,,hose,missing,2026-09-01,,,,2026-09-04,,issues.csv:4\n"
            ",,P2,,,not fit to go,,,,,,not charged (being put into kit K-3),instruments.csv:3\n");
}

}  // namespace
}  // namespace driftwarden::kit_list_test
