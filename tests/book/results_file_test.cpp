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
                                    "none detected,0.03", "<LOD,0.03", "< RL,0.03", "<0.03,0.03"}) {
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
      "results.csv:2:16: remark: the amount is written as '<0.05', which is a limit of 0.05 mg, and its own limit as "
      "'0.03', which is 0.03 mg; the larger of the two is taken; ask the laboratory which of them is meant "
      "[results/two-limits]\n");
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

// derived: 14.293 mg less 14.291 mg, and 13.829 mg less 13.827 mg.
TEST(ResultsFile, WorksOutOneGainOfWeightsInTwoUnits) {
  const Book book =
      book_with("sample,analyte,before [ng],after [g]\nS-1,dust,14291000,0.014293\nB-1,dust,13827000,0.013829\n");
  EXPECT_EQ(told(book.problems), "");
  EXPECT_EQ(book.results[0].found, 0.002);
  EXPECT_EQ(book.results[1].found, 0.002);
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

// It may be that of any sample, or of its blanks.
TEST(ResultsFile, IsLostWhereARowNamesNoSample) {
  EXPECT_NE(book_with("sample,analyte,amount [mg]\nS-l,dust,1\n").lost_results, no_problem);
  EXPECT_NE(book_with("sample,analyte,amount [mgg]\nS-1,dust,1\n").lost_results, no_problem);
  EXPECT_EQ(book_with("sample,analyte,amount [mg]\nS-1,dust,x\n").lost_results, no_problem);
}

TEST(ResultsFile, TellsWhatStandsTwiceOfBoth) {
  const Book book = book_with("sample,analyte,amount [mg]\nS-1,dust,1\nS-1,quartz,1\nS-1,dust,2\n");
  EXPECT_EQ(told(book.problems),
            "results.csv:4:5: error: 'dust' of the sample 'S-1' stands already in results.csv:2; leave one of the two "
            "out: which is meant nobody else can say [results/twice]\n");
  EXPECT_NE(book.results[0].twice, no_problem);
  EXPECT_EQ(book.results[1].twice, no_problem);
  EXPECT_EQ(book.results[2].twice, book.results[0].twice);
  EXPECT_EQ(book.results[2].problem, no_problem);  // it stands alone on a day before the other was reported
  EXPECT_NE(told(book_with("sample,analyte,amount [mg]\nS-1,dust,1\nS-1,Dust,2\n").problems), "");
}

// Some tables from laboratories have a 0 where no limit is stated.
TEST(ResultsFile, RefusesALimitOfNothing) {
  const std::string way_out =
      "a limit of 0 says nothing: there is nothing less; write the laboratory's limit; where it states none, leave the "
      "limit out and write what was found [results/no-limit]\n";
  EXPECT_EQ(faults("sample,analyte,amount [mg]\nS-1,dust,<0\n"), "results.csv:2:10: error: " + way_out);
  EXPECT_EQ(faults("sample,analyte,amount [mg],limit [mg]\nS-1,dust,0.4,0.0\n"), "results.csv:2:14: error: " + way_out);
  EXPECT_EQ(faults("sample,analyte,amount [mg],limit [mg]\nS-1,dust,0,0.001\n"), "");
}

TEST(ResultsFile, AsksWhatAtMostMeans) {
  for (const std::string written : {"≤0.03", "<=0.03", "=<0.03", "⩽ 0.03"})
    EXPECT_EQ(faults("sample,analyte,amount [mg]\nS-1,dust," + written + "\n"),
              "results.csv:2:10: error: '" + written +
                  "' may be an amount, or a limit; write '<' and the limit, as in '<0.03', where less than that was "
                  "found; else the amount alone [results/at-most]\n");
}

TEST(ResultsFile, TellsOnceOfAWeightThatIsNoNumber) {
  EXPECT_EQ(
      faults("sample,analyte,before [mg],after [mg]\nS-1,dust,!5.004,15.001\n"),
      "results.csv:2:10: error: '!5.004' is not a number; write digits with '.' as decimal sign; the unit belongs "
      "in the heading [cell/not-a-number]\n");
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

// derived: 14.718 - 14.1 as decimals, also where they are written in grams.
TEST(ResultsFile, TakesOneWeightFromTheOtherAsDecimals) {
  EXPECT_EQ(book_with("sample,analyte,before [mg],after [mg]\nS-1,dust,14.1,14.718\n").results[0].found, 0.618);
  EXPECT_EQ(book_with("sample,analyte,before [g],after [g]\nS-1,dust,0.0141,0.014718\n").results[0].found, 0.618);
  EXPECT_NEAR(book_with("sample,analyte,before [g],after [mg]\nS-1,dust,0.0141,14.718\n").results[0].found, 0.618,
              1e-12);
}

Book with_balance(const std::string& rows) {
  return WrittenBook()
      .file("instruments.csv", "instrument,kind,principle\nPUMP-1,pump,\nVOL-1,calibrator,volumetric\nMB-2,balance,\n")
      .file(
          "results.csv",
          "sample,analyte,before [mg],after [mg],balance,weighed before,weighed after,kind,batch,amount [mg]\n" + rows)
      .read();
}
std::string faults_with_balance(const std::string& rows) { return told(with_balance(rows).problems); }

TEST(ResultsFile, FindsTheBalanceAmongTheInstrumentsAndTheDaysOfTheWeights) {
  const Book book = with_balance("S-1,dust,14.1,14.7,MB-2,2026-04-27,2026-05-08,,,\n");
  EXPECT_EQ(told(book.problems), "");
  EXPECT_EQ(book.instruments[book.results[0].weighed_on].name, "MB-2");
  EXPECT_EQ(book.results[0].weighed_after - book.results[0].weighed_before, 11);
}

TEST(ResultsFile, DoubtsABalanceThatIsNoneOfTheInstruments) {
  EXPECT_EQ(faults_with_balance("S-1,dust,14.1,14.7,MB-3,,,,,\n"),
            "results.csv:2:20: remark: 'MB-3' is no balance of instruments.csv, so that no certificate of it is looked "
            "at; correct the name, or add it to instruments.csv as a balance [results/unknown-balance]\n");
  EXPECT_EQ(with_balance("S-1,dust,14.1,14.7,VOL-1,,,,,\n").results[0].weighed_on, no_row);
}

TEST(ResultsFile, RefusesAWeightAfterThatWasTakenBeforeTheOther) {
  EXPECT_EQ(faults_with_balance("S-1,dust,14.1,14.7,MB-2,2026-05-08,2026-05-07,,,\n"),
            "results.csv:2:25: error: the weight before is of 2026-05-08, and the one after of 2026-05-07, "
            "which is earlier; correct the day that is wrong [results/weighed-backwards]\n");
}

// derived: 14.102 - 14.1.
TEST(ResultsFile, ReadsControlFiltersBesideTheResults) {
  const Book book = with_balance("CF-1,dust,14.1,14.102,MB-2,,,control,B,\nS-1,dust,14.1,14.7,MB-2,,,,,\n");
  EXPECT_EQ(told(book.problems), "");
  ASSERT_EQ(book.controls.size(), 1U);
  EXPECT_EQ(book.results.size(), 1U);
  EXPECT_EQ(book.controls[0].name, "CF-1");
  EXPECT_EQ(book.texts.text(book.controls[0].batch), "B");
  EXPECT_EQ(book.controls[0].change_mg, 0.002);
  EXPECT_EQ(book.place_text(book.files.results, book.controls[0].place), "results.csv:2");
}

TEST(ResultsFile, RefusesAControlFilterThatCannotStandForABatch) {
  EXPECT_EQ(faults_with_balance("CF-1,dust,14.1,14.102,MB-2,,,control,,\n"),
            "results.csv:2:38: error: the control filter says not with which batch it was weighed; write the batch of "
            "the samples under 'batch' [results/no-batch]\n");
  EXPECT_EQ(
      faults_with_balance("CF-1,dust,,,MB-2,,,control,B,0.002\n"),
      "results.csv:2:30: error: a control filter is weighed twice, and no more is said of it; write both weights, "
      "under 'before' and 'after', and no amount [results/control-not-weighed]\n");
  EXPECT_EQ(
      faults_with_balance("S-1,dust,14.1,14.102,MB-2,,,control,B,\n"),
      "results.csv:2:1: error: 'S-1' is a sample or blank, and no control filter stays in the weighing room under "
      "its name; leave 'control' out, or give the filter a name of its own [results/control-is-sample]\n");
  EXPECT_EQ(
      faults_with_balance("CF-1,dust,14.1,14.102,,,,control,B,\nCF-1,dust,14.1,14.102,,,,control,B,\n"),
      "results.csv:3:1: error: 'dust' of the control filter 'CF-1' stands already in results.csv:2; leave one of the "
      "two out: which is meant nobody else can say [results/twice]\n");
  EXPECT_EQ(faults_with_balance("CF-1,dust,14.1,14.102,,,,controll,B,\n"),
            "results.csv:2:1: error: no sample is called 'CF-1'; name a sample or blank of the samples "
            "[results/unknown-sample]\n"
            "results.csv:2:26: error: 'controll' is no word for 'kind'; did you mean 'control'? write control "
            "[cell/unknown-word]\n");
}

}  // namespace
}  // namespace driftwarden::results_file_test
