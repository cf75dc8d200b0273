// SPDX-License-Identifier: MIT
#include "workshop/signature.hpp"

#include <openssl/err.h>
#include <openssl/evp.h>
#include <openssl/pem.h>
#include <openssl/x509.h>

#include <array>
#include <stdexcept>

#include "system/digest.hpp"
#include "system/own_openssl.hpp"

namespace driftwarden {
namespace {

constexpr std::size_t signature_bytes = 64;
constexpr std::size_t largest_key_file = std::size_t{64} * 1024;

using Key = std::shared_ptr<EVP_PKEY>;
using Bio = std::unique_ptr<BIO, decltype(&BIO_free)>;
using DigestContext = std::unique_ptr<EVP_MD_CTX, decltype(&EVP_MD_CTX_free)>;

Bio reading(std::string_view text) { return {BIO_new_mem_buf(text.data(), static_cast<int>(text.size())), BIO_free}; }

// Nobody is asked for a password: a key that needs one is refused.
int no_password(char*, int, int, void*) { return -1; }

bool has(std::string_view text, std::string_view part) { return text.find(part) != std::string_view::npos; }

Diagnostic unusable(const std::string& file, const std::string& why, const std::string& hint) {
  return error("evidence/key", {file, 0, 0}, why, hint);
}

constexpr const char* how_to_make =
    "make one: openssl genpkey -algorithm ed25519 -out signer.key; openssl pkey -in signer.key -pubout -out signer.pem";

// A key read, if it is of the right kind.
Result<Key> right_kind(EVP_PKEY* read, const std::string& file) {
  const Key key(read, EVP_PKEY_free);
  ERR_clear_error();
  if (key == nullptr) return unusable(file, "holds no key in PEM form that can be read", how_to_make);
  if (EVP_PKEY_id(key.get()) == EVP_PKEY_ED25519) return key;
  const char* kind = EVP_PKEY_get0_type_name(key.get());
  return unusable(file,
                  "holds a key of the kind " + std::string(kind == nullptr ? "unknown" : kind) +
                      ", and packages are signed with Ed25519",
                  how_to_make);
}

// What OpenSSL says of something done.
void has_to_be_done(int done) {
  if (done == 1) return;
  throw std::runtime_error(
      "OpenSSL does not work with Ed25519: there is not enough memory for this, or it was built without");
}

std::string bytes_of(BIO* bio) {
  char* data = nullptr;
  const long size = BIO_get_mem_data(bio, &data);
  return {data, static_cast<std::size_t>(size)};
}

}  // namespace

bool has_keys() { return true; }

Result<Ed25519Key> Ed25519Key::private_key(std::string_view pem, const std::string& file) {
  if (pem.size() > largest_key_file) return unusable(file, "is too large for a key", how_to_make);
  if (has(pem, "BEGIN PUBLIC KEY"))
    return unusable(file, "holds the public half of a key; signing needs the private one", how_to_make);
  if (has(pem, "ENCRYPTED"))
    return unusable(file, "holds a key that is encrypted, and nobody is asked for its password here",
                    "decrypt it into a file that only you can read: openssl pkey -in KEY -out PLAIN");
  const Bio bio = reading(pem);
  const Result<Key> key =
      right_kind(PEM_read_bio_PrivateKey_ex(bio.get(), nullptr, no_password, nullptr, own_openssl(), nullptr), file);
  if (!key) return key.faults();
  return Ed25519Key(*key);
}

Result<Ed25519Key> Ed25519Key::public_key(std::string_view pem, const std::string& file) {
  if (pem.size() > largest_key_file) return unusable(file, "is too large for a key", how_to_make);
  if (has(pem, "PRIVATE KEY"))
    return unusable(file, "holds a private key, which nobody but the signer should have",
                    "take the public half: openssl pkey -in KEY -pubout");
  const Bio bio = reading(pem);
  const Result<Key> key =
      right_kind(PEM_read_bio_PUBKEY_ex(bio.get(), nullptr, no_password, nullptr, own_openssl(), nullptr), file);
  if (!key) return key.faults();
  return Ed25519Key(*key);
}

std::string Ed25519Key::sign(std::string_view bytes) const {
  const DigestContext context(EVP_MD_CTX_new(), EVP_MD_CTX_free);
  std::array<unsigned char, signature_bytes> signature{};
  std::size_t length = signature.size();
  const auto* data = reinterpret_cast<const unsigned char*>(bytes.data());
  has_to_be_done(EVP_DigestSignInit_ex(context.get(), nullptr, nullptr, own_openssl(), nullptr, key_.get(), nullptr));
  has_to_be_done(EVP_DigestSign(context.get(), signature.data(), &length, data, bytes.size()));
  return {reinterpret_cast<const char*>(signature.data()), length};
}

bool Ed25519Key::has_signed(std::string_view bytes, std::string_view signature) const {
  const DigestContext context(EVP_MD_CTX_new(), EVP_MD_CTX_free);
  has_to_be_done(EVP_DigestVerifyInit_ex(context.get(), nullptr, nullptr, own_openssl(), nullptr, key_.get(), nullptr));
  const int verdict =
      EVP_DigestVerify(context.get(), reinterpret_cast<const unsigned char*>(signature.data()), signature.size(),
                       reinterpret_cast<const unsigned char*>(bytes.data()), bytes.size());
  ERR_clear_error();
  return verdict == 1 && signature.size() == signature_bytes;
}

std::string Ed25519Key::public_pem() const {
  const Bio bio(BIO_new(BIO_s_mem()), BIO_free);
  has_to_be_done(PEM_write_bio_PUBKEY(bio.get(), key_.get()));
  return bytes_of(bio.get());
}

std::string Ed25519Key::fingerprint() const {
  const Bio bio(BIO_new(BIO_s_mem()), BIO_free);
  has_to_be_done(i2d_PUBKEY_bio(bio.get(), key_.get()));
  return sha256_of(bytes_of(bio.get()));
}

}  // namespace driftwarden
