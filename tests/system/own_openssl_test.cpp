// SPDX-License-Identifier: MIT
#include "system/own_openssl.hpp"

#include <gtest/gtest.h>
#include <openssl/evp.h>

#include <memory>

namespace driftwarden::own_openssl_test {
namespace {

TEST(OwnOpenssl, IsOneContextThatKnowsTheDigests) {
  ASSERT_NE(own_openssl(), nullptr);
  EXPECT_EQ(own_openssl(), own_openssl());
  for (const char* name : {"SHA256", "SHA512"}) {
    const std::unique_ptr<EVP_MD, decltype(&EVP_MD_free)> digest(EVP_MD_fetch(own_openssl(), name, nullptr),
                                                                 EVP_MD_free);
    EXPECT_NE(digest, nullptr) << name;
  }
}

TEST(OwnOpenssl, IsNotTheOneThatReadsTheSettingsOfTheSystem) {
  EXPECT_NE(own_openssl(), OSSL_LIB_CTX_get0_global_default());
}

}  // namespace
}  // namespace driftwarden::own_openssl_test
