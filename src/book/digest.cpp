// SPDX-License-Identifier: MIT
#include "driftwarden/book/digest.hpp"

#include <openssl/evp.h>

#include <array>
#include <stdexcept>

namespace driftwarden {

namespace {

std::string digest_of(std::string_view bytes, const EVP_MD* algorithm, const char* name) {
  std::array<unsigned char, EVP_MAX_MD_SIZE> digest{};
  unsigned length = 0;
  if (EVP_Digest(bytes.data(), bytes.size(), digest.data(), &length, algorithm, nullptr) != 1) {
    throw std::runtime_error(std::string("the system's OpenSSL gives no ") + name);
  }
  constexpr std::string_view digits = "0123456789abcdef";
  std::string text;
  for (unsigned i = 0; i < length; ++i) {
    text += digits[digest[i] >> 4U];
    text += digits[digest[i] & 15U];
  }
  return text;
}

}  // namespace

std::string sha256_of(std::string_view bytes) { return digest_of(bytes, EVP_sha256(), "SHA-256"); }

std::string sha512_of(std::string_view bytes) { return digest_of(bytes, EVP_sha512(), "SHA-512"); }

}  // namespace driftwarden
