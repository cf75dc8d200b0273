// SPDX-License-Identifier: MIT
#include "outside/outside_program.hpp"

namespace driftwarden {

std::string ProgramEnd::said() const { return "there is no such program"; }

// A page can start none.
ProgramEnd run_apart(const OutsideProgram&) {
  ProgramEnd end;
  end.is_found = false;
  return end;
}

}  // namespace driftwarden
