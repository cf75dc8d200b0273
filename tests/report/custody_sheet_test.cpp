// SPDX-License-Identifier: MIT
#include "report/custody_sheet.hpp"

#include <gtest/gtest.h>

#include "report/custody_book.hpp"
#include "report/paint.hpp"
#include "report/terminal_text.hpp"
#include "verdict/cautions.hpp"

namespace driftwarden::custody_sheet_test {
namespace {

TEST(CustodySheet, ListsVoidSamplesApartWithTheReason) {
  const CustodySheet sheet = custody_of(custody_text());
  ASSERT_EQ(sheet.lines.size(), 3U);
  ASSERT_EQ(sheet.voids.size(), 1U);
  EXPECT_EQ(sheet.voids[0].sample, "S2");
  EXPECT_EQ(
      sheet.voids[0].reasons,
      std::vector<std::string>{
          "The flow fell 10.0 %, from 2.000 L/min before sampling to 1.800 L/min after; the limit is 5 % (own/drift)"});
  EXPECT_EQ(sheet.blanks(), 1U);
  EXPECT_EQ(sheet.undecided(), 1U);
}

TEST(CustodySheet, GivesAVoidSampleNoVolume) {
  const CustodyLine s2 = custody_of(custody_text()).voids.at(0);
  EXPECT_EQ(s2.flow + s2.volume + s2.volume_reference, "");
  EXPECT_TRUE(is_missing(s2.volume_l) && is_missing(s2.flow_l_min) && is_missing(s2.volume_reference_l));
  EXPECT_EQ(s2.minutes, "480");
}

TEST(CustodySheet, HasTheFiguresOfASample) {
  const CustodyLine s1 = custody_of(custody_text()).lines.at(0);
  EXPECT_EQ(s1.date, "2026-09-21");
  EXPECT_EQ(s1.start, "08:00");
  EXPECT_EQ(s1.stop, "16:00");
  EXPECT_EQ(s1.minutes, "480");
  EXPECT_EQ(s1.flow, "1.975");
  EXPECT_EQ(s1.volume, "948.0");
  EXPECT_EQ(s1.volume_reference, "948.0");
  EXPECT_EQ(s1.method, "method 12");
  EXPECT_EQ(s1.analysis, "fume, metals");
  EXPECT_EQ(s1.pump, "P1");
  EXPECT_EQ(s1.medium, "C-1");
  EXPECT_EQ(s1.taken_by, "day crew");
  EXPECT_EQ(s1.remarks, std::vector<std::string>{"noted: wet filter"});
}

TEST(CustodySheet, TellsTheLaboratoryWhatWasMeasuredBesideAConventionalVolume) {
  JudgedBook book(nominal_book(), {{}, {}, {practice("flow_for_volume", "nominal")}});
  const CustodyLine s1 = custody_line(book.screening(), book.result("S1"));
  EXPECT_EQ(s1.volume, "816.0");
  EXPECT_EQ(s1.remarks, (std::vector<std::string>{"remark: The volume is conventional: nominal flow x minutes",
                                                  "remark: Measured: 948.0 L, U 15 L"}));
}

TEST(CustodySheet, SaysWhenASampleStoppedOnAnotherDay) {
  EXPECT_EQ(custody_of(custody_text()).lines.at(1).stop, "2026-09-22 06:00");
}

TEST(CustodySheet, WritesOffsetsWhereTheClocksWereChanged) {
  BookText text = custody_text();
  text.settings = "title = \"Quarry\"\ntime_zone = \"MST7MDT,M3.2.0,M11.1.0\"\n";
  text.samples =
      "sample,batch,kind,pump,started,stopped\n"
      "S1,B-7,sample,P1,2026-10-31T22:00,2026-11-01T05:00\nS2,B-7,blank,,,\nS3,B-7,blank,,,\nK1,B-7,blank,,,\n";
  text.readings = "taken,stage,sample,calibrator,reading [L/min]\n";
  const CustodyLine s1 = custody_of(text).lines.at(0);
  EXPECT_EQ(s1.start, "22:00 -06:00");
  EXPECT_EQ(s1.stop, "2026-11-01 05:00 -07:00");
  EXPECT_EQ(s1.minutes, "480");
}

TEST(CustodySheet, KeepsWhatStandsByDecisionAmongTheOthersAndSaysWhoDecided) {
  BookText text = custody_text();
  text.decisions =
      "decided,by,subject,rule,ruling,reason\n2026-09-22T10:00,site hygienist,S2,own/drift,overrule,looked at\n";
  const CustodySheet sheet = custody_of(text);
  EXPECT_TRUE(sheet.voids.empty());
  const CustodyLine& s2 = sheet.lines.at(1);
  EXPECT_EQ(s2.volume, "912.0");
  EXPECT_EQ(s2.remarks, (std::vector<std::string>{"void, but counts as valid by decision",
                                                  "void: The flow fell 10.0 %, from 2.000 L/min before sampling to "
                                                  "1.800 L/min after; the limit is 5 % (own/drift); overruled by "
                                                  "site hygienist, 2026-09-22T10:00+00:00: looked "
                                                  "at [decisions.csv:2]"}));
}

TEST(CustodySheet, SaysOnceWhatMostHaveAndOfTheOthersWhatIsUnlike) {
  CustodySheet sheet = custody_of(custody_text());
  std::vector<std::string> usual;
  for (const SharedParticular& each : shared_particulars) usual.push_back(sheet.usual(each));
  EXPECT_EQ(usual, (std::vector<std::string>{"fume, metals", "method 12", "", "day crew"}));
  EXPECT_EQ(sheet.unlike_usual(sheet.lines[0]), "");
  EXPECT_EQ(sheet.unlike_usual(sheet.lines[1]), "analysis: dust; taken by: not said");
  EXPECT_EQ(sheet.unlike_usual(sheet.lines[2]), "") << "a blank need not be taken by anybody";
  sheet.lines[2].sampler = "cowl";
  EXPECT_EQ(sheet.unlike_usual(sheet.lines[2]), "") << "what only one says is what is usual";
  EXPECT_EQ(sheet.unlike_usual(sheet.lines[0]), "sampler: not said");
}

TEST(CustodyTable, IsASheetWithLinesToSign) {
  const std::string table = custody_table(custody_of(custody_text()));
  EXPECT_TRUE(table.starts_with("Quarry\nChain of custody, batch B-7: 2 samples, 1 blank; 1 void, listed apart\n"))
      << table;
  EXPECT_NE(table.find("\nFrom: Quarry office, Lane 1\nTo: Dust laboratory\nThe laboratory's reference: order 7\n"
                       "Unless said otherwise, analysis: fume, metals; method: method 12; sampler: not\n"
                       "said; taken by: day crew.\n"),
            std::string::npos)
      << table;
  EXPECT_NE(table.find("\nS1     2026-09-21 08:00 16:00   480  1.975   948.0   948.0\n       - pump: P1; medium: C-1\n"
                       "       - noted: wet filter\n"),
            std::string::npos)
      << table;
  EXPECT_NE(table.find("\n       - pump: P1; medium: C-3; analysis: dust; taken by: not said\n"), std::string::npos)
      << table;
  EXPECT_NE(table.find("\nVoid: no air volume is stated for these\nS2, 2026-09-21\n  - pump: P2; medium: C-2\n  - The "
                       "flow fell 10.0 %, from"),
            std::string::npos)
      << table;
  EXPECT_NE(table.find("\n\n" + wrapped(cautions, 0, table_width) + "\nrelinquished by "), std::string::npos);
}

TEST(CustodyTable, KeepsToItsWidthAndLetsNoTextActOnTheTerminal) {
  BookText text = custody_text();
  text.samples.replace(text.samples.find("wet filter"), 10,
                       "a note that goes on and on; it has a bell \x07 in it and an escape \x1b[2J and so it goes on");
  text.samples.replace(text.samples.find("method 12"), 9, "a method whose name is far longer than anybody would like");
  const std::string table = custody_table(custody_of(text));
  EXPECT_EQ(table.find('\x1b'), std::string::npos);
  EXPECT_EQ(table.find('\x07'), std::string::npos);
  for (std::size_t begin = 0; begin < table.size();) {
    const std::size_t end = table.find('\n', begin);
    EXPECT_LE(characters_in(table.substr(begin, end - begin)), 80U) << table.substr(begin, end - begin);
    begin = end + 1;
  }
}

// A spreadsheet runs what begins with one of =+-@.
TEST(CustodyCsv, KeepsWhatASpreadsheetWouldRunAsText) {
  CustodySheet sheet = custody_of(custody_text());
  CustodyLine& line = sheet.lines[0];
  line.pump = line.sampler = line.medium = line.taken_by = "=1+1";
  sheet.consignment = {"", {}, {"@sender"}, {"-laboratory"}, "+1"};
  const std::string csv = custody_csv(sheet);
  EXPECT_NE(csv.find(",'=1+1,'=1+1,'=1+1,'=1+1,'@sender,'-laboratory,'+1,\""), std::string::npos) << csv;
}

TEST(CustodyTable, SaysOnceWhatEverySampleHas) {
  CustodySheet sheet;
  for (const char* name : {"A", "B", "K"}) {
    CustodyLine line;
    line.sample = name;
    line.is_blank = line.sample == "K";
    if (!line.is_blank) line.remarks = {"qualified: V1 was used late", "noted: by " + line.sample};
    sheet.add(line);
  }
  const std::string table = custody_table(sheet);
  EXPECT_NE(table.find("\nOf every sample listed: qualified: V1 was used late.\n"), std::string::npos) << table;
  EXPECT_EQ(table.find("V1 was used late"), table.rfind("V1 was used late"));
  EXPECT_NE(table.find("- noted: by B"), std::string::npos);
  EXPECT_NE(custody_csv(sheet).find("qualified: V1 was used late; noted: by B"), std::string::npos);
  sheet.lines.erase(sheet.lines.begin());
  EXPECT_TRUE(sheet.common_remarks().empty()) << "one sample alone shares nothing";
}

TEST(CustodyCsv, HasEverySampleVoidOnesWithoutVolumes) {
  const std::string last = ",\"Quarry office, Lane 1\",Dust laboratory,order 7,\"" + std::string(cautions) + "\"\n";
  EXPECT_EQ(
      custody_csv(custody_of(custody_text())),
      "sample,batch,kind,verdict,by_decision,date,started,stopped,minutes,flow_l_min,volume_l,volume_reference_l,"
      "method,analysis,remarks,void_because,volume_is,measured_volume_l,measured_volume_expanded_uncertainty_l,"
      "pump,sampler,medium,taken_by,sender,laboratory,laboratory_reference,cautions\n"
      "S1,B-7,sample,valid,,2026-09-21,2026-09-21T08:00+00:00,2026-09-21T16:00+00:00,480,1.975,948,948,method 12,"
      "\"fume, metals\",noted: wet filter,,measured,948,,P1,,C-1,day crew" +
          last +
          "S3,B-7,sample,undecided,,2026-09-21,2026-09-21T22:00+00:00,2026-09-22T06:00+00:00,480,,,,method 12,dust,"
          "undecided: The change of flow from before to after can't be worked out: no flow reading before or after "
          "sampling is on record (enter them if they were written down) (own/drift),,,,,P1,,C-3," +
          last + "K1,B-7,blank,valid,,,,,,,,,method 12,\"fume, metals\",,,,,,,,C-4," + last +
          "S2,B-7,sample,void,,2026-09-21,2026-09-21T08:00+00:00,2026-09-21T16:00+00:00,480,,,,method 12,"
          "\"fume, metals\",,\"The flow fell 10.0 %, from 2.000 L/min before sampling to 1.800 L/min after; the limit "
          "is "
          "5 % (own/drift)\",,,,P2,,C-2,day "
          "crew" +
          last);
}

}  // namespace
}  // namespace driftwarden::custody_sheet_test
