// SPDX-License-Identifier: MIT
#include <gtest/gtest.h>

#include <filesystem>

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
  EXPECT_TRUE(
      has(receipts, "received,by,file,rows,form,from,sha256\n2026-11-16T12:00+00:00,the keeper,samples/received-"));
  EXPECT_TRUE(has(receipts, ",3,B1/2026-09-20/0a1b2c3d,readings.csv,"));
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

TEST(Receive, RefusesASampleThatStandsAlready) {
  const Receiving it;
  const std::string file = it.came("s.csv", "sample,pump,started,stopped\nS1,P1,2026-09-22T08:00,2026-09-22T16:00\n");
  expect_refused(it, {file}, "the sample 'S1' stands already in ");
  EXPECT_FALSE(has(it.receive({file}).err, "incoming"));
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

TEST(Receive, RefusesAReadingThatIsThereOrContradictsIt) {
  const Receiving it;
  const std::string head = "taken,stage,sample,calibrator,reading [L/min]\n2026-09-21T07:30,pre,S1,V1,";
  expect_refused(it, {it.came("same.csv", head + "2.000\n")}, "the reading stands already in readings.csv:2");
  expect_refused(it, {it.came("other.csv", head + "2.100\n")},
                 "the reading is 2.1 L/min here, and 2 L/min in readings.csv:2");
}

TEST(Receive, RefusesTheSameFileTwice) {
  const Receiving it;
  const std::string samples = it.came("s.csv", new_samples);
  const std::string again = it.came("again.csv", new_samples);
  expect_refused(it, {samples, again}, "its rows are those of " + samples);
  ASSERT_EQ(it.receive({samples}).status, 0);
  expect_refused(it, {again},
                 "this file was received before, 2026-11-16T12:00+00:00 by the keeper, as samples/received-");
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
