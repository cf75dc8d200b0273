// SPDX-License-Identifier: MIT
#include "driftwarden/report/page_style.hpp"

#include <openssl/evp.h>

#include <vector>

#include "driftwarden/book/digest.hpp"

namespace driftwarden {
namespace {

std::vector<unsigned char> bytes_of_hex(std::string_view hex) {
  const auto digit = [](char c) { return static_cast<unsigned>(c <= '9' ? c - '0' : c - 'a' + 10); };
  std::vector<unsigned char> bytes;
  for (std::size_t i = 0; i + 1 < hex.size(); i += 2)
    bytes.push_back(static_cast<unsigned char>(digit(hex[i]) << 4U | digit(hex[i + 1])));
  return bytes;
}

}  // namespace

std::string policy_hash(std::string_view bytes) {
  const std::vector<unsigned char> digest = bytes_of_hex(sha256_of(bytes));
  std::string text(4 * ((digest.size() + 2) / 3) + 1, '\0');
  const int length =
      EVP_EncodeBlock(reinterpret_cast<unsigned char*>(text.data()), digest.data(), static_cast<int>(digest.size()));
  text.resize(static_cast<std::size_t>(length));
  return "sha256-" + text;
}

std::string content_policy(std::string_view style, std::string_view script) {
  return "default-src 'none'; style-src '" + policy_hash(style) + "'; script-src '" + policy_hash(script) +
         "'; img-src data:; base-uri 'none'; form-action 'none'";
}

}  // namespace driftwarden
