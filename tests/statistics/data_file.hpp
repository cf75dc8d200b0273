// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>
#include <fstream>
#include <sstream>
#include <stdexcept>
#include <string>
#include <vector>

#include "quantity/number.hpp"
#include "support/project_folder.hpp"

namespace driftwarden::test {

// One column of a file of a floor's test data: a line that names the source, a heading, then numbers with commas.
inline std::vector<double> column_of(const std::string& file_name, std::size_t column = 0,
                                     const std::string& floor = "statistics") {
  const std::string path = std::string(project_folder()) + "/tests/" + floor + "/data/" + file_name;
  std::ifstream file(path);
  std::string line;
  if (!std::getline(file, line) || !std::getline(file, line)) throw std::runtime_error("can't read " + path);
  std::vector<double> values;
  while (std::getline(file, line)) {
    std::istringstream cells(line);
    std::string cell;
    for (std::size_t i = 0; i <= column; ++i) std::getline(cells, cell, ',');
    const auto value = number_from(cell);
    if (!value) throw std::runtime_error(path + ": no number: " + cell);
    values.push_back(*value);
  }
  return values;
}

}  // namespace driftwarden::test
