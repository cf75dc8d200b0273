// SPDX-License-Identifier: MIT
#include "evidence/bag_check.hpp"

#include <map>
#include <system_error>
#include <utility>

#include "diagnostic/characters.hpp"
#include "evidence/bag_info.hpp"
#include "evidence/bag_layout.hpp"
#include "evidence/bag_name.hpp"
#include "evidence/manifest.hpp"
#include "system/digest.hpp"
#include "system/held_file.hpp"

namespace driftwarden {
namespace {

namespace fs = std::filesystem;

class Check {
 public:
  Check(const fs::path& folder, const BagLimits& limits) : folder_(folder), limits_(limits) {}

  BagCheck result() {
    look_around();
    if (!bag_.is_safe) return std::move(bag_);
    bag_.tag_manifest = text_of(tag_manifest_file, limits_.manifest_bytes);
    const Manifest tags = manifest_of(tag_manifest_file, bag_.tag_manifest);
    const Manifest payload = manifest_of(manifest_file, text_of(manifest_file, limits_.manifest_bytes));
    if (!bag_.is_safe) return std::move(bag_);
    if (has(signature_file)) bag_.signature = text_of(signature_file, limits_.tag_file_bytes);
    if (has(signer_file)) bag_.signer = text_of(signer_file, limits_.tag_file_bytes);
    hold_against(tags, tag_manifest_file, false);
    hold_against(payload, manifest_file, true);
    if (lists_are_sound_) tell_unlisted(tags, payload);
    check_declaration();
    check_size();
    return std::move(bag_);
  }

 private:
  bool has(std::string_view name) const { return bag_.files.count(std::string(name)) > 0; }

  void tell(const std::string& id, const std::string& name, const std::string& what, const std::string& hint = {}) {
    bag_.faults.push_back(error(id, {shows_itself(name) ? name : in_quotes(name), 0, 0}, what, hint));
  }

  // From here on nothing in the folder is to be trusted.
  void refuse(const std::string& id, const std::string& name, const std::string& what, const std::string& hint) {
    tell(id, name, what, hint);
    bag_.is_safe = false;
  }

  // Every entry of the folder, in whatever order the system gives them; faults are told in order of the names.
  void look_around() {
    std::error_code failure;
    std::set<std::string> folders;
    fs::recursive_directory_iterator entry(folder_, failure);
    std::map<std::string, fs::file_status> odd;
    for (; !failure && entry != fs::recursive_directory_iterator(); entry.increment(failure)) {
      const std::string name = entry->path().lexically_relative(folder_).generic_string();
      const fs::file_status status = entry->symlink_status(failure);
      if (bag_.files.size() + folders.size() >= limits_.files || entry.depth() > limits_.depth) {
        return refuse("evidence/too-large", name,
                      "here are more files, or folders deeper in one another, than a package has",
                      "nothing more is looked at");
      }
      if (fs::is_regular_file(status)) {
        bag_.files.insert(name);
        bag_.bytes += entry->file_size(failure);
      } else if (fs::is_directory(status)) {
        folders.insert(name);
      } else {
        odd.emplace(name, status);
      }
    }
    if (failure) refuse("file/unreadable", folder_.string(), "can't be read: " + failure.message(), "");
    for (const auto& [name, status] : odd) {
      refuse(
          "evidence/not-plain", name,
          fs::is_symlink(status) ? "is a link, and a package has none" : "is no plain file, and a package has no other",
          "nothing of the package is read any further");
    }
    for (const std::string& name : bag_.files) check_name(name);
    tell_empty(folders);
  }

  void check_name(const std::string& name) {
    const std::string fault = fault_of_bag_name(name);
    if (!fault.empty()) {
      refuse("evidence/name", name, "the name " + in_quotes(name) + " " + fault,
             "nothing is read under such a name; a package of driftwarden has none");
    }
  }

  void tell_empty(const std::set<std::string>& folders) {
    for (const std::string& folder : folders) {
      const auto inside = bag_.files.lower_bound(folder + "/");
      if (inside == bag_.files.end() || !inside->starts_with(folder + "/"))
        tell("evidence/not-listed", folder, "is an empty folder, and no file of the package lies in it");
    }
  }

  // "" where it can't be read; told, but for one that is merely not there.
  std::string text_of(std::string_view name, std::size_t most) {
    const std::string file(name);
    std::error_code failure;
    const std::uintmax_t size = fs::file_size(folder_ / file, failure);
    if (failure) return "";
    if (size > most) {
      refuse("evidence/too-large", file, "is larger than any such file of a package", "it is not read");
      return "";
    }
    const Result<HeldFile> text = HeldFile::open(folder_ / file, file);
    if (text) return std::string(text->bytes());
    bag_.faults.insert(bag_.faults.end(), text.faults().begin(), text.faults().end());
    return "";
  }

