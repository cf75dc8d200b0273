// SPDX-License-Identifier: MIT
#include "report/qr_code.hpp"

#include <gtest/gtest.h>

namespace driftwarden::qr_code_test {
namespace {

// That a scanner reads it, from paper, is tried by tests/browser/field_sheet_test.sh.

TEST(QrCode, IsASquareWithAQuietZoneOfFour) {
  const std::string svg = qr_code_svg("TF46A-1");
  EXPECT_TRUE(svg.starts_with("<svg class=\"code\" role=\"img\" viewBox=\"0 0 29 29\"")) << svg;  // 21 modules and 8
  EXPECT_NE(svg.find("<title>TF46A-1</title>"), std::string::npos);
  EXPECT_NE(svg.find("d=\"M4 4h7v1h-7z"), std::string::npos) << svg;  // the upper edge of the first finder pattern
}

TEST(QrCode, HasHostileTextAsText) {
  EXPECT_NE(qr_code_svg("<script>").find("<title>&lt;script&gt;</title>"), std::string::npos);
}

TEST(QrCode, IsNoneOfNothingOrOfTooMuch) {
  EXPECT_EQ(qr_code_svg(""), "");
  EXPECT_EQ(qr_code_svg(std::string(201, 'x')), "");
  EXPECT_NE(qr_code_svg(std::string(200, 'x')), "");
}

}  // namespace
}  // namespace driftwarden::qr_code_test
