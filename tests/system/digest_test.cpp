// SPDX-License-Identifier: MIT
#include "system/digest.hpp"

#include <gtest/gtest.h>

namespace driftwarden::digest_test {
namespace {

// NIST, Cryptographic Standards and Guidelines, "Examples with Intermediate Values": SHA-256 of the one-block message
// "abc" and of the two-block message; the digest of no bytes and of a million times "a" are in the SHA test vectors
// that accompany FIPS 180-4 (SHA256ShortMsg, Len = 0; "one million repetitions" in the former FIPS 180-2, appendix
// B.3). Written down from memory; sha256sum of GNU coreutils, another implementation, gives the same.
TEST(Sha256, GivesThePublishedDigests) {
  EXPECT_EQ(sha256_of(""), "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855");
  EXPECT_EQ(sha256_of("abc"), "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
  EXPECT_EQ(sha256_of("abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq"),
            "248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1");
  EXPECT_EQ(sha256_of(std::string(1000000, 'a')), "cdc76e5c9914fb9281a1c7e284d73e67f1809a48a497200e046d39ccc7112cd0");
}

TEST(Sha256, TakesEveryByteIntoAccount) {
  EXPECT_NE(sha256_of(std::string_view("a\0b", 3)), sha256_of(std::string_view("a\0c", 3)));
  EXPECT_NE(sha256_of("a\n"), sha256_of("a\r\n"));
}

// Worked out with openssl dgst and base64 of GNU coreutils.
TEST(Sha256, IsAlsoWrittenInBase64) {
  EXPECT_EQ(base64_sha256_of("abc"), "ungWv48Bz+pBQUDeXa4iI7ADYaOWF3qctBD/YfIAFa0=");
}

// The same source's SHA-512 of "abc"; the digest of no bytes as above. Written down from memory; sha512sum of GNU
// coreutils gives the same.
TEST(Sha512, GivesThePublishedDigests) {
  EXPECT_EQ(sha512_of("abc"),
            "ddaf35a193617abacc417349ae20413112e6fa4e89a97ea20a9eeee64b55d39a"
            "2192992a274fc1a836ba3c23a3feebbd454d4423643ce80e2a9ac94fa54ca49f");
  EXPECT_EQ(sha512_of(""),
            "cf83e1357eefb8bdf1542850d66d8007d620e4050b5715dc83f4a921d36ce9ce"
            "47d0d13c5d85f2b0ff8318d2877eec2f63b931bd47417a81a538327af927da3e");
}

}  // namespace
}  // namespace driftwarden::digest_test
