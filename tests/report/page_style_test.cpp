// SPDX-License-Identifier: MIT
#include "report/page_style.hpp"

#include <gtest/gtest.h>

namespace driftwarden::page_style_test {
namespace {

TEST(PageStyle, HashesAsAPolicyWantsIt) {
  // FIPS 180-4's example "abc", whose digest is ba7816bf…15ad, in base64 (worked out with openssl dgst and base64).
  EXPECT_EQ(policy_hash("abc"), "sha256-ungWv48Bz+pBQUDeXa4iI7ADYaOWF3qctBD/YfIAFa0=");
}

TEST(PageStyle, AllowsNothingElse) {
  const std::string policy = content_policy("a{}", "1");
  EXPECT_TRUE(policy.starts_with("default-src 'none'; style-src '" + policy_hash("a{}") + "'; script-src '" +
                                 policy_hash("1") + "'"));
  EXPECT_EQ(policy.find("unsafe"), std::string::npos);
}

TEST(PageStyle, HoldsTheFilesAsTheyAre) {
  EXPECT_TRUE(review_css().starts_with("/* The review page"));
  EXPECT_TRUE(review_css().ends_with("}\n"));
  EXPECT_NE(review_js().find("aria-sort"), std::string::npos);
  EXPECT_EQ(review_js().find("</script"), std::string::npos);
}

}  // namespace
}  // namespace driftwarden::page_style_test
