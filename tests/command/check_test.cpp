// SPDX-License-Identifier: MIT
#include <gtest/gtest.h>

#include <algorithm>
#include <sstream>

#include "command/called.hpp"

namespace driftwarden::check_test {
namespace {

TEST(Check, CountsWhatABookHolds) {
  const CalledBook book;
  const Called called = call({"check", book.path()});
  EXPECT_EQ(called.status, 0);
  EXPECT_EQ(called.out,
            "Quarry: 4 instruments, 2 certificates, 1 sample, 2 readings, 0 decisions, 0 actions, 0 services, 0 "
            "checks; 0 faults, 0 remarks\n");
  EXPECT_EQ(called.err, "");
}

TEST(Check, CountsTheRowsOfEveryTable) {
  const CalledBook book;
  const auto write = [](const std::string& file, const char* text) { std::ofstream(file) << text; };
  write(book.file("actions.csv"), "written,by,action,about,name\n2026-09-22T08:00,x,Watch,instrument,P1\n");
  write(book.file("service.csv"), "serviced,instrument,what\n2026-09-01T08:00,P1,valve\n2026-09-02T08:00,P2,valve\n");
  write(book.file("checks.csv"),
        "checked,instrument,against,shown [L/min],reference [L/min]\n2026-09-01T08:00,V1,V2,2,2\n");
  EXPECT_NE(call({"check", book.path()}).out.find(" 0 decisions, 1 action, 2 services, 1 check; 0 faults"),
            std::string::npos);
}

TEST(Check, TellsOfAnAddressForNoBatch) {
  BookText text;
  text.settings += "[custody.\"TF*\"]\nreference = \"order 7\"\n";
  const CalledBook book(text);
  const Called called = call({"check", book.path()});
  EXPECT_EQ(called.status, 0);
  EXPECT_NE(called.err.find("no batch of the book is called 'TF*'"), std::string::npos) << called.err;
}

TEST(Check, TellsEveryFaultInOneRunInOrderOfPlace) {
  BookText text;
  text.samples += "S2,P9,2026-09-21T08:00,2026-09-21T16:00\n";
  text.readings += "2026-09-21T16:11,post,S1,V1,1.9S\n2026-09-21T16:12,psot,S1,V1,1.9\n";
  const CalledBook book(text);
  const Called called = call({"check", book.path()});
  EXPECT_EQ(called.status, 2);
  EXPECT_NE(called.out.find("; 3 faults, 0 remarks\n"), std::string::npos) << called.out;
  const std::size_t first = called.err.find("readings.csv:4:29: error: '1.9S' is not a number");
  const std::size_t second =
      called.err.find("readings.csv:5:18: error: 'psot' is no word for 'stage'; did you mean 'post'?");
  const std::size_t third = called.err.find("samples.csv:3:4: error: 'P9' is not a pump of instruments.csv");
  EXPECT_LT(first, second) << called.err;
  EXPECT_LT(second, third) << called.err;
  EXPECT_NE(third, std::string::npos) << called.err;
}

// A book with that many readings that can't be understood.
BookText with_faults(int faults) {
  BookText text;
  for (int i = 0; i < faults; ++i) text.readings += "2026-09-21T16:11,post,S1,V1,1.9S\n";
  return text;
}

std::ptrdiff_t lines_in(const std::string& text) { return std::count(text.begin(), text.end(), '\n'); }

TEST(Check, TellsAllFaultsButSparesATerminalTheThousands) {
  const CalledBook book(with_faults(300));
  EXPECT_EQ(lines_in(call({"check", book.path()}).err), 1) << "they have one cause";
  EXPECT_EQ(lines_in(call({"check", book.path(), "--all"}).err), 300);
  std::ostringstream out;
  std::ostringstream err;
  Surroundings surroundings{out, err, false, true, 0, project_folder(), "0.1.0"};
  EXPECT_EQ(run_command_line({"check", book.path(), "--all"}, surroundings), 2);
  EXPECT_EQ(lines_in(err.str()), 201);
  EXPECT_NE(err.str().find("and 100 more of this kind; 'driftwarden check BOOK 2>FILE' writes all of them into a file"),
            std::string::npos);
}

TEST(Screen, IsNotBuriedUnderFaults) {
  EXPECT_EQ(lines_in(call({"screen", CalledBook(with_faults(300)).path()}).err), 1) << "they have one cause";
  BookText text;
  for (int i = 0; i < 300; ++i) text.readings += "2026-09-21T16:11,post,S1,AWAY-" + std::to_string(i) + ",1.9\n";
  const CalledBook book(text);
  const std::string err = call({"screen", book.path()}).err;
  EXPECT_EQ(lines_in(err), 21);
  EXPECT_NE(err.find("and 280 more of this kind; 'driftwarden check --all' tells all of them"), std::string::npos)
      << err;
}

TEST(Check, RemarksOnNamesThatASpreadsheetWouldRun) {
  BookText text;
  text.samples = "sample,batch,pump,started,stopped\n=1+1,@B,P1,2026-09-21T08:00,2026-09-21T16:00\n";
  text.readings = "taken,stage,sample,calibrator,reading [L/min]\n2026-09-21T07:30,pre,=1+1,V1,2\n";
  const CalledBook book(text);
  const Called called = call({"check", book.path()});
  EXPECT_EQ(called.status, 0);
  EXPECT_NE(called.out.find("0 faults, 2 remarks"), std::string::npos) << called.out;
  EXPECT_NE(called.err.find("[name/formula]"), std::string::npos);
  EXPECT_NE(call({"custody", book.path(), "--batch", "@B", "--format", "csv"}).out.find("\n'=1+1,'@B,"),
            std::string::npos);
}

TEST(Check, TellsRemarksAndThinksNoWorse) {
  BookText text;
  text.samples = "sample,pump,started,stopped,weather\nS1,P1,2026-09-21T08:00,2026-09-21T16:00,rain\n";
  const CalledBook book(text);
  const Called called = call({"check", book.path()});
  EXPECT_EQ(called.status, 0);
  EXPECT_NE(called.out.find("; 0 faults, 1 remark\n"), std::string::npos) << called.out;
  EXPECT_NE(called.err.find("'weather'"), std::string::npos) << called.err;
}

TEST(Check, TellsTheFaultsOfTheRules) {
  BookText text = judged_text();
  text.rules.replace(text.rules.find("drift\"\nwithin"), 5, "drfit");
  const CalledBook book(text);
  const Called called = call({"check", book.path()});
  EXPECT_EQ(called.status, 2);
  EXPECT_NE(called.out.find("; 1 fault, 0 remarks\n"), std::string::npos) << called.out;
  EXPECT_NE(called.err.find("did you mean 'drift'?"), std::string::npos) << called.err;
}

TEST(Check, TellsTheRemarksOnTheRules) {
  BookText text = judged_text();
  text.rules.replace(text.rules.find("measure ="), 0, "where = { sampler = \"respirable-cylcone\" }\n");
  const CalledBook book(text);
  const Called called = call({"check", book.path()});
  EXPECT_EQ(called.status, 0);
  EXPECT_NE(called.out.find("; 0 faults, 1 remark\n"), std::string::npos) << called.out;
  EXPECT_NE(called.err.find("'respirable-cylcone'"), std::string::npos) << called.err;
}

TEST(Check, JudgesNothing) {
  const CalledBook book(judged_text());
  EXPECT_EQ(call({"check", book.path()}).status, 0);  // though S1 is void by that rule
}

TEST(Check, OfWhatIsNoBookSaysSo) {
  const ScratchFolder empty;
  const Called called = call({"check", empty.path().string()});
  EXPECT_EQ(called.status, 2);
  EXPECT_NE(called.err.find("book/no-settings"), std::string::npos) << called.err;
  EXPECT_NE(call({"check", "/no/such/folder"}).err.find("book/no-folder"), std::string::npos);
}

}  // namespace
}  // namespace driftwarden::check_test
