// SPDX-License-Identifier: MIT
#pragma once

#include <cstdint>
#include <filesystem>
#include <set>
#include <string>

#include "diagnostic/result.hpp"

namespace driftwarden {

// More than this no package has; a folder that does isn't read to its end.
struct BagLimits {
  std::size_t files = 2'000'000;
  int depth = 16;
  std::size_t manifest_bytes = std::size_t{512} << 20;
  std::size_t tag_file_bytes = std::size_t{1} << 20;
};

// What came of looking a bag through.
struct BagCheck {
  Diagnostics faults;           // everything that is amiss, in order of the files
  bool is_safe = true;          // only plain files under names that stay inside: its payload may be read
  std::set<std::string> files;  // all that are there
  std::uintmax_t bytes = 0;
  std::string tag_manifest;  // the text that is signed
  std::string signature;     // empty: there is none
  std::string signer;        // the public key enclosed, in PEM; empty: there is none
};

// Looks at every file of a bag: whether all that its manifests name are there and nothing else, and whether their
// digests hold. Links aren't followed, and nothing is read that is no plain file of the folder.
// Fails with evidence/no-bag where the folder is no bag at all. Faults found: evidence/not-plain, evidence/name,
// evidence/manifest, evidence/too-large, evidence/missing, evidence/not-listed, evidence/changed, evidence/bag.
Result<BagCheck> check_bag(const std::filesystem::path& folder, const BagLimits& limits = {});

}  // namespace driftwarden
