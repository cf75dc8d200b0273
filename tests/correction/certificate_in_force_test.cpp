// SPDX-License-Identifier: MIT
#include "correction/certificate_in_force.hpp"

#include <gtest/gtest.h>

#include <cstdint>
#include <string>
#include <vector>

namespace driftwarden::certificate_in_force_test {
namespace {

Certificate certificate(std::string name, Row instrument, Day calibrated) {
  Certificate made;
  made.name = std::move(name);
  made.instrument = instrument;
  made.calibrated = calibrated;
  return made;
}

std::string name_of(const Certificate* certificate) { return certificate ? certificate->name : "none"; }

TEST(CertificateInForce, IsTheNewestOnOrBeforeTheDay) {
  const std::vector<Certificate> all = {certificate("b", 0, 200), certificate("a", 0, 100), certificate("c", 0, 300)};
  const CertificateHistory history(all, 1);
  EXPECT_EQ(name_of(history.in_force(0, 100)), "a");
  EXPECT_EQ(name_of(history.in_force(0, 199)), "a");
  EXPECT_EQ(name_of(history.in_force(0, 200)), "b");
  EXPECT_EQ(name_of(history.in_force(0, 299)), "b");
  EXPECT_EQ(name_of(history.in_force(0, 4000)), "c");
}

TEST(CertificateInForce, IsNeverALaterOne) {
  const std::vector<Certificate> all = {certificate("a", 0, 100)};
  const CertificateHistory history(all, 1);
  EXPECT_EQ(history.in_force(0, 99), nullptr);
  EXPECT_EQ(history.index_in_force(0, 99), -1);
  EXPECT_EQ(history.in_force(0, no_day), nullptr);
}

TEST(CertificateInForce, IsTheLaterInTheFileOfTwoOfOneDay) {
  const std::vector<Certificate> all = {certificate("first", 0, 100), certificate("second", 0, 100),
                                        certificate("older", 0, 50)};
  const CertificateHistory history(all, 1);
  EXPECT_EQ(name_of(history.in_force(0, 100)), "second");
  EXPECT_EQ(name_of(history.in_force(0, 99)), "older");
}

TEST(CertificateInForce, IsTheInstrumentsOwn) {
  const std::vector<Certificate> all = {certificate("of 2", 2, 100), certificate("of 0", 0, 90),
                                        certificate("of 2 again", 2, 80)};
  const CertificateHistory history(all, 4);
  EXPECT_EQ(name_of(history.in_force(0, 120)), "of 0");
  EXPECT_EQ(name_of(history.in_force(1, 120)), "none");
  EXPECT_EQ(name_of(history.in_force(2, 120)), "of 2");
  EXPECT_EQ(name_of(history.in_force(2, 85)), "of 2 again");
  EXPECT_EQ(name_of(history.in_force(3, 120)), "none");
}

TEST(CertificateInForce, IndexIsThePlaceAmongTheCertificates) {
  const std::vector<Certificate> all = {certificate("b", 1, 200), certificate("x", 0, 10), certificate("a", 1, 100)};
  const CertificateHistory history(all, 2);
  EXPECT_EQ(history.index_in_force(1, 150), 2);
  EXPECT_EQ(history.index_in_force(1, 250), 0);
  EXPECT_EQ(history.in_force(1, 250), &all[0]);
}

TEST(CertificateInForce, IsNeverOneWithoutADateOrAnInstrument) {
  const std::vector<Certificate> all = {certificate("undated", 0, no_day), certificate("nobody's", no_row, 50),
                                        certificate("stranger's", 7, 50)};
  const CertificateHistory history(all, 1);
  EXPECT_EQ(history.in_force(0, 1000), nullptr);
  EXPECT_EQ(history.in_force(7, 1000), nullptr);
  EXPECT_EQ(history.in_force(no_row, 1000), nullptr);
}

TEST(CertificateInForce, IsNoneInAnEmptyHistory) {
  EXPECT_EQ(CertificateHistory().in_force(0, 100), nullptr);
  EXPECT_EQ(CertificateHistory({}, 3).in_force(2, 100), nullptr);
}

// Against a plain look through the whole list.
TEST(CertificateInForce, AgreesWithASearchThroughAllOfThem) {
  std::vector<Certificate> all;
  std::uint32_t state = 1;
  const auto next = [&](std::uint32_t below) {
    state = state * 1664525U + 1013904223U;
    return (state >> 16U) % below;
  };
  for (int i = 0; i < 300; ++i) all.push_back(certificate("", next(7), static_cast<Day>(next(60)) - 30));
  const CertificateHistory history(all, 7);
  for (Row instrument = 0; instrument < 7; ++instrument) {
    for (Day day = -35; day < 35; ++day) {
      std::int32_t best = -1;
      for (std::int32_t i = 0; i < 300; ++i) {
        const Certificate& candidate = all[static_cast<std::size_t>(i)];
        if (candidate.instrument != instrument || candidate.calibrated > day) continue;
        if (best < 0 || candidate.calibrated >= all[static_cast<std::size_t>(best)].calibrated) best = i;
      }
      EXPECT_EQ(history.index_in_force(instrument, day), best);
    }
  }
}

TEST(CertificateInForce, IsNoneOfTheInstrumentBehindTheLast) {
  const std::vector<Certificate> all = {certificate("a", 0, 100), certificate("stranger's", 1, 50)};
  const CertificateHistory history(all, 1);
  EXPECT_EQ(history.index_in_force(1, 1000), -1);
  EXPECT_EQ(history.index_in_force(7, 1000), -1);
  EXPECT_TRUE(history.of(1).empty());
}

TEST(CertificateInForce, OrdersTheCertificatesOfEachInstrumentByDate) {
  const std::vector<Certificate> all = {certificate("b", 1, 200), certificate("x", 0, 10), certificate("a", 1, 100),
                                        certificate("y", 2, 5)};
  const CertificateHistory history(all, 3);
  const auto places = [&](Row instrument) {
    const auto of = history.of(instrument);
    return std::vector<std::int32_t>(of.begin(), of.end());
  };
  EXPECT_EQ(places(0), (std::vector<std::int32_t>{1}));
  EXPECT_EQ(places(1), (std::vector<std::int32_t>{2, 0}));
  EXPECT_EQ(places(2), (std::vector<std::int32_t>{3}));
}

}  // namespace
}  // namespace driftwarden::certificate_in_force_test
