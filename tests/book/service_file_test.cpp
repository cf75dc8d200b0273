// SPDX-License-Identifier: MIT
#include <gtest/gtest.h>

#include "book/written_book.hpp"

namespace driftwarden::service_file_test {
namespace {

Book book_with(const std::string& service) { return WrittenBook().file("service.csv", service).read(); }

TEST(ServiceFile, FillsEveryFieldInTheOrderOfTheFile) {
  const Book book = book_with(
      "serviced,instrument,what,by,note,cost\n2026-05-02T09:00,PUMP-1,new diaphragm,the workshop,ran hot,12\n"
      "2026-04-02T09:00,VOL-1,cleaned,,,\n");
  EXPECT_EQ(told(book.problems),
            "service.csv:1:34: remark: columns without a meaning here are kept as notes: 'cost' [heading/unknown]\n");
  ASSERT_EQ(book.services.size(), 2U);
  const Service& it = book.services[0];
  EXPECT_EQ(it.serviced, 1777712400);
  EXPECT_EQ(it.instrument, 0U);
  EXPECT_EQ(it.what, "new diaphragm");
  EXPECT_EQ(it.by, "the workshop");
  EXPECT_EQ(it.note, "ran hot; cost: 12");
  EXPECT_EQ(book.services[1].instrument, 1U);
  EXPECT_EQ(book.place_text(book.files.service, book.services[1].place), "service.csv:3");
}

TEST(ServiceFile, MayBeMissing) { EXPECT_TRUE(WrittenBook().read().services.empty()); }

TEST(ServiceFile, TellsEveryFaultAndTakesNoFaultyRow) {
  const Book book = book_with(
      "serviced,instrument,what\n2026-05-02,PUMP-1,cleaned\n2026-05-02T09:00,PUMP-l,cleaned\n"
      "2026-05-02T09:00,PUMP-1,\n2026-05-02T09:00,PUMP-1,cleaned\n");
  EXPECT_EQ(told(book.problems),
            "service.csv:2:1: error: '2026-05-02' is a date without a time of day; write the time too, as "
            "2026-05-02T07:15 [time/date-only]\n"
            "service.csv:3:18: error: the instrument 'PUMP-l' is not in instruments.csv; did you mean 'PUMP-1'? "
            "[service/unknown-instrument]\n"
            "service.csv:4:25: error: the cell under 'what' is empty; every row needs one [cell/empty]\n");
  ASSERT_EQ(book.services.size(), 1U);
  EXPECT_EQ(book.services[0].place.line, 5U);
}

TEST(ServiceFile, HintsAtInstrumentsOnlyWhereFewAreUnknown) {
  std::string rows = "serviced,instrument,what\n";
  for (int i = 0; i < 101; ++i) rows += "2026-05-02T09:00,PUMP-" + std::to_string(1000 + i) + ",cleaned\n";
  const Diagnostics problems = book_with(rows).problems;
  ASSERT_EQ(problems.size(), 101U);
  for (const Diagnostic& problem : problems) EXPECT_EQ(problem.hint, "add it to instruments.csv");
}

TEST(ServiceFile, DoesNotTellOfUnknownInstrumentsWhereTheirFileIsLost) {
  const Book book = WrittenBook()
                        .file("service.csv", "serviced,instrument,what\n2026-05-02T09:00,PUMP-1,cleaned\n")
                        .file("instruments.csv", "instrument,kin\n")
                        .read();
  EXPECT_EQ(told(book.problems).find("service.csv"), std::string::npos) << told(book.problems);
}

}  // namespace
}  // namespace driftwarden::service_file_test
