// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <string_view>

#include "plot/theme.hpp"

namespace driftwarden {

// A text as gnuplot takes it without reading anything into it: in single quotes, those inside doubled, control
// characters left out. (In double quotes it would run what stands between backticks.)
std::string gnuplot_quoted(std::string_view text);

// A figure for gnuplot; "NaN" where it is missing.
std::string gnuplot_figure(double figure);

// How points are marked, as words of a plot command.
std::string gnuplot_mark(const MarkStyle& mark);

// A figure as a chart prints it: so many significant digits, no trailing zeros, never an exponent below a million.
std::string chart_figure(double figure, int digits = 4);

}  // namespace driftwarden
