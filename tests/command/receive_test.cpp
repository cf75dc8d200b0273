// SPDX-License-Identifier: MIT
#include <gtest/gtest.h>

#include <filesystem>

#include "book/written_workbook.hpp"
#include "command/called.hpp"

namespace driftwarden::receive_test {
namespace {

namespace fs = std::filesystem;

bool has(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }

constexpr const char* new_samples =
    "sample,batch,pump,sampler,started,stopped,form\n"
    "S2,B1,P2,,2026-09-21T08:00,2026-09-21T16:00,B1/2026-09-20/0a1b2c3d\n";
constexpr const char* new_readings =
    "taken,stage,sample,calibrator,reading [L/min],replicate,void,note,form\n"
    "2026-09-21T07:40,pre,S2,V1,2.500,1,yes,struck out 2026-09-21T07:41 by JK: misread,B1/2026-09-20/0a1b2c3d\n"
    "2026-09-21T07:40,pre,S2,V1,2.000,1,,,B1/2026-09-20/0a1b2c3d\n"
    "2026-09-21T16:20,post,S2,V1,1.990,1,,,B1/2026-09-20/0a1b2c3d\n";

// A book, and files that come to it.
class Receiving {
 public:
  explicit Receiving(const BookText& text = judged_text("5 %")) : book_(text) {}

  std::string came(const std::string& name, const std::string& text) const {
    const std::string file = (came_.path() / name).string();
    std::ofstream(file, std::ios::binary) << text;
    return file;
  }
  Called receive(const std::vector<std::string>& files, const std::vector<std::string>& more = {}) const {
    std::vector<std::string> words{"receive", book_.path()};
    words.insert(words.end(), files.begin(), files.end());
    words.insert(words.end(), {"--by", "the keeper"});
    words.insert(words.end(), more.begin(), more.end());
    return call(words);
  }
  const CalledBook& book() const { return book_; }
  std::size_t files_in(const std::string& folder) const {
    std::size_t count = 0;
    std::error_code none;
    for ([[maybe_unused]] const auto& entry : fs::directory_iterator(book_.file(folder), none)) ++count;
    return count;
  }

