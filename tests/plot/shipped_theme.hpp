// SPDX-License-Identifier: MIT
#pragma once

#include <stdexcept>

#include "plot/theme.hpp"
#include "support/project_folder.hpp"

namespace driftwarden {

inline Theme shipped_theme(const std::string& name = "light") {
  const Result<Theme> theme = read_theme(project_folder(), name);
  if (!theme) throw std::runtime_error(to_text(theme.faults().front()));
  return *theme;
}

}  // namespace driftwarden
