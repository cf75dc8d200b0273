// SPDX-License-Identifier: MIT
#include "workshop/bag_writer.hpp"

#include <utility>

#include "evidence/bag_layout.hpp"
#include "evidence/bag_name.hpp"
#include "outside/output_stream.hpp"
#include "outside/write_fault.hpp"
#include "system/digest.hpp"
#include "system/held_file.hpp"

namespace driftwarden {

namespace fs = std::filesystem;

Result<BagWriter> BagWriter::begin(const fs::path& place) {
  Result<WholeFolder> folder = WholeFolder::beside(place);
  if (!folder) return folder.faults();
  return BagWriter(*std::move(folder));
}

void BagWriter::write(const std::string& name, std::string_view bytes) {
  if (!failure_.empty()) return;
  const int reason = write_new(folder() / name, bytes);
  if (reason != 0) failure_.push_back(unwritable(folder() / name, reason));
}

void BagWriter::list(const std::string& name, std::string_view bytes) {
  const std::string fault = fault_of_bag_name(name);
  if (!fault.empty()) {
    failure_.push_back(error("evidence/name", {name, 0, 0}, "the name " + in_quotes(name) + " " + fault,
                             "give the file another name; such a one can't be packed safely"));
  }
  if (!failure_.empty()) return;
  (is_payload(name) ? payload_ : tags_)[name] = sha512_of(bytes);
  if (!is_payload(name)) return;
  size_.bytes += bytes.size();
  ++size_.files;
}

void BagWriter::add(const std::string& name, std::string_view bytes) {
  list(name, bytes);
  write(name, bytes);
}

void BagWriter::add(const std::string& name, const Result<HeldFile>& file) {
  if (!failure_.empty()) return;
  if (file) return add(name, file->bytes());
  failure_ = file.faults();
}

void BagWriter::adopt(const std::string& name) {
  if (!failure_.empty()) return;
  const Result<HeldFile> bytes = HeldFile::open(folder() / name, name);
  if (!bytes) {
    failure_ = bytes.faults();
    return;
  }
  list(name, bytes->bytes());
}

Diagnostics BagWriter::finish(const BagInfo& info, const Ed25519Key* key) {
  if (key != nullptr) add(std::string(signer_file), key->public_pem());
  add(std::string(declaration_file), declaration_text);
  add(std::string(bag_info_file), bag_info_text(info, size_));
  add(std::string(manifest_file), manifest_text(payload_));
  const std::string tag_manifest = manifest_text(tags_);
  write(std::string(tag_manifest_file), tag_manifest);
  if (key != nullptr) write(std::string(signature_file), key->sign(tag_manifest));
  if (!failure_.empty()) return failure_;
  return folder_.put_in_place();
}

}  // namespace driftwarden
