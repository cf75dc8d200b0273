// SPDX-License-Identifier: MIT
#include "history/supposition.hpp"

#include <gtest/gtest.h>

#include "history/lookback_book.hpp"

namespace driftwarden::supposition_test {
namespace {

constexpr double rounding = 1e-12;

struct Leaning {
  explicit Leaning(const BookText& text)
      : judged(text),
        window(*window_of(judged.screening(), certificate_of(judged.book(), "V1/found"))),
        certificates(leaning_certificates(judged.screening(), window)) {}

  std::vector<std::string> names() const {
    std::vector<std::string> all;
    for (const LeaningCertificate& each : certificates) {
      all.push_back(judged.book().certificates[static_cast<std::size_t>(each.certificate)].name);
    }
    return all;
  }
  SupposedErrors errors(Supposition supposition) const {
    return supposed_errors(judged.screening(), window, certificates, supposition);
  }

  JudgedBook judged;
  LookbackWindow window;
  std::vector<LeaningCertificate> certificates;
};

BookText with(const std::string& certificate_lines) {
  BookText text = lookback_text();
  text.certificates += certificate_lines;
  return text;
}

TEST(LeaningCertificates, AreThoseMadeAgainstItInTheWindow) {
  EXPECT_EQ(Leaning(lookback_text()).names(), std::vector<std::string>{"V2/against-V1"});
}

TEST(LeaningCertificates, BeginOnTheFirstDayAndEndBeforeTheLast) {
  const Leaning leaning(
      with("first,V3,2026-03-01,V1,2,2.0,2.0,2.0,2\nlast,V3,2026-03-11,V1,2,2.0,2.0,2.0,2\n"
           "before,V3,2026-02-28,V1,2,2.0,2.0,2.0,2\n"));
  EXPECT_EQ(leaning.names(), (std::vector<std::string>{"V2/against-V1", "first"}));
}

TEST(LeaningCertificates, GoOnThroughOthersAlsoAfterTheWindow) {
  // Written before what it leans on: the order of the file doesn't matter.
  BookText text = lookback_text();
  text.certificates.insert(text.certificates.find("V1/good"), "late,V3,2026-05-01,V2,2,2.0,2.0,2.0,2\n");
  EXPECT_EQ(Leaning(text).names(), (std::vector<std::string>{"V2/against-V1", "late"}));
}

TEST(LeaningCertificates, OfStandardsInARingComeToAnEnd) {
  const Leaning leaning(
      with("a,V3,2026-03-07,V2,2,2.0,2.0,2.0,2\nb,V2,2026-03-07,V3,2,2.0,2.0,2.0,2\n"
           "c,V1,2026-03-08,V3,2,2.0,2.1,2.1,2\n"));
  // On 2026-03-07 V2 stands by b and V3 by a, each made against the other and neither against V1.
  EXPECT_EQ(leaning.names(), std::vector<std::string>{"V2/against-V1"});
  const Leaning named(with("a,V3,2026-03-07,V2/against-V1,2,2.0,2.0,2.0,2\nb,V2,2026-03-07,a,2,2.0,2.0,2.0,2\n"));
  EXPECT_EQ(named.names(), (std::vector<std::string>{"V2/against-V1", "a", "b"}));
}

TEST(SupposedErrors, SuddenIsTheWholeErrorFromTheFirstDay) {
  const Leaning leaning(lookback_text());
  const SupposedErrors errors = leaning.errors(Supposition::sudden);
  const ErrorCurve* first = errors.curve(leaning.window.instrument, 0, leaning.window.from);
  ASSERT_NE(first, nullptr);
  EXPECT_NEAR(first->front().error, 0.10, rounding);
  EXPECT_EQ(errors.curve(leaning.window.instrument, 0, leaning.window.until), nullptr);
}

TEST(SupposedErrors, LinearGrowsByATenthADay) {
  const Leaning leaning(lookback_text());
  const SupposedErrors errors = leaning.errors(Supposition::linear);
  for (Day day = 0; day < 10; ++day) {
    const ErrorCurve* curve = errors.curve(leaning.window.instrument, 0, leaning.window.from + day);
    ASSERT_NE(curve, nullptr);
    EXPECT_NEAR(error_at(*curve, 2.1).error, 0.01 * day, rounding);
  }
}

// V2 was set to 2.000 by a standard that in truth showed 10 % (sudden) or, on the fifth of ten days, 5 % too much: what
// flowed was 2/1.1 and 2/1.05, so V2 shows 10 % and 5 % too much ever after.
TEST(SupposedErrors, PassToWhatTheInstrumentWasTheStandardOf) {
  const Leaning leaning(lookback_text());
  const std::int32_t of_v2 = certificate_of(leaning.judged.book(), "V2/against-V1");
  const Row v2 = instrument_of(leaning.judged.book(), "V2");
  const Day months_later = leaning.window.until + 100;
  EXPECT_NEAR(leaning.errors(Supposition::sudden).curve(v2, of_v2, months_later)->front().error, 0.10, rounding);
  EXPECT_NEAR(leaning.errors(Supposition::linear).curve(v2, of_v2, months_later)->front().error, 0.05, rounding);
}

TEST(SupposedErrors, OfAStandardThatShowedNothingAreNotKnown) {
  BookText text = lookback_text();
  text.certificates.replace(text.certificates.find("2.2,2.0,2\n"), 3, "0.0");
  const Leaning leaning(text);
  const std::int32_t of_v2 = certificate_of(leaning.judged.book(), "V2/against-V1");
  const Row v2 = instrument_of(leaning.judged.book(), "V2");
  const SupposedErrors errors = leaning.errors(Supposition::sudden);
  const ErrorCurve* curve = errors.curve(v2, of_v2, leaning.window.until);
  ASSERT_NE(curve, nullptr);
  EXPECT_TRUE(is_missing(error_at(*curve, 2.0).error));
}

}  // namespace
}  // namespace driftwarden::supposition_test
