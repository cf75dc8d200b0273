// SPDX-License-Identifier: MIT
#include "assessment/traceability.hpp"

#include <gtest/gtest.h>

#include <algorithm>

#include "support/book_text.hpp"

namespace driftwarden::traceability_test {
namespace {

constexpr Day first_of_january_2026 = 20454;
constexpr Row v1 = 2;
constexpr Row v2 = 3;

// Certificates with everything said: name, instrument, day, standard.
struct Line {
  const char* name;
  const char* instrument;
  const char* day;
  const char* standard;
  const char* issuer = "a laboratory";
  const char* uncertainty = "1";
};

BookText with(const std::vector<Line>& lines) {
  BookText text;
  text.certificates =
      "certificate,instrument,calibrated,standard,issuer,nominal [L/min],reference [L/min],as left [L/min],"
      "expanded uncertainty [%],coverage factor\n";
  for (const Line& line : lines) {
    text.certificates += std::string(line.name) + "," + line.instrument + "," + line.day + "," + line.standard + "," +
                         line.issuer + ",2,2,2," + line.uncertainty + ",2\n";
  }
  return text;
}

struct Chained {
  explicit Chained(const std::vector<Line>& lines, Row calibrator = v1, Day on = first_of_january_2026 + 100)
      : book(book_of(with(lines))),
        knowledge(book),
        chain(chain_of(book, knowledge, StandardIndex(book), calibrator, on)) {}
  Book book;
  CalibratorKnowledge knowledge;
  Chain chain;
};

bool is_whole(const Chain& chain, const Book& book) {
  return std::ranges::all_of(chain.links, [&](const ChainLink& link) { return is_sound(link, chain, book); });
}

TEST(Chain, GoesFromStandardToStandardToOutsideTheBook) {
  const Chained made({{"A", "V1", "2026-02-01", "V2"}, {"B", "V2", "2026-01-05", "national prover"}});
  ASSERT_EQ(made.chain.links.size(), 2U);
  EXPECT_EQ(made.chain.links[0].certificate, 0);
  EXPECT_EQ(made.chain.links[1].certificate, 1);
  EXPECT_EQ(made.chain.links[1].relied_on, first_of_january_2026 + 31);
  EXPECT_EQ(made.chain.end, ChainEnd::outside_the_book);
  EXPECT_TRUE(is_whole(made.chain, made.book));
}

TEST(Chain, EndsWhereNoStandardIsNamed) {
  const Chained made({{"A", "V1", "2026-02-01", ""}});
  EXPECT_EQ(made.chain.end, ChainEnd::names_no_standard);
  EXPECT_FALSE(is_whole(made.chain, made.book));
}

TEST(Chain, EndsWhereTheStandardHadNoCertificateOnThatDay) {
  const Chained made({{"A", "V1", "2026-02-01", "V2"}, {"B", "V2", "2026-02-02", "national prover"}});
  ASSERT_EQ(made.chain.links.size(), 2U);
  EXPECT_EQ(made.chain.links[1].instrument, v2);
  EXPECT_EQ(made.chain.links[1].certificate, -1);
  EXPECT_EQ(made.chain.end, ChainEnd::no_certificate);
  EXPECT_FALSE(is_whole(made.chain, made.book));
}

TEST(Chain, EndsWhereTheCalibratorItselfHasNone) {
  const Chained made({{"A", "V1", "2026-02-01", "V2"}}, v2);
  EXPECT_EQ(made.chain.end, ChainEnd::no_certificate);
  EXPECT_EQ(made.chain.links.size(), 1U);
}

TEST(Chain, DoesNotRunInARingForEver) {
  const Chained two({{"A", "V1", "2026-02-01", "V2"}, {"B", "V2", "2026-02-01", "V1"}});
  EXPECT_EQ(two.chain.end, ChainEnd::ring);
  EXPECT_EQ(two.chain.links.size(), 2U);
  EXPECT_FALSE(is_whole(two.chain, two.book));
  const Chained one({{"A", "V1", "2026-02-01", "V1"}});
  EXPECT_EQ(one.chain.end, ChainEnd::ring);
  EXPECT_EQ(one.chain.links.size(), 1U);
}

TEST(Chain, TellsWhereANamedCertificateWasNotInForce) {
  const Chained made({{"A", "V1", "2026-02-01", "B"},
                      {"B", "V2", "2026-01-05", "national prover"},
                      {"C", "V2", "2026-01-20", "national prover"}});
  EXPECT_EQ(made.chain.links[1].certificate, 1);
  EXPECT_EQ(made.chain.links[1].in_force, 2);
  EXPECT_FALSE(is_whole(made.chain, made.book));
}

TEST(Chain, IsNotWholeWithoutIssuerOrUncertainty) {
  for (const Line& line : {Line{"A", "V1", "2026-02-01", "national prover", ""},
                           Line{"A", "V1", "2026-02-01", "national prover", "a laboratory", ""}}) {
    const Chained made({line});
    EXPECT_EQ(made.chain.end, ChainEnd::outside_the_book);
    EXPECT_FALSE(is_whole(made.chain, made.book));
  }
}

TEST(CertificateLacks, AreCountedPointByPoint) {
  Certificate certificate;
  certificate.standard = "a standard";
  certificate.points = {{2, 2, {}, 2.0, 0.02, {}}, {3, 3, {}, 3.0, {}, {}}};
  const CertificateLacks lacks = lacks_of(certificate);
  EXPECT_EQ(lacks.points_without_uncertainty, 1U);
  EXPECT_TRUE(lacks.coverage_factor);
  EXPECT_TRUE(lacks.issuer);
  EXPECT_FALSE(lacks.standard);
  certificate.points[0].expanded_uncertainty_l_min.reset();
  EXPECT_FALSE(lacks_of(certificate).coverage_factor) << "there is nothing it would be the factor of";
}

TEST(Chain, IsSoundUpToTheLinkThatNamesNoStandard) {
  const Chained made({{"A", "V1", "2026-02-01", "V2"}, {"B", "V2", "2026-01-05", ""}});
  ASSERT_EQ(made.chain.links.size(), 2U);
  EXPECT_TRUE(is_sound(made.chain.links[0], made.chain, made.book));
  EXPECT_FALSE(is_sound(made.chain.links[1], made.chain, made.book));
}

TEST(Chain, IsNotSoundAtALinkWithoutACertificateWhateverStandsBehindIt) {
  Chained made({{"A", "V1", "2026-02-01", "national prover"}});
  made.chain.links.insert(made.chain.links.begin(), ChainLink{v2, -1, first_of_january_2026, -1});
  EXPECT_FALSE(is_sound(made.chain.links[0], made.chain, made.book));
  EXPECT_TRUE(is_sound(made.chain.links[1], made.chain, made.book));
}

TEST(CertificateLacks, AreNoneWhereAllIsSaid) {
  Certificate certificate;
  certificate.issuer = "a laboratory";
  certificate.coverage_factor = 2;
  certificate.points = {{2, 2, {}, 2.0, 0.02, {}}};
  EXPECT_FALSE(lacks_of(certificate).coverage_factor);
  EXPECT_FALSE(lacks_of(certificate).issuer);
  EXPECT_TRUE(lacks_of(certificate).standard);
}

}  // namespace
}  // namespace driftwarden::traceability_test
