// SPDX-License-Identifier: MIT
#include "history/lookback_remarks.hpp"

#include <gtest/gtest.h>

#include <limits>

#include "history/lookback_book.hpp"

namespace driftwarden::lookback_remarks_test {
namespace {

std::vector<std::string> remarks(const BookText& text, const RulesText& rules = {},
                                 std::string_view certificate = "V1/found") {
  JudgedBook judged(text, rules);
  const auto window = window_of(judged.screening(), certificate_of(judged.book(), certificate));
  return look_back(judged.screening(), *window, std::numeric_limits<Day>::max()).remarks;
}

bool say(const std::vector<std::string>& remarks, std::string_view part) {
  for (const std::string& remark : remarks) {
    if (remark.find(part) != std::string::npos) return true;
  }
  return false;
}

BookText with(const std::string& certificate_lines) {
  BookText text = lookback_text();
  text.certificates += certificate_lines;
  return text;
}

BookText replaced(const std::string& what, const std::string& by) {
  BookText text = lookback_text();
  text.certificates.replace(text.certificates.find(what), what.size(), by);
  return text;
}

TEST(LookbackRemarks, AreNoneWhereNothingIsLeftOpen) { EXPECT_TRUE(remarks(lookback_text()).empty()); }

TEST(LookbackRemarks, TellOfReadingsOfTheDayItself) {
  BookText text = lookback_text();
  text.readings += "2026-03-11T07:30,pre,S6,V1,2.0\n";
  EXPECT_TRUE(say(remarks(text), "1 reading was taken with V1 on the very day it was found wrong"));
}

TEST(LookbackRemarks, TellOfAnOpenWindow) {
  EXPECT_TRUE(say(remarks(replaced("V1/good,V1,", "V3/more,V3,")), "the window is open to the past"));
}

TEST(LookbackRemarks, TellOfACertificateWithinTolerance) {
  EXPECT_TRUE(say(remarks(lookback_text(), {}, "V1/good"), "within its tolerance; it is looked back from because"));
}

TEST(LookbackRemarks, TellOfCertificatesBetween) {
  const BookText text = with("V1/between,V1,2026-03-05,outside prover,2,2.0,2.1,2.1,2\n");
  EXPECT_TRUE(say(remarks(text), "certificate V1/between lies in the window"));
}

TEST(LookbackRemarks, TellWhereTheWitnessLeanedOnTheAccused) {
  EXPECT_TRUE(say(remarks(replaced("V1/found,V1,2026-03-11,outside prover", "V1/found,V1,2026-03-11,V2")),
                  "needs another witness"));
}

TEST(LookbackRemarks, TellOfCertificatesThatNameNoStandard) {
  EXPECT_TRUE(say(remarks(with("silent,V3,2026-03-05,,2,2.0,2.0,2.0,2\n")),
                  "1 certificate of the window names no standard, so whether it leaned on V1 is not known: silent"));
}

TEST(LookbackRemarks, TellWhereVolumesDoNotFollowTheReadings) {
  EXPECT_TRUE(say(remarks(lookback_text(), {{}, {}, {practice("flow_for_volume", "nominal")}}), "nominal flow"));
}

}  // namespace
}  // namespace driftwarden::lookback_remarks_test
