// SPDX-License-Identifier: MIT
#include "system/held_file.hpp"

#include <algorithm>

#include "system/open_file.hpp"

namespace driftwarden {

Result<HeldFile> HeldFile::open(const std::filesystem::path& path, const std::string& shown_name) {
  OpenFile file(path);
  if (file.reason() != 0) return unreadable(shown_name, file.reason());
  HeldFile held;
  held.data_ = std::make_unique_for_overwrite<char[]>(file.size() + padding);
  held.size_ = file.read(0, file.size(), held.data_.get());
  if (file.reason() != 0) return unreadable(shown_name, file.reason());
  std::fill_n(held.data_.get() + held.size_, padding, '\0');
  return held;
}

void HeldFile::keep_first(std::size_t count) {
  size_ = std::min(size_, count);
  std::fill_n(data_.get() + size_, padding, '\0');
}

}  // namespace driftwarden
