// SPDX-License-Identifier: MIT
#pragma once

#include <fstream>
#include <string>

// As much of gnuplot-iostream as workshop/gnuplot_run uses, which is its file mode: ">NAME" and a stream. A page then
// starts no gnuplot, as there is none.
class Gnuplot : public std::ofstream {
 public:
  explicit Gnuplot(const std::string& to_file) : std::ofstream(to_file.substr(1)) {}
};
