// SPDX-License-Identifier: MIT
#pragma once

#include <string>

#include "plot/legend.hpp"
#include "plot/panel.hpp"

namespace driftwarden {

// What draws pictures: gnuplot commands, and in a page, which has no gnuplot, the pictures themselves (src/page/plot).

// Begins and ends a picture of several panels.
void begin_picture(std::string& script, const PictureHead& head, const Theme& theme);
void end_picture(std::string& script);

// Draws a panel, or a legend, on its picture, of that size, which has been begun. Names of levels that would overprint
// one another are moved apart.
void append_panel(std::string& script, const Panel& panel, const Theme& theme, Extent picture);

void append_legend(std::string& script, const Box& box, const Legend& legend, const Theme& theme, Extent picture);

}  // namespace driftwarden
