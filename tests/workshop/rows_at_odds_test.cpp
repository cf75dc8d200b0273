// SPDX-License-Identifier: MIT
#include "workshop/rows_at_odds.hpp"

#include <gtest/gtest.h>

#include <filesystem>

#include "support/book_text.hpp"

namespace driftwarden::rows_at_odds_test {
namespace {

constexpr Day today = 20717;  // 2026-09-21
constexpr const char* plan =
    "sample,batch,pump,calibrator,sampler,nominal [L/min],method,analysis,medium,day\n"
    "S2,B1,P2,V1,,2.0,M1,dust,C-2,2026-09-21\n"
    "S3,B1,P1,V1,,2.0,M1,dust,C-3,2026-09-21\n"
    "S4,B1,P9,V1,,2.0,M1,dust,C-4,2026-09-21\n";

// What is told of samples and readings, by id, line, column and message.
std::string told(const std::string& samples, const std::string& readings = "", const std::string& more_planned = "") {
  const ScratchFolder folder;
  BookText text;
  text.plan = plan + more_planned;
  text.write(folder.path());
  const Book before = *read_book(folder.path(), 1);
  const ScratchFolder elsewhere;
  std::vector<RowsReceived> rows;
  const auto came = [&](const std::string& name, const std::string& written) {
    if (written.empty()) return;
    std::ofstream(elsewhere.path() / name, std::ios::binary) << written;
    rows.push_back(*rows_received(elsewhere.path() / name, before.settings));
  };
  came("s.csv", samples);
  came("r.csv", readings);
  std::string all;
  for (const Diagnostic& each : rows_at_odds(*book_with_rows(before, rows, today, 1), {}, today)) {
    const std::string text_of_it = to_text({each.id, each.severity, each.place, each.message, ""});
    all +=
        text_of_it.substr(text_of_it.rfind(".csv:" + std::to_string(each.place.line), text_of_it.find(' ')) - 1) + "\n";
  }
  return all;
}

constexpr const char* headings = "sample,batch,pump,nominal [L/min],method,analysis,medium,started,stopped\n";
std::string sample(const std::string& cells) { return headings + cells + "\n"; }
constexpr const char* as_planned = "S2,B1,P2,2.0,M1,dust,C-2,2026-09-21T08:00,2026-09-21T16:00";

TEST(RowsAtOdds, AreNotThoseThatAreAsPlanned) {
  EXPECT_EQ(told(sample(as_planned),
                 "taken,stage,sample,calibrator,reading [L/min]\n"
                 "2026-09-21T07:40,pre,S2,V1,2.000\n2026-09-21T16:20,post,S2,V1,1.990\n"),
            "");
}

TEST(RowsAtOdds, AreOfAnotherCassetteFlowMethodOrDay) {
  EXPECT_EQ(told(sample("S2,B1,P2,1.7,M2,quartz,C-9,2026-09-20T08:00,2026-09-20T16:00")),
            "s.csv:2:24: remark: the medium of 'S2' is 'C-9', and in plan.csv:2 it is 'C-2' [receive/unlike-plan]\n"
            "s.csv:2:10: remark: the nominal of 'S2' is '1.7 L/min', and in plan.csv:2 it is '2 L/min' "
            "[receive/unlike-plan]\n"
            "s.csv:2:14: remark: the method of 'S2' is 'M2', and in plan.csv:2 it is 'M1' [receive/unlike-plan]\n"
            "s.csv:2:17: remark: the analysis of 'S2' is 'quartz', and in plan.csv:2 it is 'dust' "
            "[receive/unlike-plan]\n"
            "s.csv:2:28: remark: the day of 'S2' is '2026-09-20', and in plan.csv:2 it is '2026-09-21' "
            "[receive/unlike-plan]\n");
}

TEST(RowsAtOdds, AreRefusedForAnotherPumpOrTheCassetteOfAnother) {
  EXPECT_EQ(told(sample("S2,B1,P1,2.0,M1,dust,C-2,2026-09-21T08:00,2026-09-21T16:00")),
            "s.csv:2:7: error: the pump of 'S2' is 'P1', and in plan.csv:2 it is 'P2' [receive/refused]\n");
  EXPECT_EQ(told(sample("S2,B1,P2,2.0,M1,dust,C-3,2026-09-21T08:00,2026-09-21T16:00")),
            "s.csv:2:22: error: the medium of 'S2' is 'C-3', and that is planned for 'S3', plan.csv:3 "
            "[receive/refused]\n");
}

// What several samples are planned on is a kind of filter, and no number of one.
TEST(RowsAtOdds, AreNotSwappedWhereTheMediumIsAKind) {
  const std::string kinds = "S5,B1,P1,V1,,2.0,M1,dust,PVC,2026-09-21\nS6,B1,P1,V1,,2.0,M1,dust,PVC,2026-09-21\n";
  EXPECT_EQ(told(sample("S2,B1,P2,2.0,M1,dust,PVC,2026-09-21T08:00,2026-09-21T16:00"), "", kinds),
            "s.csv:2:22: remark: the medium of 'S2' is 'PVC', and in plan.csv:2 it is 'C-2' [receive/unlike-plan]\n");
}

TEST(RowsAtOdds, AreOfSamplesThatNobodyPlanned) {
  EXPECT_EQ(told(sample("S22,B1,P2,2.0,M1,dust,C-22,2026-09-21T08:00,2026-09-21T16:00")),
            "s.csv:2:1: error: the sample 'S22' is not among those planned for the batch 'B1' [receive/refused]\n");
  EXPECT_EQ(told(sample("T1,B2,P2,2.0,M1,dust,C-22,2026-09-21T08:00,2026-09-21T16:00\n"
                        "T2,B2,P2,2.0,M1,dust,C-23,2026-09-21T08:00,2026-09-21T16:00")),
            "s.csv:2:4: remark: the batch 'B2' is not in the plan [receive/not-planned]\n");
  EXPECT_EQ(told(sample("S4,B1,P2,2.0,M1,dust,C-4,2026-09-21T08:00,2026-09-21T16:00")),
            "s.csv:2:1: error: the sample 'S4' is planned in plan.csv:4, and that row can't be used "
            "[receive/refused]\n");
}

TEST(RowsAtOdds, AreNotThoseWithAFaultOfTheirOwn) {
  EXPECT_EQ(told(sample("S2,B1,P2,2.0,M9,dust,C-2,2026-09-21T08:00,2026-09-21T16:00,too many cells")), "");
}

TEST(RowsAtOdds, LieAheadOrAYearBack) {
  EXPECT_EQ(told(sample("T1,B2,P2,2.0,M1,dust,C-22,2027-09-21T08:00,2027-09-21T16:00")),
            "s.csv:2:27: remark: 2027-09-21T08:00+00:00 lies ahead of 2026-09-21, which stands for today "
            "[receive/ahead]\n"
            "s.csv:2:4: remark: the batch 'B2' is not in the plan [receive/not-planned]\n");
  EXPECT_EQ(told(sample("T1,B2,P2,2.0,M1,dust,C-22,2025-09-21T08:00,2025-09-21T16:00")),
            "s.csv:2:27: remark: 2025-09-21T08:00+00:00 is 365 days before 2026-09-21 [receive/long-ago]\n"
            "s.csv:2:4: remark: the batch 'B2' is not in the plan [receive/not-planned]\n");
  EXPECT_EQ(told("", "taken,stage,pump,calibrator,reading [L/min]\n2026-09-22T07:40,pre,P2,V1,2.000\n"),
            "r.csv:2:1: remark: 2026-09-22T07:40+00:00 lies ahead of 2026-09-21, which stands for today "
            "[receive/ahead]\n");
}

TEST(RowsAtOdds, AreOutOfOrder) {
  const std::string head = "taken,stage,sample,calibrator,reading [L/min]\n";
  EXPECT_EQ(told(sample(as_planned), head + "2026-09-21T08:40,pre,S2,V1,2.000\n2026-09-21T08:40,pre,S2,V1,2.001\n"
                                            "2026-09-21T15:20,post,S2,V1,1.990\n"),
            "r.csv:2:1: remark: the pre reading of 'S2' was taken 2026-09-21T08:40+00:00, after its start, "
            "2026-09-21T08:00+00:00 [receive/out-of-order]\n"
            "r.csv:4:1: remark: the post reading of 'S2' was taken 2026-09-21T15:20+00:00, before its stop, "
            "2026-09-21T16:00+00:00 [receive/out-of-order]\n");
  EXPECT_EQ(told(sample(as_planned), head + "2025-09-21T07:40,pre,S2,V1,2.000\n2027-09-21T16:20,post,S2,V1,1.990\n"),
            "r.csv:2:1: remark: the pre reading of 'S2' was taken 2025-09-21T07:40+00:00, long before its start, "
            "2026-09-21T08:00+00:00 [receive/out-of-order]\n"
            "r.csv:3:1: remark: the post reading of 'S2' was taken 2027-09-21T16:20+00:00, long after its stop, "
            "2026-09-21T16:00+00:00 [receive/out-of-order]\n");
  EXPECT_EQ(told(sample("S2,B1,P2,2.0,M1,dust,C-2,2026-09-11T08:00,2026-09-21T16:00")).substr(0, 74),
            "s.csv:2:43: remark: the sample 'S2' ran for 10 days [receive/out-of-order]");
}

TEST(RowsAtOdds, AreReadWithAnotherCalibrator) {
  EXPECT_EQ(told(sample(as_planned),
                 "taken,stage,sample,calibrator,reading [L/min]\n"
                 "2026-09-21T07:40,pre,S2,V2,2.000\n2026-09-21T07:40,pre,S2,V2,2.001\n"),
            "r.csv:2:25: remark: the calibrator of 'S2' is 'V2', and in plan.csv:2 it is 'V1' [receive/unlike-plan]\n");
}

}  // namespace
}  // namespace driftwarden::rows_at_odds_test
