// SPDX-License-Identifier: MIT
#pragma once

#include <filesystem>
#include <string>
#include <string_view>

#include "driftwarden/diagnostic/result.hpp"
#include "driftwarden/evidence/bag_info.hpp"
#include "driftwarden/evidence/manifest.hpp"
#include "driftwarden/evidence/signature.hpp"

namespace driftwarden {

// A folder being written beside the place it is to have, as NAME.unfinished-123; removed with everything in it unless
// it was put there. Who is killed leaves it behind.
class UnfinishedFolder {
 public:
  // Makes the folders above it, too. Faults: evidence/already-there, evidence/unwritable.
  static Result<UnfinishedFolder> beside(const std::filesystem::path& place);

  UnfinishedFolder(UnfinishedFolder&& other) noexcept;
  UnfinishedFolder(const UnfinishedFolder&) = delete;
  UnfinishedFolder& operator=(const UnfinishedFolder&) = delete;
  UnfinishedFolder& operator=(UnfinishedFolder&&) = delete;
  ~UnfinishedFolder();

  const std::filesystem::path& path() const { return path_; }
  // Everything in it on the disk, then under its own name, in one step and never over anything. Faults as above.
  Diagnostics put_in_place();

 private:
  UnfinishedFolder(std::filesystem::path path, std::filesystem::path place);
  std::filesystem::path path_;  // empty: not there any more
  std::filesystem::path place_;
};

// Writes a bag, file by file. What goes wrong is kept, and nothing more is written: ask failure() when it suits.
class BagWriter {
 public:
  static Result<BagWriter> begin(const std::filesystem::path& place);

  const std::filesystem::path& folder() const { return folder_.path(); }
  const Diagnostics& failure() const { return failure_; }

  // Names are as from the bag's folder: "data/…" is payload, all else is a tag file.
  void add(const std::string& name, std::string_view bytes);
  void copy(const std::string& name, const std::filesystem::path& file);
  // A file that somebody else wrote into folder().
  void adopt(const std::string& name);

  // Writes what is left of a bag, signs it where there is a key, and puts it in its place.
  Diagnostics finish(const BagInfo& info, const Ed25519Key* key);

 private:
  explicit BagWriter(UnfinishedFolder folder) : folder_(std::move(folder)) {}
  void write(const std::string& name, std::string_view bytes);
  void list(const std::string& name, std::string_view bytes);

  UnfinishedFolder folder_;
  Manifest payload_;
  Manifest tags_;
  PayloadSize size_;
  Diagnostics failure_;
};

}  // namespace driftwarden
