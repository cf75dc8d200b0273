// SPDX-License-Identifier: MIT
#include "book/certificate_points.hpp"

#include <gtest/gtest.h>

namespace driftwarden::certificate_points_test {
namespace {

// input: points of invented certificates.

CertificatePoint row(double nominal, double reference, std::optional<double> found, std::optional<double> left,
                     std::uint32_t line) {
  CertificatePoint point;
  point.nominal_l_min = nominal;
  point.reference_l_min = reference;
  point.as_found_l_min = found;
  point.as_left_l_min = left;
  point.place = {0, line};
  return point;
}

Certificate with(std::vector<CertificatePoint> points) {
  Certificate certificate;
  certificate.points = std::move(points);
  return certificate;
}

TEST(CertificatePoints, OfOnePointInTwoRowsAreOne) {
  for (const bool left_stands_first : {false, true}) {
    Certificate certificate = with({row(2, 2.001, 2.064, {}, 2), row(2, 2.000, {}, 2.001, 3)});
    if (left_stands_first) std::swap(certificate.points[0], certificate.points[1]);
    const std::optional<RowPlace> told = join_found_and_left(certificate);
    ASSERT_TRUE(told);
    EXPECT_EQ(told->line, 2U);
    ASSERT_EQ(certificate.points.size(), 1U);
    const CertificatePoint& point = certificate.points[0];
    EXPECT_EQ(point.as_found_l_min, 2.064);
    EXPECT_EQ(point.found_reference_l_min(), 2.001);
    EXPECT_EQ(point.in_use_l_min(), 2.001);
    EXPECT_EQ(point.reference_in_use_l_min(), 2.000);
  }
}

// derived: 2 L/min in ft3/min, to ten digits, and back.
TEST(CertificatePoints, AreOneAlsoInTwoUnits) {
  Certificate certificate = with({row(2, 2.001, 2.064, {}, 2), row(0.07062933344 * 28.316846592, 2.000, {}, 2.001, 3)});
  EXPECT_NE(certificate.points[1].nominal_l_min, 2);
  join_found_and_left(certificate);
  EXPECT_EQ(certificate.points.size(), 1U);
}

TEST(CertificatePoints, AsFoundOnlyStayOutOfUseBesideRowsAsLeft) {
  Certificate certificate = with({row(1, 1, 1.05, {}, 2), row(2, 2, {}, 2.001, 3)});
  EXPECT_EQ(join_found_and_left(certificate)->line, 2U);
  ASSERT_EQ(certificate.points.size(), 2U);
  EXPECT_FALSE(certificate.points[0].in_use_l_min());
  EXPECT_EQ(certificate.points[0].as_found_l_min, 1.05);
}

TEST(CertificatePoints, ReadAgainAsFoundBesideAWholeRowStayOutOfUse) {
  Certificate certificate = with({row(2, 2, 2.064, 2.001, 2), row(2, 2, 2.066, {}, 3)});
  EXPECT_EQ(join_found_and_left(certificate)->line, 3U);
  ASSERT_EQ(certificate.points.size(), 2U);
  EXPECT_FALSE(certificate.points[1].in_use_l_min());
}

// Where each row says both, one without as left was not adjusted, and counts as it was found.
TEST(CertificatePoints, AsFoundOnlyCountWhereNothingSaysAsLeftApart) {
  Certificate certificate = with({row(1, 1, 1.01, {}, 2), row(2, 2, 2.064, 2.001, 3)});
  EXPECT_FALSE(join_found_and_left(certificate));
  EXPECT_EQ(certificate.points[0].in_use_l_min(), 1.01);
}

TEST(CertificatePoints, OfConditionsAreJoinedTheSameWay) {
  Certificate certificate;
  certificate.condition_points = {{293, 293.1, 293.6, {}, {}, {0, 2}}, {293, 293.0, {}, 293.05, {}, {0, 3}}};
  ASSERT_TRUE(join_found_and_left(certificate));
  ASSERT_EQ(certificate.condition_points.size(), 1U);
  EXPECT_EQ(certificate.condition_points[0].found_reference(), 293.1);
  EXPECT_EQ(certificate.condition_points[0].reference_in_use(), 293.0);
}

}  // namespace
}  // namespace driftwarden::certificate_points_test
