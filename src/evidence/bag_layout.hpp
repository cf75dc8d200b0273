// SPDX-License-Identifier: MIT
#pragma once

#include <string_view>

// How a bag (BagIt, RFC 8493) is laid out: what each of its files is called.
namespace driftwarden {

inline constexpr std::string_view payload_folder = "data/";
inline constexpr std::string_view declaration_file = "bagit.txt";
inline constexpr std::string_view bag_info_file = "bag-info.txt";
inline constexpr std::string_view manifest_file = "manifest-sha512.txt";
inline constexpr std::string_view tag_manifest_file = "tagmanifest-sha512.txt";
inline constexpr std::string_view read_me_file = "READ-ME-FIRST.txt";
inline constexpr std::string_view signer_file = "signed-by.pem";
// Signs the tag manifest, and so stands in neither manifest.
inline constexpr std::string_view signature_file = "signature.ed25519";

inline constexpr std::string_view declaration_text = "BagIt-Version: 1.0\nTag-File-Character-Encoding: UTF-8\n";

// The payload of an evidence package.
inline constexpr std::string_view package_note_file = "data/package.json";
inline constexpr std::string_view packed_book = "data/book/";
inline constexpr std::string_view packed_rules = "data/rules/";
inline constexpr std::string_view packed_charts = "data/charts/";
inline constexpr std::string_view packed_results = "data/results/";
inline constexpr std::string_view packed_workings = "data/workings/";
inline constexpr std::string_view review_file = "data/review.html";
inline constexpr std::string_view rows_used_file = "data/rows-used.csv";

inline bool is_payload(std::string_view name) { return name.starts_with(payload_folder); }

}  // namespace driftwarden
