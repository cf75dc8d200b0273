// SPDX-License-Identifier: MIT
#pragma once

#include <filesystem>
#include <string>
#include <vector>

#include "diagnostic/diagnostic.hpp"

namespace driftwarden {

inline constexpr const char* gnuplot_program = "gnuplot";

// What is told where the program isn't there: plot/no-gnuplot.
inline Diagnostic no_gnuplot(const std::string& program = gnuplot_program) {
  return error("plot/no-gnuplot", {program, 0, 0}, "the pictures can't be drawn: there is no program gnuplot",
               "install the package gnuplot-nox (sudo apt-get install gnuplot-nox) and run this again");
}
inline bool is_no_gnuplot(const Diagnostics& faults) {
  return !faults.empty() && faults.front().id == "plot/no-gnuplot";
}

// Has gnuplot draw all pictures of a script in one process, and puts them into a folder, which is there already. The
// script writes them by their names alone; it is run in a folder of its own, and only what came out whole is moved to
// its place. Faults: plot/no-gnuplot (the program isn't there), plot/failed, output/unwritable.
Diagnostics draw_pictures(const std::string& script, const std::vector<std::string>& pictures,
                          const std::filesystem::path& folder, const std::string& program = gnuplot_program);

}  // namespace driftwarden