  Manifest manifest_of(std::string_view name, const std::string& text) {
    const bool were_sound = std::exchange(lists_are_sound_, false);
    if (!has(name)) {
      tell("evidence/missing", std::string(name), "is not there, so nobody can say what the package should hold");
      return {};
    }
    Result<Manifest> manifest = parse_manifest(text, std::string(name));
    if (manifest) {
      lists_are_sound_ = were_sound;
      return *std::move(manifest);
    }
    for (const Diagnostic& fault : manifest.faults()) {
      bag_.faults.push_back(fault);
      bag_.is_safe &= fault.id != "evidence/name";
    }
    return {};
  }

  void hold_against(const Manifest& manifest, std::string_view listed_in, bool is_of_payload) {
    for (const auto& [name, digest] : manifest) {
      if (is_payload(name) != is_of_payload || name == tag_manifest_file || name == signature_file) {
        tell("evidence/manifest", std::string(listed_in), "lists " + in_quotes(name) + ", which has no place in it");
      } else if (!has(name)) {
        tell("evidence/missing", name, "is listed in " + std::string(listed_in) + " and is not there",
             "it was removed or renamed after the package was made");
      } else {
        check_digest(name, digest, listed_in);
      }
    }
  }

  void check_digest(const std::string& name, const std::string& digest, std::string_view listed_in) {
    const Result<HeldFile> file = HeldFile::open(folder_ / name, name);
    if (!file) {
      bag_.faults.insert(bag_.faults.end(), file.faults().begin(), file.faults().end());
    } else if (sha512_of(file->bytes()) != digest) {
      tell("evidence/changed", name, "does not have the SHA-512 that " + std::string(listed_in) + " gives it",
           "one of the two was changed after the package was made");
    }
  }

  void tell_unlisted(const Manifest& tags, const Manifest& payload) {
    for (const std::string& name : bag_.files) {
      const bool is_signature = name == signature_file && has(signer_file);
      if (name == tag_manifest_file || is_signature || tags.count(name) > 0 || payload.count(name) > 0) continue;
      tell("evidence/not-listed", name, "is in no manifest", "it was added or renamed after the package was made");
    }
    for (const std::string_view name : {declaration_file, bag_info_file, manifest_file, read_me_file}) {
      if (tags.count(std::string(name)) == 0)
        tell("evidence/missing", std::string(name), "is not listed in " + std::string(tag_manifest_file));
    }
  }

  void check_declaration() {
    if (has(declaration_file) && text_of(declaration_file, limits_.tag_file_bytes) != declaration_text)
      tell("evidence/bag", std::string(declaration_file), "does not declare a bag of BagIt 1.0 in UTF-8");
  }

  void check_size() {
    if (!has(bag_info_file)) return;
    PayloadSize size;
    std::error_code failure;
    for (auto name = bag_.files.lower_bound(std::string(payload_folder)); name != bag_.files.end() && is_payload(*name);
         ++name) {
      size.bytes += fs::file_size(folder_ / *name, failure);
      ++size.files;
    }
    const std::string text = text_of(bag_info_file, limits_.tag_file_bytes);
    const std::string_view said = bag_info_value(text, "Payload-Oxum");
    if (said != to_text(size)) {
      tell("evidence/bag", std::string(bag_info_file),
           "says Payload-Oxum (bytes and files) " + in_quotes(said) + "; the payload has " + to_text(size));
    }
  }

  const fs::path& folder_;
  const BagLimits& limits_;
  BagCheck bag_;
  bool lists_are_sound_ = true;  // else nobody can say what is listed
};

}  // namespace

Result<BagCheck> check_bag(const fs::path& folder, const BagLimits& limits) {
  std::error_code failure;
  const auto is_there = [&](std::string_view name) { return fs::exists(folder / name, failure); };
  if (!fs::is_directory(folder, failure) || (!is_there(declaration_file) && !is_there(tag_manifest_file))) {
    return error("evidence/no-bag", {folder.string(), 0, 0}, "is no evidence package",
                 "name the folder that holds READ-ME-FIRST.txt, bagit.txt and tagmanifest-sha512.txt");
  }
  return Check(folder, limits).result();
}

}  // namespace driftwarden
