// SPDX-License-Identifier: MIT
#include "rule/sentence.hpp"

#include <gtest/gtest.h>

namespace driftwarden::sentence_test {
namespace {

std::string with_values(std::string_view sentence) {
  return filled(sentence, [](std::string_view name) -> std::optional<std::string> {
    if (name == "figure") return "7.1 %";
    if (name == "pump") return "{limit}";
    return std::nullopt;
  });
}

std::string fault(std::string_view sentence, Subject of = Subject::sample) {
  const auto found = fault_of_sentence(sentence, of);
  return found ? found->message + "; " + found->hint : "";
}

TEST(Sentence, HasValuesInItsPlaceholders) {
  EXPECT_EQ(with_values("The flow fell {figure} today"), "The flow fell 7.1 % today");
  EXPECT_EQ(with_values("{figure}{figure}"), "7.1 %7.1 %");
  EXPECT_EQ(with_values("Nothing is left open"), "Nothing is left open");
  EXPECT_EQ(with_values(""), "");
}

TEST(Sentence, KeepsWhatHasNoValue) {
  EXPECT_EQ(with_values("The flow of {sampler} fell"), "The flow of {sampler} fell");
  EXPECT_EQ(with_values("a { b"), "a { b");
  EXPECT_EQ(with_values("a } b"), "a } b");
}

// A name of the book may look like a placeholder.
TEST(Sentence, IsFilledOnce) { EXPECT_EQ(with_values("{pump} ran {figure}"), "{limit} ran 7.1 %"); }

TEST(Sentence, OfARuleKnowsThePlaceholdersOfItsSubject) {
  EXPECT_EQ(fault("The pump {pump} drew {figure}, {size}; {limit}, {sample}, {sampler}, {calibrator}, {batch}"), "");
  EXPECT_EQ(fault("{calibrator}: {figure}", Subject::calibrator), "");
  EXPECT_EQ(fault("{set}, {reading}", Subject::reading), "");
  EXPECT_EQ(fault("{analyte} of {sample}, {batch}", Subject::result), "");
  EXPECT_NE(fault("{analyte}", Subject::sample), "");
  EXPECT_EQ(fault("{set}"),
            "{set} is no placeholder of a sample; known are figure, size, limit, says, sample, sampler, calibrator, "
            "pump, batch");
  EXPECT_EQ(fault("{figur}"), "{figur} is no placeholder of a sample; did you mean 'figure'?");
  EXPECT_EQ(fault("{sample}", Subject::pump).substr(0, 36), "{sample} is no placeholder of a pump");
  EXPECT_EQ(fault("{why}").substr(0, 35), "{why} is no placeholder of a sample");
}

TEST(Sentence, OfARuleHasNoBraceAlone) {
  EXPECT_EQ(fault("a { b"), "a brace stands alone; write a placeholder as in {figure}");
  EXPECT_EQ(fault("a } b"), "a brace stands alone; write a placeholder as in {figure}");
  EXPECT_EQ(fault("a {{figure}"), "a brace stands alone; write a placeholder as in {figure}");
  EXPECT_EQ(fault("{figure"), "a brace stands alone; write a placeholder as in {figure}");
}

}  // namespace
}  // namespace driftwarden::sentence_test
