// SPDX-License-Identifier: MIT
#include "book/file_as_read.hpp"

#include <algorithm>
#include <array>
#include <cstring>

#include "system/held_file.hpp"

namespace driftwarden {
namespace {

constexpr std::uint64_t odd_factor = 0x9E3779B97F4A7C15;

std::uint64_t mixed(std::uint64_t sum, std::uint64_t word) {
  sum = (sum ^ word) * odd_factor;
  return sum ^ (sum >> 29U);
}

std::uint64_t word_at(const char* bytes) {
  std::uint64_t word = 0;
  std::memcpy(&word, bytes, sizeof word);
  return word;
}

// Whether a new row could begin behind these bytes.
bool ends_a_row(std::string_view bytes, std::size_t size) {
  if (size == 0 || bytes[size - 1] == '\n') return true;
  return bytes[size] == '\n' || bytes[size] == '\r';
}

}  // namespace

// Four sums side by side, which a processor works out at once.
std::uint64_t print_of_piece(std::size_t piece, std::string_view bytes) {
  std::array<std::uint64_t, 4> sums{piece + 1, piece + 2, piece + 3, piece + 4};
  constexpr std::size_t stretch = sizeof(std::uint64_t) * sums.size();
  std::size_t at = 0;
  for (; at + stretch <= bytes.size(); at += stretch) {
    for (std::size_t i = 0; i < sums.size(); ++i) sums[i] = mixed(sums[i], word_at(bytes.data() + at + 8 * i));
  }
  std::uint64_t sum = mixed(bytes.size(), odd_factor);
  for (; at < bytes.size(); ++at) sum = mixed(sum, static_cast<unsigned char>(bytes[at]));
  for (const std::uint64_t one : sums) sum = mixed(sum, one);
  return sum;
}

std::uint64_t print_of(std::string_view bytes) {
  std::uint64_t print = 0;
  for (std::size_t piece = 0; piece * print_piece < bytes.size(); ++piece) {
    print += print_of_piece(piece, bytes.substr(piece * print_piece, print_piece));
  }
  return print;
}

Diagnostic file_changed(const std::string& name, const std::string& how) {
  return error("file/changed", {name, 0, 0}, "the file changed while the book was read: " + how,
               "run it again when nobody writes to it");
}

std::optional<Diagnostic> change_of(const std::filesystem::path& folder, const FileAsRead& seen) {
  const std::optional<FileStamp> now = stamp_of(folder / seen.name);
  if (now == seen.stamp) return std::nullopt;
  if (!now) return file_changed(seen.name, "it is gone");
  if (now->size < seen.stamp.size) return file_changed(seen.name, "it became shorter");
  const Result<HeldFile> bytes = HeldFile::open(folder / seen.name, seen.name);
  if (!bytes) return bytes.faults().front();
  const std::string_view text = bytes->bytes();
  const auto size = static_cast<std::size_t>(seen.stamp.size);
  if (text.size() < size) return file_changed(seen.name, "it became shorter");
  if (print_of(text.substr(0, size)) != seen.print) return file_changed(seen.name, "other bytes stand in it");
  if (text.size() == size) return std::nullopt;
  if (!ends_a_row(text, size)) return file_changed(seen.name, "its last row was still being written");
  return remark("file/grown", {seen.name, 0, 0}, "rows were added while the book was read; they are not in this run",
                "run it again to have them, too");
}

}  // namespace driftwarden
