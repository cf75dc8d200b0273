// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>
#include <cstdint>
#include <filesystem>
#include <optional>
#include <string>
#include <string_view>

#include "diagnostic/diagnostic.hpp"
#include "system/file_stamp.hpp"

namespace driftwarden {

// A file as a run has read it. Its size is taken once, before anything is read; what is written behind that is not of
// the run. The print is a sum over its bytes that tells an accident, not a forger.
struct FileAsRead {
  std::string name;  // from the book's folder
  FileStamp stamp;
  std::uint64_t print = 0;
};

// A file's print is the sum of its pieces', each of so many bytes; the last may be shorter.
inline constexpr std::size_t print_piece = std::size_t{1} << 20;
std::uint64_t print_of_piece(std::size_t piece, std::string_view bytes);
std::uint64_t print_of(std::string_view bytes);

Diagnostic file_changed(const std::string& name, const std::string& how);

// What has become of a file since it was seen: nothing where it has the same bytes; a remark (file/grown) where whole
// rows were added behind them; else an error (file/changed).
std::optional<Diagnostic> change_of(const std::filesystem::path& folder, const FileAsRead& seen);

}  // namespace driftwarden
