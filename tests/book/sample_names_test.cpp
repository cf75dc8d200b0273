// SPDX-License-Identifier: MIT
#include "book/sample_names.hpp"

#include <gtest/gtest.h>

#include "book/written_book.hpp"

namespace driftwarden::sample_names_test {
namespace {

const std::string heading = "sample,pump,started,stopped\n";
const std::string rest = ",PUMP-1,2026-05-01T08:00,2026-05-01T16:00\n";

TEST(SampleNames, ThatStandTwiceAreAProblemOfBothRows) {
  const Book book = WrittenBook()
                        .file("samples.csv", heading + "S-1" + rest + "S-2" + rest + "S-1" + rest)
                        .file("samples/more.csv", heading + "s-2" + rest + "S-1" + rest)
                        .read();
  EXPECT_EQ(
      told(book.problems),
      "samples.csv:4: error: the sample 'S-1' stands already in samples.csv:2; give each sample a name of its own "
      "[sample/twice]\n"
      "samples/more.csv:3: error: the sample 'S-1' stands already in samples.csv:2; give each sample a name of its "
      "own [sample/twice]\n");
  const SampleTable& t = book.samples;
  EXPECT_EQ(problem_text(book, t.problem[0]), to_text(book.problems[0]));
  EXPECT_EQ(problem_text(book, t.problem[1]), "");
  EXPECT_EQ(problem_text(book, t.problem[2]), to_text(book.problems[0]));
  EXPECT_EQ(problem_text(book, t.problem[3]), "") << "capitals make another name";
  EXPECT_EQ(problem_text(book, t.problem[4]), to_text(book.problems[1]));
}

TEST(SampleNames, ThatStandTwiceLeaveARowItsEarlierProblem) {
  const Book book =
      WrittenBook().file("samples.csv", heading + "S-1,PUMP-9,2026-05-01T08:00,2026-05-01T16:00\nS-1" + rest).read();
  EXPECT_EQ(problem_text(book, book.samples.problem[0]), to_text(book.problems.at(0)));
  EXPECT_EQ(problem_text(book, book.samples.problem[1]), to_text(book.problems.at(1)));
}

TEST(SampleNames, GiveAReadingTheFirstOfTwo) {
  const Book book =
      WrittenBook()
          .file("samples.csv", heading + "S-1" + rest + "S-1" + rest)
          .file("readings.csv", "taken,stage,sample,calibrator,reading [L/min]\n2026-05-01T07:50,pre,S-1,VOL-1,2\n")
          .read();
  EXPECT_EQ(book.readings.sample[0], 0U);
}

class HintAtSamplesTest : public testing::Test {
 protected:
  HintAtSamplesTest() {
    for (const std::string_view name : {"TF42A-1", "TF42A-2", "Blank 7"}) samples_.name.push_back(name);
    samples_.rows = 3;
  }
  void tell(const std::string& name) {
    const auto line = static_cast<std::uint32_t>(unknown_.size() + 2);
    unknown_.emplace_back(name, problems_.add(error("reading/unknown-sample", {"r.csv", line, 0}, name, "add it")));
  }
  std::string hints() {
    hint_at_samples(unknown_, samples_, problems_);
    std::string hints;
    for (const Diagnostic& problem : problems_.sorted().problems) hints += problem.hint + "\n";
    return hints;
  }

  SampleTable samples_;
  ProblemList problems_;
  UnknownSamples unknown_;
};

TEST_F(HintAtSamplesTest, NameTheNearest) {
  tell("TF42A-l");
  tell("blank7");
  tell("TF42A-l");
  EXPECT_EQ(hints(), "did you mean 'TF42A-1'?\ndid you mean 'Blank 7'?\ndid you mean 'TF42A-1'?\n");
}

TEST_F(HintAtSamplesTest, StayAsTheyAreWhereNoneIsNear) {
  tell("Kathmandu");
  EXPECT_EQ(hints(), "add it\n");
}

TEST_F(HintAtSamplesTest, AreLeftOutWhereMoreThanAHundredNamesAreUnknown) {
  for (int i = 0; i < 100; ++i) tell("TF42A-" + std::to_string(100 + i));
  tell("TF42A-100");
  EXPECT_NE(hints().find("did you mean"), std::string::npos) << "a hundred, one of them twice";
  problems_.back_to(0);
  unknown_.clear();
  for (int i = 0; i < 101; ++i) tell("TF42A-" + std::to_string(100 + i));
  EXPECT_EQ(hints().find("did you mean"), std::string::npos);
}

}  // namespace
}  // namespace driftwarden::sample_names_test
