// SPDX-License-Identifier: MIT
#pragma once

#include <vector>

#include "plot/panel.hpp"

namespace driftwarden {

// Where words stand on a panel and in the head of a picture, whoever draws them.

// A level, and how high its name stands, 0 to 1 from the bottom of the panel.
struct PlacedLevel {
  const Panel::Level* level = nullptr;
  double height = 0;
};

// Those within the panel, from the bottom up, moved apart where they would overprint one another.
std::vector<PlacedLevel> placed_levels(const Panel& panel);

// A note, and where the middle of its left edge is, 0 to 1 from the lower left corner of the panel.
struct PlacedNote {
  const Panel::Note* note = nullptr;
  double x = 0;
  double y = 0;
};

// Those for which there is a place where they cover nothing.
std::vector<PlacedNote> placed_notes(const Panel& panel, const Theme& theme, Extent picture);

inline constexpr double length_of_key_line = 26;  // pixels

// An entry of a picture's key, in pixels from the picture's left edge and from its top.
struct PlacedKey {
  const PictureKey* entry = nullptr;
  double left = 0;  // of its line
  double x = 0;     // of its mark, else of its words
  double down = 0;
};
std::vector<PlacedKey> placed_key(const PictureHead& head, const Theme& theme);

// How many pixels a key takes in the head of a picture so wide.
double height_of_key(const std::vector<PictureKey>& key, double width, const Theme& theme);

}  // namespace driftwarden
