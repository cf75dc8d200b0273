// SPDX-License-Identifier: MIT
#include "book/own_page.hpp"

#include <algorithm>
#include <string>

#include "system/open_file.hpp"

namespace driftwarden {
namespace {

constexpr std::size_t most_of_a_head = 1024;

std::string bytes_of(OpenFile& file, std::size_t from, std::size_t count) {
  std::string bytes(count, '\0');
  bytes.resize(file.read(from, count, bytes.data()));
  return bytes;
}

}  // namespace

bool is_own_page(const std::filesystem::path& path) {
  OpenFile file(path);
  if (file.reason() != 0) return false;
  const std::string head = bytes_of(file, 0, std::min(file.size(), most_of_a_head));
  if (head.starts_with("<!DOCTYPE html>")) return head.find(html_mark) != std::string::npos;
  if (!head.starts_with("%PDF") || file.size() < pdf_mark.size()) return false;
  return bytes_of(file, file.size() - pdf_mark.size(), pdf_mark.size()) == pdf_mark;
}

}  // namespace driftwarden
