// SPDX-License-Identifier: MIT
#pragma once

#include <memory>
#include <string>
#include <string_view>
#include <utility>

#include "diagnostic/result.hpp"

struct evp_pkey_st;

namespace driftwarden {

// Whether this program holds keys at all; where not, a signature can be neither made nor checked.
bool has_keys();

// An Ed25519 key (RFC 8032), private or public. Keys are PEM files as OpenSSL writes them.
class Ed25519Key {
 public:
  // Faults: evidence/key, where the text is no such key: another kind, encrypted, the wrong half.
  static Result<Ed25519Key> private_key(std::string_view pem, const std::string& file);
  static Result<Ed25519Key> public_key(std::string_view pem, const std::string& file);

  std::string sign(std::string_view bytes) const;  // 64 bytes; of a private key
  bool has_signed(std::string_view bytes, std::string_view signature) const;
  std::string public_pem() const;
  // SHA-256 of the public key in DER, 64 hexadecimal digits: what two people compare over the telephone.
  std::string fingerprint() const;

 private:
  explicit Ed25519Key(std::shared_ptr<evp_pkey_st> key) : key_(std::move(key)) {}
  std::shared_ptr<evp_pkey_st> key_;
};

}  // namespace driftwarden
