// SPDX-License-Identifier: MIT
#pragma once

#include <filesystem>
#include <string>
#include <string_view>

#include "diagnostic/result.hpp"
#include "evidence/bag_info.hpp"
#include "evidence/manifest.hpp"
#include "outside/whole_folder.hpp"
#include "system/held_file.hpp"
#include "workshop/signature.hpp"

namespace driftwarden {

// Writes a bag, file by file. What goes wrong is kept, and nothing more is written: ask failure() when it suits.
class BagWriter {
 public:
  // Faults: output/already-there, output/unwritable.
  static Result<BagWriter> begin(const std::filesystem::path& place);

  const std::filesystem::path& folder() const { return folder_.path(); }
  const Diagnostics& failure() const { return failure_; }

  // Names are as from the bag's folder: "data/…" is payload, all else is a tag file.
  void add(const std::string& name, std::string_view bytes);
  void add(const std::string& name, const Result<HeldFile>& file);
  // A file that somebody else wrote into folder().
  void adopt(const std::string& name);

  // Writes what is left of a bag, signs it where there is a key, and puts it in its place.
  Diagnostics finish(const BagInfo& info, const Ed25519Key* key);

 private:
  explicit BagWriter(WholeFolder folder) : folder_(std::move(folder)) {}
  void write(const std::string& name, std::string_view bytes);
  void list(const std::string& name, std::string_view bytes);

  WholeFolder folder_;
  Manifest payload_;
  Manifest tags_;
  PayloadSize size_;
  Diagnostics failure_;
};

}  // namespace driftwarden
