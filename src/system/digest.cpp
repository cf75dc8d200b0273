// SPDX-License-Identifier: MIT
#include "driftwarden/system/digest.hpp"

#include <openssl/evp.h>

#include <array>
#include <stdexcept>

namespace driftwarden {

namespace {

struct Digest {
  std::array<unsigned char, EVP_MAX_MD_SIZE> bytes{};
  unsigned length = 0;
};

Digest digest_of(std::string_view bytes, const EVP_MD* algorithm, const char* name) {
  Digest digest;
  if (EVP_Digest(bytes.data(), bytes.size(), digest.bytes.data(), &digest.length, algorithm, nullptr) != 1) {
    throw std::runtime_error(std::string("the system's OpenSSL gives no ") + name);
  }
  return digest;
}

std::string hexadecimal(const Digest& digest) {
  constexpr std::string_view digits = "0123456789abcdef";
  std::string text;
  for (unsigned i = 0; i < digest.length; ++i) {
    text += digits[digest.bytes[i] >> 4U];
    text += digits[digest.bytes[i] & 15U];
  }
  return text;
}

}  // namespace

std::string sha256_of(std::string_view bytes) { return hexadecimal(digest_of(bytes, EVP_sha256(), "SHA-256")); }

std::string sha512_of(std::string_view bytes) { return hexadecimal(digest_of(bytes, EVP_sha512(), "SHA-512")); }

std::string base64_sha256_of(std::string_view bytes) {
  const Digest digest = digest_of(bytes, EVP_sha256(), "SHA-256");
  std::array<unsigned char, 2 * EVP_MAX_MD_SIZE> text{};
  const int length = EVP_EncodeBlock(text.data(), digest.bytes.data(), static_cast<int>(digest.length));
  return {text.begin(), text.begin() + length};
}

}  // namespace driftwarden
