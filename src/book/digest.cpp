// SPDX-License-Identifier: MIT
#include "driftwarden/book/digest.hpp"

#include <openssl/evp.h>

#include <array>
#include <stdexcept>

namespace driftwarden {

std::string sha256_of(std::string_view bytes) {
  std::array<unsigned char, EVP_MAX_MD_SIZE> digest{};
  unsigned length = 0;
  if (EVP_Digest(bytes.data(), bytes.size(), digest.data(), &length, EVP_sha256(), nullptr) != 1) {
    throw std::runtime_error("the system's OpenSSL gives no SHA-256");
  }
  constexpr std::string_view digits = "0123456789abcdef";
  std::string text;
  for (unsigned i = 0; i < length; ++i) {
    text += digits[digest[i] >> 4U];
    text += digits[digest[i] & 15U];
  }
  return text;
}

}  // namespace driftwarden
