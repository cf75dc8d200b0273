// SPDX-License-Identifier: MIT
#include "report/rows_used_csv.hpp"

#include <gtest/gtest.h>

#include "support/book_text.hpp"

namespace driftwarden::rows_used_csv_test {
namespace {

TEST(RowsUsedCsv, NamesEveryRowByFileAndLine) {
  BookText text;
  text.decisions = "decided,by,subject,rule,ruling,reason\n2026-09-22T08:00,A,S1,own/drift,uphold,b\n";
  text.service = "serviced,instrument,what\n2026-09-01T08:00,P2,cleaned\n2026-09-01T08:00,P1,cleaned\n";
  text.issues = "kit,instrument,item\nK-1,P2,\nK-1,,hose\nK-1,V1,\n";
  JudgedBook book(text);
  RecordsUsed used;
  used.note(book.screening(), book.result("S1"));
  used.follow(book.screening());
  EXPECT_EQ(rows_used_csv(book.book(), used),
            "file,line,record,name\n"
            "instruments.csv,2,instrument,P1\n"
            "instruments.csv,4,instrument,V1\n"
            "certificates.csv,2,certificate,C1\n"
            "samples.csv,2,sample,S1\n"
            "readings.csv,2,reading,S1\n"
            "readings.csv,3,reading,S1\n"
            "decisions.csv,2,decision,S1\n"
            "service.csv,3,service,P1\n"
            "issues.csv,4,issue,V1\n");
}

TEST(RowsUsedCsv, QuotesNamesThatNeedIt) {
  BookText text;
  text.samples = "sample,pump,started,stopped\n\"S,1\",P1,2026-09-21T08:00,2026-09-21T16:00\n";
  text.readings = "taken,stage,pump,calibrator,reading [L/min]\n2026-09-21T07:30,pre,P1,V1,2.000\n";
  JudgedBook book(text);
  RecordsUsed used;
  used.note(book.screening(), book.result("S,1"));
  const std::string csv = rows_used_csv(book.book(), used);
  EXPECT_NE(csv.find("samples.csv,2,sample,\"S,1\"\n"), std::string::npos) << csv;
}

}  // namespace
}  // namespace driftwarden::rows_used_csv_test
