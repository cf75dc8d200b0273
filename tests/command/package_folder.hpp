// SPDX-License-Identifier: MIT
#pragma once

#include "command/called.hpp"
#include "evidence/bag_layout.hpp"
#include "evidence/small_bag.hpp"

namespace driftwarden {

// A folder of a test's own with keys in it, and room for packages.
class PackageFolder {
 public:
  PackageFolder() {
    write_file(path("signer.key"), private_pem_1);
    write_file(path("signer.pem"), public_pem_1);
    write_file(path("other.pem"), public_pem_2);
  }
  std::string path(const std::string& name) const { return (folder_.path() / name).string(); }
  std::string text(const std::string& name) const { return bytes_of_file(path(name)); }

  // Replaces a text of a file, and gives the package new digests of everything, as somebody would who means harm.
  void forge(const std::string& package, const std::string& file, const std::string& from, const std::string& to) const;

 private:
  ScratchFolder folder_;
};

// What a bag-info.txt of driftwarden's says.
inline BagInfo info_of(std::string_view text) {
  const auto after_last = [](std::string_view value, std::string_view what) {
    return std::string(value.substr(std::min(value.find(what) + what.size(), value.size())));
  };
  const std::string day(bag_info_value(text, "Bagging-Date"));
  return {after_last(bag_info_value(text, "Bag-Software-Agent"), "driftwarden "),
          after_last(bag_info_value(text, "External-Description"), "flow: "),
          day_from({std::stoi(day.substr(0, 4)), std::stoi(day.substr(5, 2)), std::stoi(day.substr(8, 2))})};
}

inline void PackageFolder::forge(const std::string& package, const std::string& file, const std::string& from,
                                 const std::string& to) const {
  namespace fs = std::filesystem;
  std::string bytes = text(package + "/" + file);
  const std::size_t at = bytes.find(from);
  if (at == std::string::npos) throw std::runtime_error("no " + from + " in " + file);
  bytes.replace(at, from.size(), to);
  write_file(path(package + "/" + file), bytes);
  const std::string before = text(package + "/" + std::string(bag_info_file));
  fs::rename(path(package), path("old"));
  Result<BagWriter> bag = BagWriter::begin(path(package));
  if (!bag) throw std::runtime_error(to_text(bag.faults().front()));
  for (const auto& entry : fs::recursive_directory_iterator(path("old"))) {
    const std::string name = entry.path().lexically_relative(path("old")).string();
    if (entry.is_regular_file() && (name.starts_with("data/") || name == "READ-ME-FIRST.txt"))
      bag->add(name, HeldFile::open(entry.path(), name));
  }
  const Diagnostics faults = bag->finish(info_of(before), nullptr);
  if (!faults.empty()) throw std::runtime_error(to_text(faults.front()));
  fs::remove_all(path("old"));
}

}  // namespace driftwarden
