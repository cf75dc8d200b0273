// SPDX-License-Identifier: MIT
#include <gtest/gtest.h>

#include "book/written_book.hpp"

namespace driftwarden::results_file_test {
namespace {

Book book_with(const std::string& results) {
  return WrittenBook()
      .file("samples.csv",
            "sample,kind,pump,started,stopped\nS-1,,PUMP-1,2026-05-01T08:00,2026-05-01T16:00\nB-1,blank,,,\n")
      .file("results.csv", results)
      .read();
}
std::string faults(const std::string& results) { return told(book_with(results).problems); }

// input: what a laboratory may send.
TEST(ResultsFile, FillsEveryFieldInTheOrderOfTheFile) {
  const Book book = book_with(
      "Sample;Analyte;Amount [µg];limit [mg];expanded uncertainty [%];coverage factor;laboratory;reported;balance;"
      "qualifier;note;lot\n"
      "S-1;dust;512.5;0.03;6;2.1;Lower Ferrow;2026-05-09;MB-2;J;dark filter;77\n"
      "B-1;dust;4;;;;;;;;;\n");
  EXPECT_EQ(told(book.problems),
            "results.csv:1:123: remark: columns without a meaning here are kept as notes: 'lot' [heading/unknown]\n");
  ASSERT_EQ(book.results.size(), 2U);
  const LaboratoryResult& of = book.results[0];
  EXPECT_EQ(book.samples.name[of.sample], "S-1");
  EXPECT_EQ(of.analyte, "dust");
  EXPECT_DOUBLE_EQ(of.found, 0.5125);
  EXPECT_EQ(of.limit, 0.03);
  EXPECT_EQ(of.expanded, 0.06);
  EXPECT_TRUE(of.is_relative);
  EXPECT_EQ(of.coverage_factor, 2.1);
  EXPECT_EQ(of.laboratory, "Lower Ferrow");
  EXPECT_NE(of.reported, no_day);
  EXPECT_EQ(of.balance, "MB-2");
  EXPECT_EQ(of.qualifier, "J");
  EXPECT_EQ(of.note, "dark filter; lot: 77");
  EXPECT_EQ(book.samples.name[book.results[1].sample], "B-1");
  EXPECT_TRUE(is_missing(book.results[1].limit));
  EXPECT_EQ(book.place_text(book.files.results, book.results[1].place), "results.csv:3");
}

TEST(ResultsFile, MayBeMissing) { EXPECT_TRUE(WrittenBook().read().results.empty()); }

TEST(ResultsFile, ReadsLessThanHoweverLaboratoriesWriteIt) {
  for (const std::string written : {"<0.03,", "< 0.03,", "nd,0.03", "ND,0.03", "n.d.,0.03", "Not detected,0.03",
                                    "<LOD,0.03", "< RL,0.03", "<0.03,0.03"}) {
    const Book book = book_with("sample,analyte,amount [mg],limit [mg]\nS-1,dust," + written + "\n");
    EXPECT_EQ(told(book.problems), "") << written;
    ASSERT_EQ(book.results.size(), 1U) << written;
    EXPECT_TRUE(book.results[0].is_less_than()) << written;
    EXPECT_EQ(book.results[0].limit, 0.03) << written;
  }
}

// derived: 30.5 µg are 0.0305 mg.
TEST(ResultsFile, ReadsLessThanWithADecimalComma) {
  const Book book = WrittenBook()
                        .file("book.toml", "time_zone = \"UTC\"\ndecimal = \",\"\n")
                        .file("results.csv", "sample;analyte;amount [µg]\nS-1;dust;<30,5\n")
                        .read();
  EXPECT_EQ(told(book.problems), "");
  EXPECT_DOUBLE_EQ(book.results.at(0).limit, 0.0305);
}

TEST(ResultsFile, TakesTheLargerOfTwoLimitsAndSaysSo) {
  const Book book = book_with("sample,analyte,amount [mg],limit [mg]\nS-1,dust,<0.05,0.03\n");
  EXPECT_EQ(
      told(book.problems),
      "results.csv:2:16: remark: the amount is written as '<0.05', and its limit as '0.03'; the larger of the two "
      "is taken; ask the laboratory which of them is meant [results/two-limits]\n");
  EXPECT_EQ(book.results[0].limit, 0.05);
}

// derived: 15.842 - 15.310.
TEST(ResultsFile, WorksOutWhatAMediumGainedOrLost) {
  const Book book =
      book_with("sample,analyte,before [mg],after [mg]\nS-1,dust,15.310,15.842\nB-1,dust,15.004,15.001\n");
  EXPECT_EQ(told(book.problems), "");
  EXPECT_NEAR(book.results[0].found, 0.532, 1e-12);
  EXPECT_NEAR(book.results[1].found, -0.003, 1e-12);
  EXPECT_TRUE(book.results[0].is_weighed());
}

TEST(ResultsFile, CountsFibres) {
  const Book book = book_with(
      "sample,analyte,amount [fibers],limit [fibres],expanded uncertainty [fibres]\nS-1,fibres,"
      "4200,1100,900\n");
  EXPECT_EQ(told(book.problems), "");
  EXPECT_TRUE(book.results[0].is_of_fibres);
  EXPECT_EQ(book.results[0].found, 4200);
  EXPECT_FALSE(book.results[0].is_relative);
}

TEST(ResultsFile, WantsTheUnitInTheHeading) {
  EXPECT_EQ(
      faults("sample,analyte,amount\nS-1,dust,1\n"),
      "results.csv:1:16: error: the heading 'amount' carries no unit; write it as in 'amount [mg]'; units of mass are "
      "kg, g, mg, µg, ng; units of number of fibres are fibres [heading/no-unit]\n");
}

TEST(ResultsFile, TellsAnUnknownSampleWithTheNearestName) {
  EXPECT_EQ(faults("sample,analyte,amount [mg]\nS-l,dust,1\n"),
            "results.csv:2:1: error: no sample is called 'S-l'; did you mean 'S-1'? [results/unknown-sample]\n");
}

TEST(ResultsFile, TellsWhatStandsTwiceAndDistrustsBoth) {
  const Book book = book_with("sample,analyte,amount [mg]\nS-1,dust,1\nS-1,quartz,1\nS-1,dust,2\n");
  EXPECT_EQ(told(book.problems),
            "results.csv:4:5: error: 'dust' of the sample 'S-1' stands already in results.csv:2; leave one of the two "
            "out: which is meant nobody else can say [results/twice]\n");
  EXPECT_NE(book.results[0].problem, no_problem);
  EXPECT_EQ(book.results[1].problem, no_problem);
  EXPECT_NE(book.results[2].problem, no_problem);
}

TEST(ResultsFile, TellsAmountsThatCanNotBe) {
  EXPECT_EQ(faults("sample,analyte,amount [mg]\nS-1,dust,-0.1\n"),
            "results.csv:2:10: error: the amount '-0.1' is less than nothing; write what was found; of a medium that "
            "lost weight write both weights, under 'before' and 'after' [results/negative]\n");
  EXPECT_EQ(faults("sample,analyte,amount [mg]\nS-1,dust,<-0.1\n"),
            "results.csv:2:10: error: less than '<-0.1' is less than nothing; write the laboratory's limit behind '<' "
            "[results/negative]\n");
  EXPECT_EQ(faults("sample,analyte,amount [mg]\nS-1,dust,nd\n"),
            "results.csv:2:10: error: 'nd' says that it was not found, and not what would have been; write the "
            "laboratory's limit under 'limit', or '<' and the limit in this cell [results/no-limit]\n");
  EXPECT_EQ(faults("sample,analyte,amount [mg]\nS-1,dust,<0.03 mg\n"),
            "results.csv:2:10: error: '0.03 mg' is not a number; write digits with '.' as decimal sign; the unit "
            "belongs in the heading [cell/not-a-number]\n");
  EXPECT_EQ(faults("sample,analyte,amount [mg]\nS-1,dust,trace\n"),
            "results.csv:2:10: error: 'trace' is not a number; write digits with '.' as decimal sign; the unit belongs "
            "in the heading [cell/not-a-number]\n");
}

TEST(ResultsFile, WantsOneAmountOrTwoWeights) {
  const std::string headings = "sample,analyte,amount [mg],before [mg],after [mg]\n";
  EXPECT_EQ(faults(headings + "S-1,dust,,,\n"),
            "results.csv:2:10: error: the row says nothing of what was found; write an amount, '<' and the limit, or "
            "the weights before and after [results/nothing]\n");
  EXPECT_EQ(faults(headings + "S-1,dust,,15.1,\n"),
            "results.csv:2:11: error: of the two weights only the one before is there; write both, or the amount that "
            "the laboratory makes of them [results/half-weighed]\n");
  EXPECT_EQ(faults(headings + "S-1,dust,0.5,15.1,15.6\n"),
            "results.csv:2:10: error: the row has an amount and two weights, which make another; leave the amount out, "
            "or the weights [results/two-amounts]\n");
}

TEST(ResultsFile, DoesNotMixMassesAndFibres) {
  const std::string hint =
      "; give both the same unit; keep masses and fibres in files of their own, results/NAME.csv "
      "[results/quantity]\n";
  EXPECT_EQ(faults("sample,analyte,amount [mg],limit [fibres]\nS-1,dust,0.5,3\n"),
            "results.csv:2:14: error: the amount is a mass, and this is a number of fibres" + hint);
  EXPECT_EQ(faults("sample,analyte,amount [fibres],expanded uncertainty [mg]\nS-1,dust,500,3\n"),
            "results.csv:2:14: error: the amount is a number of fibres, and this is not" + hint);
}

TEST(ResultsFile, DoubtsAResultThatIsOlderThanItsSample) {
  const Book book = book_with("sample,analyte,amount [mg],reported\nS-1,dust,1,2026-04-30\n");
  EXPECT_EQ(told(book.problems),
            "results.csv:2:12: remark: the result was reported on 2026-04-30, before its sample stopped on 2026-05-01; "
            "correct the day that is wrong, or the sample that is named [results/before-its-sample]\n");
  EXPECT_EQ(book.results.size(), 1U);
}

}  // namespace
}  // namespace driftwarden::results_file_test
