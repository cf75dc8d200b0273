// SPDX-License-Identifier: MIT
#include "driftwarden/report/page_style.hpp"

#include "driftwarden/system/digest.hpp"

namespace driftwarden {

std::string policy_hash(std::string_view bytes) { return "sha256-" + base64_sha256_of(bytes); }

std::string content_policy(std::string_view style, std::string_view script) {
  return "default-src 'none'; style-src '" + policy_hash(style) + "'; script-src '" + policy_hash(script) +
         "'; img-src data:; base-uri 'none'; form-action 'none'";
}

}  // namespace driftwarden
