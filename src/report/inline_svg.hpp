// SPDX-License-Identifier: MIT
#pragma once

#include <optional>
#include <string>
#include <string_view>

namespace driftwarden {

// A chart drawn by gnuplot, made fit to stand in an HTML page among others: no ids that could meet those of another
// chart, no styles that a strict page would refuse, no element or attribute but those that draw, texts escaped. Colours
// that are numbers, as in rgb(3, 3, 3), become the classes s3 (strokes), f3 (fills) and k3 (marks); all others are left
// out, and with them the ground.
struct InlineSvg {
  std::string picture;
  std::string symbols;  // the marks of points, the same for all charts: once a page is enough
};

// `label` is what the chart says to those who can't see it. Nothing where the text is no SVG.
std::optional<InlineSvg> inline_svg(std::string_view svg, std::string_view label);

// Stands in a page for the drawings that are taken out of it.
inline constexpr std::string_view no_drawing = "<svg></svg>";

// A page with that in place of each of its drawings, so that two can be compared that different programs drew.
std::string without_drawings(std::string_view html);

}  // namespace driftwarden
