// SPDX-License-Identifier: MIT
#pragma once

#include <array>
#include <cstdlib>
#include <fstream>
#include <sstream>
#include <stdexcept>
#include <string>
#include <vector>

#include "support/project_folder.hpp"

namespace driftwarden::test {

// A line of a file that tests/support/elementary_values.py wrote.
struct FunctionValue {
  std::string function;
  std::array<double, 3> arguments{};
  double value = 0;
};

inline std::string value_file(const std::string& name) { return std::string(project_folder()) + "/tests/" + name; }

inline std::vector<FunctionValue> hexadecimal_values(const std::string& path) {
  std::ifstream file(path);
  if (!file) throw std::runtime_error("can't read " + path);
  std::vector<FunctionValue> values;
  for (std::string line; std::getline(file, line);) {
    std::istringstream words(line);
    FunctionValue read;
    words >> read.function;
    std::size_t n = 0;
    for (std::string word; words >> word; ++n) {
      read.value = std::strtod(word.c_str(), nullptr);
      if (n < read.arguments.size()) read.arguments[n] = read.value;
    }
    if (n == 0) throw std::runtime_error(path + ": no value in: " + line);
    if (n <= read.arguments.size()) read.arguments[n - 1] = 0;
    values.push_back(read);
  }
  return values;
}

}  // namespace driftwarden::test
