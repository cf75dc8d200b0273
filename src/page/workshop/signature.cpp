// SPDX-License-Identifier: MIT
#include "workshop/signature.hpp"

namespace driftwarden {
namespace {

Diagnostic no_keys(const std::string& file) {
  return error("evidence/key", {file, 0, 0}, "a page holds no keys",
               "sign, and check signatures, with the installed program");
}

}  // namespace

bool has_keys() { return false; }

Result<Ed25519Key> Ed25519Key::private_key(std::string_view, const std::string& file) { return no_keys(file); }
Result<Ed25519Key> Ed25519Key::public_key(std::string_view, const std::string& file) { return no_keys(file); }

// Nobody comes here without a key.
std::string Ed25519Key::sign(std::string_view) const { return {}; }
bool Ed25519Key::has_signed(std::string_view, std::string_view) const { return false; }
std::string Ed25519Key::public_pem() const { return {}; }
std::string Ed25519Key::fingerprint() const { return {}; }

}  // namespace driftwarden
