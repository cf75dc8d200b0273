// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <string_view>

namespace driftwarden {

// The style sheet and the script of the review page: src/report/review.css and review.js, built into the program.
std::string_view review_css();
std::string_view review_js();

// A Content-Security-Policy that allows just this style sheet and this script, by their SHA-256, and nothing from
// anywhere else.
std::string content_policy(std::string_view style, std::string_view script);

// SHA-256 of some bytes as such a policy writes it: "sha256-" and base64 (RFC 4648, section 4).
std::string policy_hash(std::string_view bytes);

}  // namespace driftwarden
