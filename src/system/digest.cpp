// SPDX-License-Identifier: MIT
#include "system/digest.hpp"

#include <openssl/evp.h>

#include <array>
#include <memory>
#include <stdexcept>

#include "diagnostic/hexadecimal.hpp"
#include "system/own_openssl.hpp"

namespace driftwarden {

namespace {

struct Digest {
  std::array<unsigned char, EVP_MAX_MD_SIZE> bytes{};
  unsigned length = 0;
};

using Algorithm = std::unique_ptr<EVP_MD, decltype(&EVP_MD_free)>;

[[noreturn]] void fail(const std::string& name) {
  throw std::runtime_error("OpenSSL gives no " + name +
                           ": there is not enough memory for this, or it was built without");
}

Algorithm algorithm_named(const char* name) {
  Algorithm algorithm(EVP_MD_fetch(own_openssl(), name, nullptr), EVP_MD_free);
  if (algorithm == nullptr) fail(name);
  return algorithm;
}

Digest digest_of(std::string_view bytes, const Algorithm& algorithm) {
  Digest digest;
  if (EVP_Digest(bytes.data(), bytes.size(), digest.bytes.data(), &digest.length, algorithm.get(), nullptr) != 1)
    fail(EVP_MD_get0_name(algorithm.get()));
  return digest;
}

const Algorithm& sha256() {
  static const Algorithm algorithm = algorithm_named("SHA2-256");
  return algorithm;
}

const Algorithm& sha512() {
  static const Algorithm algorithm = algorithm_named("SHA2-512");
  return algorithm;
}

std::string hexadecimal(const Digest& digest) {
  std::string text;
  for (unsigned i = 0; i < digest.length; ++i) append_hexadecimal(text, digest.bytes[i], 2);
  return text;
}

}  // namespace

std::string sha256_of(std::string_view bytes) { return hexadecimal(digest_of(bytes, sha256())); }

std::string sha512_of(std::string_view bytes) { return hexadecimal(digest_of(bytes, sha512())); }

std::string base64_sha256_of(std::string_view bytes) {
  const Digest digest = digest_of(bytes, sha256());
  std::array<unsigned char, 2 * EVP_MAX_MD_SIZE> text{};
  const int length = EVP_EncodeBlock(text.data(), digest.bytes.data(), static_cast<int>(digest.length));
  return {text.begin(), text.begin() + length};
}

}  // namespace driftwarden
