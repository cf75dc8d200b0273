// SPDX-License-Identifier: MIT
#pragma once

#include <filesystem>
#include <string>
#include <vector>

namespace driftwarden {

// A program of the system's that draws or prints for this one.
struct OutsideProgram {
  std::string name;  // looked for in PATH where it is no path
  std::vector<std::string> arguments;
  std::filesystem::path folder;  // where it works: one of its own, there already; its home is made inside
  int most_seconds = 600;        // then it is ended
};

// How a program ended, or why it didn't begin.
struct ProgramEnd {
  bool is_found = true;
  int failure = 0;           // the error of starting it, or 0
  bool is_too_late = false;  // it was ended when its time was up
  int status = 0;            // as waitpid gives it
  std::string complaint;     // the last line that it said on standard error

  bool is_well() const { return is_found && failure == 0 && !is_too_late && status == 0; }
  // "it ended with status 3", "it was ended by signal 9", "it had not ended after 600 s", …
  std::string said() const;
};

// Runs a program apart from the user and the world, and waits for it: no input, its output thrown away, an empty home,
// nothing of the environment but where programs and libraries are, plain UTF-8, UTC, and no network as far as the
// system lets a process leave it. It is ended with this program. No shell takes part.
ProgramEnd run_apart(const OutsideProgram& program);

}  // namespace driftwarden
