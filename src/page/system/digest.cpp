// SPDX-License-Identifier: MIT
#include "system/digest.hpp"

#include <tomcrypt.h>

#include <array>

#include "diagnostic/hexadecimal.hpp"

namespace driftwarden {
namespace {

constexpr std::size_t sha256_bytes = 32;
constexpr std::size_t sha512_bytes = 64;

const unsigned char* start_of(std::string_view bytes) { return reinterpret_cast<const unsigned char*>(bytes.data()); }

std::array<unsigned char, sha256_bytes> sha256(std::string_view bytes) {
  hash_state state;
  std::array<unsigned char, sha256_bytes> digest{};
  sha256_init(&state);
  sha256_process(&state, start_of(bytes), bytes.size());
  sha256_done(&state, digest.data());
  return digest;
}

std::array<unsigned char, sha512_bytes> sha512(std::string_view bytes) {
  hash_state state;
  std::array<unsigned char, sha512_bytes> digest{};
  sha512_init(&state);
  sha512_process(&state, start_of(bytes), bytes.size());
  sha512_done(&state, digest.data());
  return digest;
}

template <std::size_t count>
std::string hexadecimal(const std::array<unsigned char, count>& digest) {
  std::string text;
  for (const unsigned char byte : digest) append_hexadecimal(text, byte, 2);
  return text;
}

}  // namespace

std::string sha256_of(std::string_view bytes) { return hexadecimal(sha256(bytes)); }

std::string sha512_of(std::string_view bytes) { return hexadecimal(sha512(bytes)); }

// Three bytes are four letters; the last two of a SHA-256 are three, and '='.
std::string base64_sha256_of(std::string_view bytes) {
  constexpr std::string_view letters = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
  const std::array<unsigned char, sha256_bytes> digest = sha256(bytes);
  std::string text;
  for (std::size_t at = 0; at < digest.size(); at += 3) {
    const auto octet = [&](std::size_t from) { return at + from < digest.size() ? digest[at + from] : 0U; };
    const std::uint32_t three = (octet(0) << 16U) | (octet(1) << 8U) | octet(2);
    for (const unsigned shift : {18U, 12U, 6U, 0U}) text += letters[(three >> shift) & 63U];
  }
  text.back() = '=';
  return text;
}

}  // namespace driftwarden