 private:
  CalledBook book_;
  ScratchFolder came_;
};

TEST(Receive, PutsRowsWhereTheyBelongAndSaysHowTheSamplesStand) {
  const Receiving it;
  const std::string samples = it.came("samples.csv", new_samples);
  const std::string readings = it.came("readings.csv", new_readings);
  const Called called = it.receive({samples, readings});
  EXPECT_EQ(called.status, 0) << called.err;
  EXPECT_TRUE(has(called.out, samples + ": 1 row of samples in samples/received-2026-11-16-")) << called.out;
  EXPECT_TRUE(has(called.out, readings + ": 3 rows of readings in readings/received-2026-11-16-")) << called.out;
  EXPECT_TRUE(has(called.out, "S2: valid\n")) << called.out;
  EXPECT_EQ(it.files_in("samples"), 1U);
  const std::string receipts = text_of_file(it.book().file("received.csv"));
  EXPECT_TRUE(has(receipts,
                  "received,by,file,rows,form,from,sha256,struck out,first,last\n2026-11-16T12:00+00:00,the "
                  "keeper,samples/received-"));
  EXPECT_TRUE(has(receipts, ",3,B1/2026-09-20/0a1b2c3d,readings.csv,"));
  EXPECT_TRUE(has(receipts, ",1,2026-09-21T07:40+00:00,2026-09-21T16:20+00:00\n")) << receipts;
  EXPECT_TRUE(has(call({"screen", it.book().path()}).out, "2 samples"));
}

TEST(Receive, GivesTheVerdictsOfTheSameRowsWrittenByHand) {
  const Receiving it;
  it.receive({it.came("s.csv", new_samples), it.came("r.csv", new_readings)});
  BookText by_hand = judged_text("5 %");
  by_hand.samples =
      "sample,pump,started,stopped,batch,sampler\nS1,P1,2026-09-21T08:00,2026-09-21T16:00,,\n"
      "S2,P2,2026-09-21T08:00,2026-09-21T16:00,B1,\n";
  by_hand.readings =
      "taken,stage,sample,calibrator,reading [L/min]\n"
      "2026-09-21T07:30,pre,S1,V1,2.000\n2026-09-21T16:10,post,S1,V1,1.950\n"
      "2026-09-21T07:40,pre,S2,V1,2.000\n2026-09-21T16:20,post,S2,V1,1.990\n";
  const CalledBook written(by_hand);
  EXPECT_EQ(call({"screen", it.book().path(), "--format", "csv"}).out,
            call({"screen", written.path(), "--format", "csv"}).out);
}

TEST(Receive, OnlyShowsWhatItWouldDoInADryRun) {
  const Receiving it;
  const Called called = it.receive({it.came("s.csv", new_samples), it.came("r.csv", new_readings)}, {"--dry-run"});
  EXPECT_EQ(called.status, 0) << called.err;
  EXPECT_TRUE(has(called.out, "would go into samples/received-")) << called.out;
  EXPECT_TRUE(has(called.out, "S2: valid\nnothing was written\n")) << called.out;
  EXPECT_EQ(it.files_in("samples") + it.files_in("readings"), 0U);
  EXPECT_FALSE(fs::exists(it.book().file("received.csv")));
}

// Each of these speaks against the rows, and nothing of any file is taken in.
void expect_refused(const Receiving& it, const std::vector<std::string>& files, const std::string& why) {
  const std::size_t before = it.files_in("samples") + it.files_in("readings");
  const Called called = it.receive(files);
  EXPECT_EQ(called.status, 2);
  EXPECT_TRUE(has(called.err, why)) << called.err;
  EXPECT_TRUE(has(called.err, "nothing was written")) << called.err;
  EXPECT_EQ(it.files_in("samples") + it.files_in("readings"), before);
}

TEST(Receive, RefusesASampleThatStandsOtherwise) {
  const Receiving it;
  const std::string file = it.came("s.csv", "sample,pump,started,stopped\nS1,P1,2026-09-21T08:00,2026-09-21T15:00\n");
  expect_refused(it, {file},
                 file +
                     ":2:24: error: the sample 'S1' stands in samples.csv:2, and otherwise: stopped "
                     "'2026-09-21T15:00+00:00' here, and '2026-09-21T16:00+00:00' there; leave it out");
}

TEST(Receive, RefusesAFaultyCellByItsPlaceInTheFileThatCame) {
  const Receiving it;
  const std::string file = it.came("s.csv", "sample,pump,started,stopped\nS2,P1,tomorrow,2026-09-22T16:00\n");
  expect_refused(it, {file}, file + ":2:7: error: ");
}

TEST(Receive, RefusesWhatIsUnlikeThePlan) {
  BookText text = judged_text("5 %");
  text.plan = "sample,batch,pump\nS2,B1,P1\nS3,B1,P2\n";
  const Receiving it(text);
  expect_refused(it, {it.came("s.csv", new_samples)}, "the pump of 'S2' is 'P2', and in plan.csv:2 it is 'P1'");
  expect_refused(it,
                 {it.came("b.csv", "sample,batch,pump,started,stopped\nS3,B2,P2,2026-09-21T08:00,2026-09-21T16:00\n")},
                 "the batch of 'S3' is 'B2', and in plan.csv:3 it is 'B1'");
  expect_refused(it,
                 {it.came("n.csv", "sample,batch,pump,started,stopped\nS33,B1,P2,2026-09-21T08:00,2026-09-21T16:00\n")},
                 "the sample 'S33' is not among those planned for the batch 'B1'; did you mean 'S3'?");
}

TEST(Receive, RefusesAReadingThatContradictsTheBook) {
  const Receiving it;
  const std::string head = "taken,stage,sample,calibrator,reading [L/min]\n2026-09-21T07:30,pre,S1,V1,";
  expect_refused(it, {it.came("other.csv", head + "2.100\n")},
                 "other.csv:2:28: error: the reading is 2.1 L/min here, and 2 L/min in readings.csv:2");
}

// A form gives all that is finished each time it is saved.
TEST(Receive, PassesOverWhatStandsUnchanged) {
  const Receiving it;
  ASSERT_EQ(it.receive({it.came("s.csv", new_samples), it.came("r.csv", new_readings)}).status, 0);
  const std::string more =
      "2026-09-22T07:40,pre,S3,V1,2.000,1,,,B1/2026-09-20/0a1b2c3d\n"
      "2026-09-22T16:20,post,S3,V1,1.990,1,,,B1/2026-09-20/0a1b2c3d\n";
  const std::string samples = it.came(
      "s again.csv", std::string(new_samples) + "S3,B1,P2,,2026-09-22T08:00,2026-09-22T16:00,B1/2026-09-20/0a1b2c3d\n");
  const std::string readings = it.came("r again.csv", new_readings + more);
  const Called both = it.receive({samples, readings});
  EXPECT_EQ(both.status, 0) << both.err;
  EXPECT_TRUE(has(both.out, samples + ": 1 row stands already, unchanged: passed over\n")) << both.out;
  EXPECT_TRUE(has(both.out, readings + ": 3 rows stand already, unchanged: passed over\n")) << both.out;
  EXPECT_TRUE(has(both.out, readings + ": 2 rows of readings in readings/received-")) << both.out;
  EXPECT_TRUE(has(both.out, "S3: valid\n") && !has(both.out, "S2: ")) << both.out;
  EXPECT_TRUE(has(text_of_file(it.book().file("received.csv")), ",2,B1/2026-09-20/0a1b2c3d,r again.csv,"));
  const Called again = it.receive({samples, readings});
  EXPECT_EQ(again.status, 0) << again.err;
  EXPECT_TRUE(has(again.out, "5 rows stand already, unchanged: passed over\nnothing was written\n")) << again.out;
  EXPECT_TRUE(has(again.err, "this file was received before, 2026-11-16T12:00+00:00 by the keeper")) << again.err;
  EXPECT_EQ(it.files_in("samples"), 2U);
  EXPECT_EQ(it.files_in("readings"), 2U);
  EXPECT_TRUE(has(call({"check", it.book().path()}).out, "0 faults, 0 remarks"));
}

TEST(Receive, TakesSamplesNowAndTheirReadingsLater) {
  const Receiving it;
  const std::string samples =
      it.came("s.csv", "sample,pump,started,stopped\nS2,P2,2026-09-21T08:00,2026-09-21T16:00\n");
  const Called first = it.receive({samples});
  EXPECT_EQ(first.status, 0) << first.err;
  EXPECT_TRUE(has(first.out, "S2: undecided\n  ")) << first.out;
  EXPECT_TRUE(has(first.out, "explain " + it.book().path() + " S2' shows the whole working of one\n")) << first.out;
  const Called then = it.receive({it.came("r.csv",
                                          "taken,stage,sample,calibrator,reading [L/min]\n"
                                          "2026-09-21T07:40,pre,S2,V1,2.000\n"
                                          "2026-09-21T16:20,post,S2,V1,1.990\n")});
  EXPECT_EQ(then.status, 0) << then.err;
  EXPECT_TRUE(has(then.out, "S2: valid\n")) << then.out;
}

TEST(Receive, AsksForTheSamplesOfReadingsOnce) {
  const Receiving it;
  const std::string file = it.came("r.csv",
                                   "taken,stage,sample,calibrator,reading [L/min]\n"
                                   "2026-09-21T07:40,pre,S2,V1,2.000\n2026-09-21T16:20,post,S2,V1,1.990\n"
                                   "2026-09-21T07:40,pre,S3,V1,2.000\n2026-09-21T16:20,post,S3,V1,1.990\n");
  const Called called = it.receive({file});
  EXPECT_EQ(called.status, 2);
  EXPECT_EQ(called.err, file +
                            ":2:22: error: the sample 'S2' is in no samples file, nor 1 other that these readings "
                            "are of; receive the samples file together with it, or before it [receive/refused]\n"
                            "nothing was written\n");
}

// What book.toml says of the files that rows are received into holds from the start.
TEST(Receive, ReadsRowsAsTheBookWillReadThem) {
  BookText text = judged_text("5 %");
  text.settings += "[files.\"readings/received-*\"]\ndecimal = \",\"\ntime_zone = \"America/Denver\"\n";
  const Receiving it(text);
  const std::string samples = it.came("s.csv", new_samples);
  expect_refused(it, {samples, it.came("r.csv", new_readings)}, "r.csv:3:28: error: '2.000' is not a number");
  const Called called =
      it.receive({samples, it.came("r.csv",
                                   "taken;stage;sample;calibrator;reading [L/min]\n"
                                   "2026-09-21T01:40;pre;S2;V1;2,000\n2026-09-21T10:20;post;S2;V1;1,990\n")});
  EXPECT_EQ(called.status, 0) << called.err;
  EXPECT_FALSE(has(called.err, "receive/")) << called.err;
  EXPECT_TRUE(has(called.out, "S2: valid\n")) << called.out;
  EXPECT_TRUE(has(call({"screen", it.book().path()}).out, "2 samples"));
}

// A row by number or beginning that is none of the owner's files may be one of these.
TEST(Receive, RefusesRowsThatTheBookWouldIgnore) {
  BookText text = judged_text("5 %");
  text.settings += "[files.\"*/received-*\"]\nignore_rows = [\"3\"]\n";
  const Receiving it(text);
  expect_refused(it, {it.came("s.csv", new_samples), it.came("r.csv", std::string("\n") + new_readings)},
                 "r.csv:4: error: the book would not read 1 row of the file, of which this is the first: book.toml has "
                 "ignore_rows for it; take such rows out; or say ignore_rows = [] under "
                 "[files.\"readings/received-*.csv\"]");
}

TEST(Receive, RefusesAFileOfWhichTheBookWouldReadNothing) {
  BookText text = judged_text("5 %");
  text.settings +=
      "[files.\"samples/received-*\"]\nignore_rows = [\"S2\"]\n[files.\"readings/received-*\"]\nheading = 9\n";
  const Receiving it(text);
  expect_refused(it, {it.came("s.csv", new_samples)}, "s.csv:2: error: the book would not read 1 row of the file");
  const Called called = it.receive({it.came("r.csv",
                                            "taken,stage,pump,calibrator,reading [L/min]\n"
                                            "2026-09-21T07:40,pre,P1,V1,2.000\n")});
  EXPECT_EQ(called.status, 2);
  EXPECT_TRUE(has(called.err, "error: there is no such line; say in book.toml on which line the headings stand"))
      << called.err;
  EXPECT_FALSE(has(called.err, "would not read"));
}

TEST(Receive, SaysInADryRunThatReceiptsAreKeptInAWorkbook) {
  const Receiving it;
  std::ofstream(it.book().file("received.xlsx"), std::ios::binary) << xlsx(
      "<row><c t=\"inlineStr\"><is><t>received</t></is></c><c t=\"inlineStr\"><is><t>by</t></is></c>"
      "<c t=\"inlineStr\"><is><t>file</t></is></c></row>");
  const Called called = it.receive({it.came("s.csv", new_samples)}, {"--dry-run"});
  EXPECT_EQ(called.status, 2);
  EXPECT_TRUE(has(called.err,
                  "the table received is kept in a workbook, which is not written to; save its sheet as "
                  "received.csv, and take it out of the workbook"))
      << called.err;
}

TEST(Receive, TellsOneCauseOnce) {
  const Receiving it;
  std::string rows = "\ntaken,stage,sample,calibrator,reading [L/min]\n";
  for (int i = 0; i < 6; ++i) rows += "21.9.2026 7:4" + std::to_string(i) + ",pre,S1,V1,2.000\n";
  const std::string file = it.came("r.csv", rows);
  const Called called = it.receive({file});
  EXPECT_EQ(called.status, 2);
  EXPECT_TRUE(called.err.starts_with(file + ":3:1: error: ")) << called.err;
  EXPECT_TRUE(has(called.err, "(and so in 6 cells of the column 'taken', the first are lines 3, 4 and 5)"));
  EXPECT_TRUE(has(called.err, "under [files.\"readings/received-*.csv\"]")) << called.err;
  EXPECT_EQ(std::count(called.err.begin(), called.err.end(), '\n'), 2) << called.err;
}

TEST(Receive, SaysWhatIsNoFileFromElsewhere) {
  const Receiving it;
  const std::string samples = it.came("s.csv", new_samples);
  const std::string again = it.came("again.csv", new_samples);
  const auto err_of = [&](const std::vector<std::string>& files) { return it.receive(files).err; };
  EXPECT_TRUE(has(err_of({samples, again}), again + ": error: its rows are those of " + samples));
  EXPECT_TRUE(has(err_of({samples, samples}), "this file is named twice; name each file once"));
  EXPECT_TRUE(has(err_of({it.book().path()}), "this is the book itself; name the CSV files"));
  EXPECT_TRUE(has(err_of({it.book().file("samples.csv")}), "this is a file of the book itself"));
  EXPECT_EQ(it.files_in("samples"), 0U);
}

// Typed into by hand once it is there, a row is not what was received; what is struck out there is.
TEST(Receive, LeavesRowsOfWhichCheckTellsThatTheyWereAltered) {
  const Receiving it;
  ASSERT_EQ(it.receive({it.came("s.csv", new_samples), it.came("r.csv", new_readings)}).status, 0);
  const fs::path file = *fs::directory_iterator(it.book().file("readings"));
  const std::string text = text_of_file(file);
  const auto changed = [&](const std::string& from, const std::string& to) {
    std::string other = text;
    other.replace(other.find(from), from.size(), to);
    std::ofstream(file, std::ios::binary) << other;
    return call({"check", it.book().path()}).err;
  };
  EXPECT_FALSE(has(changed("1.990,1,,", "1.990,1,yes,the tube had slipped off"), "receive/altered"));
  EXPECT_TRUE(has(changed("1.990", "1.991"),
                  "its rows are no longer those that were received 2026-11-16T12:00+00:00 by the keeper from 'r.csv'"));
}

// A reading that the form had struck out would count, and nobody would see it by the text that may change.
TEST(Receive, LeavesReadingsOfWhichCheckTellsThatTheyCountByNow) {
  const Receiving it;
  ASSERT_EQ(it.receive({it.came("s.csv", new_samples), it.came("r.csv", new_readings)}).status, 0);
  const fs::path file = *fs::directory_iterator(it.book().file("readings"));
  std::string text = text_of_file(file);
  text.replace(text.find("yes,"), 4, ",");
  std::ofstream(file, std::ios::binary) << text;
  const std::string err = call({"check", it.book().path()}).err;
  EXPECT_TRUE(has(err,
                  "of the rows that were received 1 came struck out, and 0 are by now; write yes under void again; "
                  "what was read in its place stands in a row of its own [receive/altered]"))
      << err;
}

TEST(Receive, LeavesTimesOfWhichCheckTellsThatTheyAreOthersByNow) {
  const Receiving it;
  ASSERT_EQ(it.receive({it.came("s.csv", new_samples), it.came("r.csv", new_readings)}).status, 0);
  EXPECT_FALSE(has(call({"check", it.book().path()}).err, "receive/altered"));
  std::ofstream(it.book().file("book.toml"), std::ios::app) << "[files.\"readings/*\"]\ntime_zone = \"<+05>-5\"\n";
  const std::string err = call({"check", it.book().path()}).err;
  EXPECT_TRUE(has(err,
                  "its times were 2026-09-21T07:40+00:00 to 2026-09-21T16:20+00:00 when it was received, and are "
                  "2026-09-21T02:40+00:00 to 2026-09-21T11:20+00:00 by now; book.toml says otherwise in which time "
                  "zone or order of day and month they are written: say so of other files only [receive/altered]"))
      << err;
}

TEST(Receive, TellsOfReadingsThatCameTwice) {
  const Receiving it;
  const std::string reading = "2026-09-21T07:40:31,pre,S2,V1,2.000\n";
  const std::string came = it.came("r.csv", "taken,stage,sample,calibrator,reading [L/min]\n" + reading + reading +
                                                "2026-09-21T16:20,post,S2,V1,1.990\n");
  const Called called = it.receive({it.came("s.csv", new_samples), came});
  EXPECT_EQ(called.status, 0);
  EXPECT_TRUE(has(called.err, came +
                                  ":3: remark: 1 reading of the pre set of S2 stands twice, alike in every cell, "
                                  "here and in " +
                                  came + ":2;"))
      << called.err;
}

TEST(Receive, TellsThatAFormWasReceivedBefore) {
  const Receiving it;
  ASSERT_EQ(it.receive({it.came("s.csv", new_samples)}).status, 0);
  const Called called = it.receive({it.came("r.csv", new_readings)});
  EXPECT_EQ(called.status, 0);
  EXPECT_TRUE(has(called.err, "rows of the form 'B1/2026-09-20/0a1b2c3d' were received before")) << called.err;
}

TEST(Receive, NeedsToKnowWho) {
  const Receiving it;
  const std::string file = it.came("s.csv", new_samples);
  EXPECT_EQ(call({"receive", it.book().path(), file}).status, 2);
  EXPECT_EQ(call({"receive", it.book().path(), file, "--by", " "}).status, 2);
}

}  // namespace
}  // namespace driftwarden::receive_test
