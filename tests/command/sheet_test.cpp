// SPDX-License-Identifier: MIT
#include <gtest/gtest.h>

#include <filesystem>

#include "command/called.hpp"

namespace driftwarden::sheet_test {
namespace {

bool has(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }

BookText planned() {
  BookText text;
  text.plan = "sample,batch,pump,calibrator,nominal [L/min]\nS2,B1,P1,V1,2\n";
  return text;
}

TEST(Sheet, WritesThePageAndNamesIt) {
  const CalledBook book(planned());
  const std::string page = book.file("sheets.html");
  const Called called = call({"sheet", book.path(), "--batch", "B1", "--out", page});
  EXPECT_EQ(called.status, 0) << called.err;
  EXPECT_EQ(called.out, page + "\n");
  EXPECT_TRUE(has(text_of_file(page), "<h1><bdi>P1</bdi></h1>"));
}

// K-1 is out with P1 and V2; K-2 is being put together with P2, and K-3 without a pump.
BookText with_kits() {
  BookText text;
  text.plan =
      "sample,batch,pump,calibrator,nominal [L/min],day\nS1,B0,P1,V1,2,2026-09-21\nS2,B1,P1,,2,2026-09-25\n"
      "S3,B2,P1,V1,2,2026-09-26\nS4,B1,P2,,2,\nS5,B1,,,2,\n";
  text.issues =
      "kit,instrument,item,out,back\nK-1,P1,,2026-09-20,\nK-1,V2,,2026-09-20,\nK-1,,hose,2026-09-20,\nK-2,P2,,,\n"
      "K-3,,hose,,\nK-4,P2,,2026-09-01,2026-09-02\n";
  return text;
}

TEST(Sheet, OfAKitIsOfWhatIsPlannedWithItsPumps) {
  const CalledBook book(with_kits());
  const std::string page = book.file("sheets.html");
  const Called called = call({"sheet", book.path(), "--kit", "K-1", "--as-of", "2026-09-24", "--out", page});
  EXPECT_EQ(called.status, 0) << called.err;
  const std::string text = text_of_file(page);
  EXPECT_TRUE(has(text, "Batch <bdi>B1, B2</bdi>")) << text;
  for (const char* there : {"S2", "S3", "V2", "V1"})
    EXPECT_TRUE(has(text, std::string("<bdi>") + there + "</bdi>")) << there;
  EXPECT_FALSE(has(text, "<bdi>S1</bdi>")) << "it stands in samples.csv";
  for (const char* not_there : {"S4", "S5", "P2"}) EXPECT_FALSE(has(text, not_there)) << not_there;
}

TEST(Sheet, OfAKitNeedsOneWithPumpsInThePlan) {
  const CalledBook book(with_kits());
  const auto told_of = [&](const std::string& kit) {
    const Called called =
        call({"sheet", book.path(), "--kit", kit, "--as-of", "2026-09-24", "--out", book.file("sheets.html")});
    EXPECT_EQ(called.status, 2);
    return called.err;
  };
  EXPECT_TRUE(has(told_of("K-3"),
                  "plan.csv has no sample that is still to be taken with a pump of kit 'K-3'; write under 'pump' of "
                  "plan.csv which pumps its samples are taken with"));
  EXPECT_TRUE(has(told_of("K-4"), "no kit 'K-4' is out or being put together by issues.csv"));
  EXPECT_TRUE(has(call({"sheet", book.path(), "--out", "x.html"}).err, "--batch or --kit"));
}

TEST(Sheet, IsNeverWrittenOverTheBook) {
  const CalledBook book(planned());
  const std::string before = text_of_file(book.file("plan.csv"));
  EXPECT_EQ(call({"sheet", book.path(), "--batch", "B1", "--out", book.file("plan.csv")}).status, 2);
  EXPECT_EQ(text_of_file(book.file("plan.csv")), before);
}

TEST(Sheet, HasRoomForTwoCalibrators) {
  const CalledBook book(planned());
  const Called called = call({"sheet", book.path(), "--batch", "B1", "--calibrator", "V1", "--calibrator", "V2",
                              "--calibrator", "V1", "--out", book.file("s.html")});
  EXPECT_EQ(called.status, 2);
  EXPECT_TRUE(has(called.err, "name at most two with --calibrator")) << called.err;
  EXPECT_FALSE(std::filesystem::exists(book.file("s.html")));
}

}  // namespace
}  // namespace driftwarden::sheet_test
