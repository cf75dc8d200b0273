// SPDX-License-Identifier: MIT
#pragma once

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <stdexcept>
#include <string>

#include "support/project_folder.hpp"

namespace driftwarden {

// A digital calibration certificate of tests/book/dcc.
inline std::string dcc(const std::string& name) {
  const std::filesystem::path path = std::filesystem::path(project_folder()) / "tests/book/dcc" / name;
  std::ifstream in(path, std::ios::binary);
  if (!in) throw std::runtime_error("can't read " + path.string());
  return {std::istreambuf_iterator<char>(in), std::istreambuf_iterator<char>()};
}

// With the first of something in it written otherwise.
inline std::string dcc_with(const std::string& name, const std::string& what, const std::string& by) {
  std::string text = dcc(name);
  const std::size_t at = text.find(what);
  if (at == std::string::npos) throw std::runtime_error(name + " has no " + what);
  return text.replace(at, what.size(), by);
}

inline std::size_t line_of(const std::string& text, const std::string& what) {
  return 1 + static_cast<std::size_t>(
                 std::count(text.begin(), text.begin() + static_cast<std::ptrdiff_t>(text.find(what)), '\n'));
}

}  // namespace driftwarden
